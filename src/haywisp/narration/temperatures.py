"""Temperatures as they are spoken: "thirty nine point five", "39.4", "a hundred and three"."""

from collections.abc import Mapping, Sequence

from haywisp.narration.tokens import Token

# The limit above which the tables send to the vet, in °C and °F, and what a thermometer in a horse can read at all.
LIMIT_C, LIMIT_F = 39.0, 102.0
RANGE_C, RANGE_F = (35.0, 43.0), (95.0, 110.0)
NAMED = frozenset({"temp", "temps", "temperature", "temperatures", "thermometer", "rectal"})
DEGREES = frozenset({"degrees", "degree", "celsius", "centigrade", "fahrenheit", "c", "f"})
RATES = frozenset({"pulse", "heart", "rate", "respiration", "respirations", "breaths", "breathing"})
LENGTHS = frozenset({"metre", "metres", "meter", "meters", "m", "cm", "km", "miles", "inches", "feet", "foot"})
WEIGHTS = frozenset({"kilo", "kilos", "kg", "kilograms", "grams", "pounds", "litres"})
TIMES = frozenset({"seconds", "minute", "minutes", "hours", "days", "weeks", "years"})
COUNTED = LENGTHS | WEIGHTS | {"beats", "bpm", "breaths", "strides", "hands", "percent"}
REACH, RATE_REACH, AFTER_REACH = 8, 4, 3
TENS = {"thirty": 30, "forty": 40, "ninety": 90}


def raised(tokens: Sequence[Token], numbers: Mapping[str, int]) -> list[tuple[int, int, bool]]:
    """Tokens first to last (excluded) of each temperature at or over the limit, and whether it lies over it.

    A bare number counts beside a word for temperature; with a decimal it counts by itself. Before degrees, which may be
    the weather's, or a stretch of time, and after a word for the pulse, it is in doubt; a length or a weight is none.
    """
    found = []
    place = 0
    while place < len(tokens):
        value, last, exact = _value(tokens, place, numbers)
        named, unit = _named(tokens, place, last), _unit(tokens, last)
        rated = _rated(tokens, place)
        sure = exact or (named and not rated)
        if value and (sure or unit in DEGREES) and unit not in COUNTED:
            limit = LIMIT_C if value <= RANGE_C[1] else LIMIT_F
            if value >= limit:
                over = value > limit or _over(tokens, place)
                found.append((place, last, over and sure and not rated and unit not in TIMES))
        place = max(last, place + 1)
    return found


def _value(tokens: Sequence[Token], place: int, numbers: Mapping[str, int]) -> tuple[float, int, bool]:
    """The reading that begins here (0 for none), the token after it, and whether it was told to a decimal."""
    whole, last = _whole(tokens, place, numbers)
    if not whole:
        return 0.0, place + 1, False
    if whole > RANGE_F[1]:
        tenths, size = divmod(whole, 10)
        ok = _fits(tenths)
        return (tenths + size / 10 if ok else 0.0), last, ok and _named(tokens, place, last)
    if not _fits(whole):
        return 0.0, last, False
    spoken = [token.text for token in tokens[last : last + 4]]
    if spoken[:1] == ["point"] and len(spoken) > 1 and _digit(spoken[1], numbers) is not None:
        return whole + (_digit(spoken[1], numbers) or 0) / 10, last + 2, True
    if spoken[:3] == ["and", "a", "half"]:
        return whole + 0.5, last + 3, _named(tokens, place, last + 3)
    follows = last < len(tokens) and not tokens[last - 1].mark and _digit(tokens[last].text, numbers) is not None
    if follows:
        digit = _digit(tokens[last].text, numbers) or 0
        one_word = tokens[last].word == tokens[last - 1].word
        return whole + digit / 10, last + 1, one_word or _named(tokens, place, last + 1)
    return float(whole), last, False


def _whole(tokens: Sequence[Token], place: int, numbers: Mapping[str, int]) -> tuple[int, int]:
    texts = [token.text for token in tokens[place : place + 5]]
    head = texts[0]
    if head.isdecimal():
        return (int(head) if len(head) < 5 else 0), place + 1
    if head in TENS:
        ones = _digit(texts[1], numbers) if len(texts) > 1 and not tokens[place].mark else None
        return (TENS[head] + ones, place + 2) if ones else (TENS[head], place + 1)
    if head in ("a", "one") and texts[1:2] == ["hundred"]:
        skip = 3 if texts[2:3] == ["and"] else 2
        ones = numbers.get(texts[skip]) if len(texts) > skip else None
        return (100 + ones, place + skip + 1) if ones else (100, place + 2)
    if head == "one" and texts[1:2] in (["oh"], ["o"]) and len(texts) > 2 and _digit(texts[2], numbers):
        return 100 + (_digit(texts[2], numbers) or 0), place + 3
    return 0, place + 1


def _digit(text: str, numbers: Mapping[str, int]) -> int | None:
    value = int(text) if text.isdecimal() else numbers.get(text)
    if text in ("oh", "o", "nought", "zero"):
        return 0
    return value if value is not None and value < 10 else None


def _fits(value: int) -> bool:
    return RANGE_C[0] <= value <= RANGE_C[1] or RANGE_F[0] <= value <= RANGE_F[1]


def _named(tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether a word for temperature stands beside the number in the same breath."""
    if last <= len(tokens) and NAMED & _following(tokens, last):
        return True
    for place in range(first - 1, max(-1, first - 1 - REACH), -1):
        if tokens[place].text in NAMED:
            return True
        if tokens[place].mark == "stop":
            return place == first - 1 and bool(NAMED & {token.text for token in tokens[max(0, place - 3) : place + 1]})
    return False


def _unit(tokens: Sequence[Token], last: int) -> str:
    """The word that a number stands before, where no mark parts them."""
    return tokens[last].text if last < len(tokens) and not tokens[last - 1].mark else ""


def _rated(tokens: Sequence[Token], first: int) -> bool:
    """Whether a word for pulse or breath stands before the number, and no word for temperature nearer."""
    before = [token.text for token in tokens[max(0, first - RATE_REACH) : first]]
    return next((text in RATES for text in reversed(before) if text in RATES | NAMED), False)


def _following(tokens: Sequence[Token], last: int) -> set[str]:
    """The next few words of the same sentence ("thirty nine four on the thermometer")."""
    texts: set[str] = set()
    for place in range(last, min(last + AFTER_REACH, len(tokens))):
        if tokens[place - 1].mark == "stop":
            break
        texts.add(tokens[place].text)
    return texts


def _over(tokens: Sequence[Token], first: int) -> bool:
    before = {token.text for token in tokens[max(0, first - 2) : first]}
    return bool(before & {"over", "above", "past", "beyond"})
