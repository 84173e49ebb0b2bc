"""What own words may be: refused where they would do harm, warned of where they mean something else already."""

from dataclasses import dataclass

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.own_words import KINDS, is_known, key_of, meaning_name
from haywisp.narration.phrases import Matcher
from haywisp.narration.temperatures import raised
from haywisp.narration.tokens import Token, unaccented
from haywisp.narration.types import OwnWord

MOST_WORDS = 8
MOST_LETTERS = 80
FEWEST_LETTERS = 3
MOST_NAMED = 3
# What else the grammar hears by words alone: taking these away would change how everything around them is heard.
TURNS = ("mode", "talk", "side", "same", "correction", "pressure", "asked", "gone", "undone")
# Kinds of mention that carry a meaning of their own, in the order in which a warning names them.
NAMING = ("structure", "ambiguous", "technique", "sign", "aspect", "action", "weak", "rough", "tool")


@dataclass(frozen=True, slots=True)
class OwnWordCheck:
    """``problem`` is why the words can't be kept, "" where they can; ``warnings`` are what to know before.

    ``key`` is what is compared: the tokens without case, accents, punctuation and the article before them.
    """

    key: str
    problem: str = ""
    warnings: tuple[str, ...] = ()


def check(word: OwnWord, lexicon: Lexicon, flags: Matcher | None = None) -> OwnWordCheck:
    """Whether words may be kept as one's own, and what they mean already; ``flags`` are the words of red flags."""
    parts = key_of(word.phrase, lexicon)
    key = " ".join(parts)
    problem = _problem(word, parts, lexicon, flags)
    return OwnWordCheck(key, problem) if problem else OwnWordCheck(key, "", _warnings(word, parts, lexicon))


def _problem(word: OwnWord, parts: tuple[str, ...], lexicon: Lexicon, flags: Matcher | None) -> str:
    said = " ".join(word.phrase.split())
    if not said:
        return "Write the words that you say."
    if len(said.split()) > MOST_WORDS or len(said) > MOST_LETTERS:
        return (
            f"That is too long: at most {MOST_WORDS} words and {MOST_LETTERS} letters. "
            "Give only the words that name it, not the sentence around them."
        )
    common = lexicon.lists["own-common"] | lexicon.lists["own-leads"] | lexicon.numbers.keys()
    telling = [part for part in parts if part not in common and not part.isdecimal()]
    if not any(letter.isascii() and letter.isalnum() for letter in unaccented(word.phrase)):
        return f"There is no word in “{said}” that can be heard. Write it in letters, as it is said."
    if not telling:
        return (
            f"“{said}” has only everyday words in it, so it would be heard everywhere. "
            "Add a word that you use for this alone."
        )
    if sum(len(part) for part in telling) < FEWEST_LETTERS:
        return f"“{said}” is too short to be told from other words. Give at least {FEWEST_LETTERS} letters."
    tokens = tokens_of(parts)
    if (flags is not None and flags.find(tokens)) or raised(tokens, lexicon.numbers):
        return f"“{said}” can tell of a red flag, so it can't mean anything else."
    if not is_known(word, lexicon.tables):
        kind = word.kind if word.kind in KINDS else "structure, technique or sign"
        return f"“{word.meaning}” is no {kind} in the tables."
    if word.meaning in _meant(word.kind, parts, lexicon):
        return f"“{said}” is heard as {_name(word, lexicon)} already: nothing needs to be kept."
    return ""


def _name(word: OwnWord, lexicon: Lexicon) -> str:
    name = meaning_name(word.kind, word.meaning, lexicon.tables)
    return name[:1].lower() + name[1:]


def _warnings(word: OwnWord, parts: tuple[str, ...], lexicon: Lexicon) -> tuple[str, ...]:
    said = " ".join(parts)
    warnings = []
    meant = [name for kind in NAMING for name in _names(kind, _meant(kind, parts, lexicon), lexicon)]
    if meant:
        named = ", ".join(dict.fromkeys(meant[:MOST_NAMED]))
        warnings.append(f"“{said}” is heard as {named} now, and would mean {_name(word, lexicon)} from then on.")
    elif any(_meant(kind, parts, lexicon) for kind in TURNS):
        warnings.append(f"Haywisp follows the talk by “{said}”; it would not hear that any more.")
    elif len(parts) == 1:
        part_of = [
            name
            for kind in ("structure", "technique", "sign", "aspect")
            for name in _names(kind, lexicon.matchers[kind].holding(parts[0]), lexicon)
        ]
        wholes = list(dict.fromkeys(part_of))
        if wholes:
            more = " and more" if len(wholes) > MOST_NAMED else ""
            warnings.append(
                f"“{said}” is part of how {', '.join(wholes[:MOST_NAMED])}{more} may be said: that would not be heard "
                "any more where the word is in it."
            )
    return tuple(warnings)


def _meant(kind: str, parts: tuple[str, ...], lexicon: Lexicon) -> list[str]:
    """What the tables hear in exactly these words."""
    whole = (0, len(parts))
    found = lexicon.matchers[kind].find(tokens_of(parts))
    return list(dict.fromkeys(match.meaning for match in found if (match.first, match.last) == whole))


def _names(kind: str, found: list[str], lexicon: Lexicon) -> list[str]:
    tables = lexicon.tables
    names = []
    for meaning in found:
        if kind == "aspect":
            row = lexicon.said[meaning]
            names.append(tables.aspects[row.aspect].name if row.aspect in tables.aspects else row.aspect)
        elif kind == "ambiguous":
            names += [meaning_name("structure", one, tables) for one in lexicon.ambiguous[meaning]]
        elif kind == "action":
            names.append(tables.actions[meaning].name if meaning in tables.actions else meaning)
        elif kind == "tool":
            names.append("a tool")
        else:
            names.append(meaning_name("technique" if kind in ("weak", "rough") else kind, meaning, tables))
    return [name[:1].lower() + name[1:] for name in names]


def tokens_of(parts: tuple[str, ...]) -> list[Token]:
    """Tokens said in one breath."""
    return [Token(part, place, place * 0.3, place * 0.3 + 0.3, 0.0, "") for place, part in enumerate(parts)]
