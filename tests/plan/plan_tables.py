"""Small hand-made tables for the tests of this room: a chest that can be worked out by hand, and a few more regions."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Aspect, Language, Structure, Tables, Technique
from haywisp.plan import Need, Plan


def structure(row_id: str, region: str, *, paired: bool = True, neighbours: tuple[str, ...] = ()) -> Structure:
    kind = "region" if row_id == region else "muscle"
    name = row_id.replace("-", " ")
    return Structure(row_id, name, "", kind, "", region, paired, "", "", "", "", "", neighbours, "test")


def technique(
    row_id: str,
    stage: str,
    deepest: str,
    *,
    needs: tuple[str, ...] = (),
    thumb: float = 0.0,
    never: tuple[str, ...] = (),
    helps: Mapping[str, float] | None = None,
    minutes_per_pass: float = 0.25,
) -> Technique:
    name = row_id.replace("-", " ").capitalize()
    loads = {"thumb": thumb} if thumb else {}
    return Technique(row_id, name, "", stage, deepest, needs, minutes_per_pass, loads, (), never, helps or {}, "test")


STRUCTURES = (
    structure("withers", "withers", paired=False, neighbours=("neck", "back")),
    structure("chest", "chest"),
    structure("pectoralis-descendens", "chest"),
    structure("pectoralis-transversus", "chest"),
    structure("sternum-fascia", "chest", paired=False),
    structure("jaw", "jaw"),
    structure("masseter", "jaw"),
    structure("poll", "poll"),
    structure("rectus-capitis", "poll"),
    structure("gaskin", "gaskin"),
    structure("gastrocnemius", "gaskin"),
)
BODY = (
    structure("neck", "neck", neighbours=("withers",)),
    structure("splenius", "neck"),
    structure("back", "back", neighbours=("withers",)),
)
TECHNIQUES = (
    technique("hands-resting", "contact", "light"),
    technique("effleurage", "opening", "moderate"),
    technique("stroking", "closing", "light"),
    technique("kneading", "preparing", "firm", needs=("opening",), helps={"tone:tight": 0.5}),
    technique("pressing", "deep", "firm", needs=("preparing",), thumb=0.9, helps={"texture:knotted": 1.0}),
    technique("easing", "stretch", "light", needs=("opening", "preparing"), never=("jaw",)),
)
ASPECTS = (
    Aspect("tone", "Tone", ("tight", "slack", "normal"), "normal", "test"),
    Aspect("texture", "Texture", ("knotted", "fibrous", "smooth"), "smooth", "test"),
    Aspect("skin", "Skin", ("wound", "clear"), "clear", "test"),
)


def small_tables(*more: Structure, techniques: Sequence[Technique] = ()) -> Tables:
    """Tables without a region of the maintenance round, unless ``more`` brings one, and with further techniques."""
    return Tables(
        structures={row.id: row for row in (*STRUCTURES, *more)},
        techniques={row.id: row for row in (*TECHNIQUES, *techniques)},
        signs={},
        aspects={row.id: row for row in ASPECTS},
        actions={},
        cautions={},
        patterns={},
        exercises={},
        language=Language("en"),
    )


def need(structure_id: str, side: str | None = "left", weight: float = 0.5, **helps: float) -> Need:
    return Need(structure_id, side, weight, ("tightness",), helps or {"kneading": 1.0})


def bouts(plan: Plan) -> list[tuple[str, str, str | None, float]]:
    return [(bout.technique, bout.structure, bout.side, bout.minutes) for bout in plan.bouts]


def minutes_on(plan: Plan, structure_id: str, side: str | None, techniques: Sequence[str] = ("kneading",)) -> float:
    return sum(
        bout.minutes
        for bout in plan.bouts
        if (bout.structure, bout.side) == (structure_id, side) and bout.technique in techniques
    )
