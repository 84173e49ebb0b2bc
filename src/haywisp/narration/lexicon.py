"""The word tables of one language, compiled into matchers by kind of mention."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from haywisp.knowledge import Tables
from haywisp.narration.phrases import Compiler, Matcher, Phrase

DOUBT_LISTS = (
    "hedges",
    "conditions",
    "animals",
    "hearers",
    "speakers",
    "past",
    "future",
    "comparing",
    "pointing",
)


@dataclass(frozen=True)
class Said:
    """How one value of an aspect is said: its meaning when denied, and whether it stands by itself."""

    aspect: str
    value: str
    denied: str
    strength: int


@dataclass(frozen=True)
class Lexicon:
    """Everything that the grammar asks of a language: matchers by kind, word lists, and facts of structures."""

    tables: Tables
    classes: Mapping[str, frozenset[str]]
    endings: Mapping[str, Sequence[str]]
    spellings: Mapping[str, Sequence[str]]
    bare_spellings: Mapping[str, Sequence[str]]
    bare_marks: frozenset[str]
    numbers: Mapping[str, int]
    lists: Mapping[str, frozenset[str]]
    matchers: Mapping[str, Matcher]
    said: Mapping[str, Said]
    ambiguous: Mapping[str, tuple[str, ...]]
    routes: Mapping[tuple[str, str], str]
    sites: Mapping[str, str]
    near: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    sure: Mapping[str, str] = field(default_factory=dict)
    vocabulary: frozenset[str] = frozenset()
    worked: frozenset[str] = frozenset()
    central: frozenset[str] = frozenset()
    tool_means: Mapping[str, str] = field(default_factory=dict)
    skin_over: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    siblings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    by_limb: frozenset[str] = frozenset()
    limb_of: Mapping[str, str] = field(default_factory=dict)
    wholes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    compiler: Compiler | None = None

    def compile(self, phrases: Iterable[str], meaning: str) -> list[Phrase]:
        """Phrases of this language with one meaning."""
        compiler = self.compiler or Compiler(self.classes, self.endings)
        return [compiler.phrase(text, meaning) for text in phrases]


def build(tables: Tables) -> Lexicon:
    """Compile the word tables; ValueError names a phrase that can't be read."""
    raw: Mapping[str, Any] = tables.language.tables
    words = raw["words"]
    classes = {name: frozenset(entries) for name, entries in words["classes"].items()}
    compiler = Compiler(classes, words["endings"])

    def phrases(texts: Iterable[str], meaning: str) -> list[Phrase]:
        return [compiler.phrase(text, meaning) for text in texts]

    def keyed(table: Mapping[str, Iterable[str]]) -> Matcher:
        return Matcher([phrase for meaning, texts in table.items() for phrase in phrases(texts, meaning)])

    def plain(texts: Iterable[str]) -> Matcher:
        return Matcher(phrases(texts, "yes"))

    cues, structures, techniques = raw["cues"], raw["structures"], raw["techniques"]
    aspects, signs, actions = raw["aspects"], raw["signs"], raw["actions"]
    said = {str(number): row for number, row in enumerate(aspects["said"])}
    matchers = {
        "structure": keyed(structures["forms"]),
        "ambiguous": Matcher([p for names in structures["ambiguous"] for p in phrases([names], names)]),
        "qualified": keyed(structures["qualified"]),
        "landmark": plain(structures["landmarks"]["phrases"]),
        "technique": keyed(techniques["forms"]),
        "rough": keyed(techniques["rough"]),
        "weak": keyed(techniques["weak"]),
        "tool": keyed(techniques["tools"]),
        "no-technique": plain(techniques["tool_only"]["phrases"]),
        "no-weak": plain(techniques["not_weak"]["phrases"]),
        "aspect": Matcher([p for number, row in said.items() for p in phrases(row["phrases"], number)]),
        "ease": plain(aspects["ease"]["phrases"]),
        "wished": plain(aspects["wished"]["phrases"]),
        "quote": keyed({key: aspects["quoted"][key] for key in ("opens", "alone")}),
        "quote-ends": plain(aspects["quoted"]["closes"]),
        "quoted-before": plain(aspects["quoted"]["takes_back"]),
        "tack": keyed(aspects["places"]),
        "compared": keyed(aspects["compared"]),
        "no-aspect": plain(aspects["plain"]["phrases"]),
        "sign": keyed(signs["forms"]),
        "terse-sign": keyed(signs["terse_forms"]),
        "no-sign": plain(signs["not_signs"]["phrases"]),
        "explained": plain(signs["explained"]["phrases"]),
        "keeps": plain(signs["explained"]["keeps"]),
        "action": keyed(actions["strong"]),
        "after": keyed(actions["after"]),
        "after-begins": plain(actions["after_begins"]["phrases"]),
        "no-action": plain(actions["not_actions"]["phrases"]),
        "terse-action": keyed(actions["terse_forms"]),
        "already": plain(actions["already"]["phrases"]),
        "asks": plain(actions["asks"]["phrases"]),
        "mode": keyed(cues["mode"]),
        "no-mode": plain(cues["not_mode"]["phrases"]),
        "talk": keyed(cues["talk"]),
        "no-talk": plain(cues["not_talk"]["phrases"]),
        "side": keyed(cues["side"]),
        "correction": plain(cues["correction"]["phrases"]),
        "same": keyed({key: cues["same"][key] for key in ("whole", "pressure", "passes", "structure", "phrases")}),
        "no-same": plain(cues["not_same"]["phrases"]),
        "pressure": keyed({key: cues["pressure"][key] for key in ("light", "moderate", "firm", "more")}),
        "no-pressure": plain(cues["pressure"]["not_pressure"]),
        "asked": plain(cues["denial"]["asked"]),
        "gone": plain(cues["denial"]["gone"]),
        "undone": plain(cues["denial"]["undone"]),
        "finishing": plain(cues["finishing"]["phrases"]),
        "hold-count": plain(words["after_number"]["hold"]),
    }
    lists = {
        "denial": frozenset(cues["denial"]["phrases"]),
        "right-before": frozenset(cues["right_is_side"]["before"]),
        "right-after": frozenset(cues["right_is_side"]["after"]),
        "right-never": frozenset(cues["right_is_side"]["never_after"]),
        "left-never-before": frozenset(cues["right_is_side"]["left_never_before"]),
        "number-not-after": frozenset(words["after_number"]["not_passes"]),
        "number-not-before": frozenset(words["after_number"]["not_before"]),
        "number-counted": frozenset(words["after_number"]["counted"]),
        "number-pointed": frozenset(words["after_number"]["pointed"]),
        "number-between": frozenset(words["after_number"]["between"]),
        "number-passes": frozenset(words["after_number"]["passes"]),
        "number-of": frozenset(words["after_number"]["of_passes"]),
        "terse-signs": frozenset(signs["terse"]["words"]),
        "extent-ends": frozenset(structures["landmarks"]["ends"]),
        **{f"action-{name}": frozenset(entries) for name, entries in actions["resolved"].items()},
        **{f"sign-{name}": frozenset(entries) for name, entries in signs["meant"].items()},
        "limb-words": frozenset(cues["clauses"]["limbs"]),
        "leads-in": frozenset(raw["misheard"]["context"]["leads_in"]),
        "place": frozenset(raw["misheard"]["context"]["place"]),
        "belonging": frozenset(raw["misheard"]["context"]["belonging"]),
        "latin-endings": frozenset(raw["misheard"]["context"]["latin_endings"]),
        "never-misheard": frozenset(raw["misheard"]["context"]["never_misheard"]),
        "latin-tails": frozenset(raw["misheard"]["context"]["latin_tails"]),
        "function-words": frozenset(raw["misheard"]["context"]["function_words"]),
        "known": frozenset(raw["misheard"]["context"]["known"]),
        "own-leads": frozenset(raw.get("own_words", {}).get("leads", {}).get("words", ())),
        "own-common": frozenset(raw.get("own_words", {}).get("common", {}).get("words", ())),
        **{f"found-{name}": frozenset(entries) for name, entries in aspects["things"].items()},
        "work-leads": frozenset(raw["misheard"]["context"]["work_leads"]),
        "work-onto": frozenset(raw["misheard"]["context"]["work_onto"]),
        "everyday": frozenset(raw["everyday"]["most_common"].split()),
        "common": frozenset(raw["everyday"]["common"].split()),
        "alike": frozenset(raw["everyday"]["alike"].split()),
        **{f"clause-{name}": frozenset(entries) for name, entries in cues["clauses"].items()},
        **{f"doubt-{name}": frozenset(raw.get("doubts", {}).get("lists", {}).get(name, ())) for name in DOUBT_LISTS},
    }
    return Lexicon(
        tables=tables,
        classes=classes,
        endings=words["endings"],
        compiler=compiler,
        spellings=words["spellings"],
        bare_spellings={key: parts for key, parts in words.get("spellings_bare", {}).items() if key != "marks"},
        bare_marks=frozenset(words.get("spellings_bare", {}).get("marks", ())),
        numbers=words["numbers"],
        lists=lists,
        matchers=matchers,
        said={
            number: Said(row["aspect"], row["value"], row["denied"], row["strength"]) for number, row in said.items()
        },
        ambiguous={names: tuple(ids) for names, ids in structures["ambiguous"].items()},
        routes={(key.split()[0], key.split()[1]): part for key, part in structures["routes"].items()},
        sites=techniques["sites"],
        near=raw["misheard"]["near"],
        sure=raw["misheard"]["sure"],
        worked=frozenset(w for kind in ("technique", "weak", "rough") for w in matchers[kind].words if len(w) > 3),
        vocabulary=frozenset(word for matcher in matchers.values() for word in matcher.words),
        tool_means=techniques.get("tool_means", {}),
        skin_over=techniques.get("skin_over", {}),
        siblings={name: tuple(others) for name, others in techniques["siblings"].items()},
        by_limb=frozenset(structures.get("by_limb", {}).get("structures", ())),
        limb_of=structures.get("limb_of", {}),
        central=frozenset(structures["central"]["structures"]),
        wholes={part: tuple(wholes) for part, wholes in structures["wholes"].items()},
    )
