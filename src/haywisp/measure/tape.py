"""What a tape round the horse tells: body weight, and the neck's circumference against the height."""

from haywisp.measure.readings import checked
from haywisp.measure.types import Quantity

# The mean divisor that the abstract gives. Secondary pages print 11877, from the same paper: 0.2 % heavier.
CARROLL_HUNTINGTON_DIVISOR = 11900.0
CREST_MARK_HORSE = 0.63
CREST_MARK_PONY = 0.68


def weight_from_tape(girth_cm: float, length_cm: float) -> Quantity:
    """Body weight in kg of an adult from heart girth and body length.

    The error is None: the abstract gives r² = 0.90 and no error in kg. Not for foals, nor for mares in foal.
    """
    girth = checked("girth", girth_cm)
    length = checked("body length", length_cm)
    return Quantity(
        girth**2 * length / CARROLL_HUNTINGTON_DIVISOR,
        "kg",
        None,
        "girth² × length / 11900, in cm",
        "Carroll & Huntington 1988, Equine Vet J 20(1):41-45 (abstract)",
    )


def neck_to_height_ratio(neck_cm: float, height_cm: float) -> Quantity:
    """Mid-neck circumference over withers height, unrounded; the source gives no error."""
    neck = checked("neck circumference", neck_cm)
    height = checked("withers height", height_cm)
    return Quantity(
        neck / height, "1", None, "mid-neck circumference / withers height", "University of Minnesota extension page"
    )


def above_crest_mark(neck_to_height: Quantity, *, pony: bool) -> bool:
    """Whether the neck is cresty by the published marks (horse above 0.63, pony above 0.68); a sign, no diagnosis."""
    return neck_to_height.value > (CREST_MARK_PONY if pony else CREST_MARK_HORSE)
