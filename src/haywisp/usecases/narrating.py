"""A narration understood on its own, without a record: as JSON, as text or as a page."""

from collections.abc import Callable, Mapping

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration
from haywisp.usecases.errors import Refused
from haywisp.usecases.listening import listen, refuse_large


def narrated(data: bytes, file_name: str, form: str, tables: Tables) -> str:
    """What was understood of a file, in ``json``, ``text`` or ``html``."""
    if form not in FORMS:
        raise Refused(f"There is no format “{form}”. There are: {', '.join(FORMS)}.")
    refuse_large(data, file_name)
    return FORMS[form](listen(data, file_name, tables), tables)


def _json(narration: Narration, tables: Tables) -> str:
    from haywisp.exchange import contract_json

    return contract_json.write(narration)


def _text(narration: Narration, tables: Tables) -> str:
    from haywisp import report

    return report.narration_text(narration, tables)


def _html(narration: Narration, tables: Tables) -> str:
    from haywisp import report

    return report.narration_html(narration, tables)


FORMS: Mapping[str, Callable[[Narration, Tables], str]] = {"json": _json, "text": _text, "html": _html}
