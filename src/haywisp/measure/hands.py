"""Heights in hands: a hand is four inches, and what stands after the point is inches and no tenths."""

import re
from fractions import Fraction

# Common definition: 1 hand = 4 inches, and 1 inch = 2.54 cm exactly (international yard and pound agreement, 1959).
CM_PER_INCH = 2.54
INCHES_PER_HAND = 4
PARTS = {"": Fraction(0), "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4)}
PARTS |= {"1/4": PARTS["¼"], "1/2": PARTS["½"], "3/4": PARTS["¾"]}
HANDS = r"(?:hh|h\.\s?h\.?|hands?(?:\s+high)?|h)"
PART = r"\s*(?P<part{n}>¼|½|¾|1/4|1/2|3/4)?"
HEIGHT = re.compile(
    rf"(?P<hands>\d{{1,2}})\s*(?:(?:[.,]\s*(?P<inches1>\d){PART.format(n=1)})?\s*{HANDS}"
    rf"|{HANDS}\s*(?:and\s+)?(?P<inches2>\d){PART.format(n=2)}\s*(?:inch(?:es)?|ins?\.?|[\"″])?)",
    re.IGNORECASE,
)


def cm_from_hands(text: str) -> float | None:
    """Centimetres of ``15.2hh``, ``15.2 hands`` or ``15 hands 2``; None for what is no height in hands.

    A figure above 3 after the point is none: four inches are the next hand.
    """
    found = HEIGHT.fullmatch(text.strip())
    if found is None:
        return None
    inches = int(found["inches1"] or found["inches2"] or 0)
    if inches >= INCHES_PER_HAND:
        return None
    part = PARTS[found["part1"] or found["part2"] or ""]
    return float(int(found["hands"]) * INCHES_PER_HAND + inches + part) * CM_PER_INCH


def hands_from_cm(height_cm: float) -> str:
    """``15.2 hh`` or ``15.2½ hh``: to the nearest half inch."""
    hands, halves = divmod(round(height_cm / CM_PER_INCH * 2), INCHES_PER_HAND * 2)
    inches, half = divmod(halves, 2)
    after = f".{inches}{'½' if half else ''}" if halves else ""
    return f"{hands}{after} hh"
