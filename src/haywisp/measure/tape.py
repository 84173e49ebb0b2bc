"""What a tape round the horse tells: body weight, and the neck and the girth against the height."""

from haywisp.knowledge import load_weight_formulas
from haywisp.measure.readings import checked
from haywisp.measure.types import Quantity
from haywisp.measure.weights import weight_by

CREST_MARK_HORSE = 0.63
CREST_MARK_PONY = 0.68
# From memory: girth over height from which a horse, and a pony, is overweight and obese.
GIRTH_MARKS_HORSE = (1.26, 1.29)
GIRTH_MARKS_PONY = (1.33, 1.38)


def weight_from_tape(girth_cm: float, length_cm: float) -> Quantity:
    """Body weight in kg of an adult from heart girth and body length, by the row ``carroll-huntington`` of the tables.

    The error is None: the abstract gives r² = 0.90 and no error in kg. Not for foals, nor for mares in foal.
    """
    formula = load_weight_formulas()["carroll-huntington"]
    return weight_by(formula, {"girth": girth_cm, "body length": length_cm})


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


def girth_to_height_ratio(girth_cm: float, height_cm: float) -> Quantity:
    """Heart girth over withers height, unrounded; no error is known, and its marks are from memory."""
    girth = checked("girth", girth_cm)
    height = checked("withers height", height_cm)
    return Quantity(girth / height, "1", None, "heart girth / withers height", "from memory")


def girth_mark(girth_to_height: Quantity, *, pony: bool) -> str:
    """``obese``, ``overweight`` or empty, by marks from memory (horse 1.26 and 1.29, pony 1.33 and 1.38)."""
    overweight, obese = GIRTH_MARKS_PONY if pony else GIRTH_MARKS_HORSE
    return "obese" if girth_to_height.value > obese else "overweight" if girth_to_height.value > overweight else ""
