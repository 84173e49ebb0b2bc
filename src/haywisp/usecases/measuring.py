"""What a tape tells: readings as they are typed, and the quantity with how well it is known."""

import re

from haywisp.usecases.errors import Refused
from haywisp.usecases.views import TapeView

NOT_FOR = "Of a grown horse; not for foals, nor for mares in foal. A weighbridge comes before any tape."


def weight(girth: str, length: str) -> TapeView:
    """Body weight from heart girth and body length, both in centimetres as they were typed."""
    from haywisp.measure import weight_from_tape

    found = weight_from_tape(_centimetres("girth", girth), _centimetres("body length", length))
    error = "the source gives no error in kg" if found.error is None else f"standard error {found.error:.0f} kg"
    return TapeView(
        value=found.value,
        sentence=f"About {found.value:.0f} kg by the tape.",
        method=found.method,
        error=error,
        source=found.source,
        caution=NOT_FOR,
    )


def weight_note(girth: str, length: str) -> str:
    """The same as the text of a note, with its readings and its source."""
    found = weight(girth, length)
    readings = f"girth {_centimetres('girth', girth):g} cm, body length {_centimetres('body length', length):g} cm"
    return f"Tape: {readings}. {found.sentence} {found.method}; {found.error}. Source: {found.source}."


def _centimetres(name: str, text: str) -> float:
    plain = re.fullmatch(r"([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s*(?:cm)?", text.strip(), re.IGNORECASE)
    if not plain:
        raise Refused(f"The {name} “{text[:40]}” should be a number of centimetres, such as 180.")
    return float(plain[1].replace(",", "."))
