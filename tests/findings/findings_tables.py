"""Small hand-made tables and facts for the tests of this room."""

from haywisp.findings import Fact
from haywisp.knowledge.types import (
    Aspect,
    Caution,
    Evidence,
    Language,
    Pattern,
    Sign,
    Structure,
    Tables,
    Trigger,
)


def structure(row_id: str, region: str, group: str, *, paired: bool = True) -> Structure:
    kind = "region" if row_id == region else "muscle"
    return Structure(row_id, row_id.title(), "", kind, group, region, paired, "", "", "", "", "", (), "test")


def caution(row_id: str, verdict: str, *triggers: Trigger, **more: object) -> Caution:
    fields: dict[str, object] = {
        "absolute": False,
        "site": "none",
        "structures": (),
        "techniques": (),
        "pressure_cap": "",
        "owner_wording": f"wording of {row_id}",
        "source": "test",
    }
    fields.update(more)
    return Caution(row_id, row_id.title(), verdict, triggers=triggers, **fields)  # type: ignore[arg-type]


def finding(structure_id: str, side: str | None, aspect: str, value: str) -> Fact:
    return Fact("finding", structure=structure_id, side=side, aspect=aspect, value=value)


STRUCTURES = (
    structure("neck", "neck", "regions"),
    structure("splenius", "neck", "head-and-neck"),
    structure("nuchal-ligament", "neck", "head-and-neck", paired=False),
    structure("croup", "croup", "regions"),
    structure("gluteus-medius", "croup", "hindquarters"),
    structure("hindquarters", "hindquarters", "regions"),
    structure("hamstrings", "hamstrings", "regions"),
)
ASPECTS = (
    Aspect("tone", "Tone", ("tight", "slack", "normal"), "normal", "test"),
    Aspect("warmth", "Warmth", ("warm", "cool", "normal"), "normal", "test"),
    Aspect("swelling", "Swelling", ("present", "absent"), "absent", "test"),
    Aspect("skin", "Skin", ("wound", "rub", "clear"), "clear", "test"),
)
CAUTIONS = (
    caution("wound", "within-limits", Trigger("finding", aspect="skin", value="wound"), site="found"),
    caution(
        "hot-swelling",
        "vet-first",
        Trigger("finding", aspect="warmth", value="warm"),
        Trigger("finding", aspect="swelling", value="present"),
        site="found",
        absolute=True,
        all_triggers=True,
    ),
    caution("fever", "vet-first", Trigger("flag", "fever"), site="body", absolute=True),
    caution("kick", "within-limits", Trigger("sign", "kick-threat"), structures=("hindquarters",)),
    caution(
        "rub", "within-limits", Trigger("finding", aspect="skin", value="rub"), site="found-cap", pressure_cap="light"
    ),
    caution("old", "within-limits", Trigger("flag", "old"), pressure_cap="moderate", techniques=("hacking",)),
    caution("first-visit", "within-limits", Trigger("flag", "first-visit"), pressure_cap="moderate"),
    caution("stopped", "vet-first", Trigger("action", "stop-session")),
    caution("vet-asked", "vet-first", Trigger("action", "refer-vet")),
)
PATTERNS = (
    Pattern(
        "croup-guards",
        "Croup guards",
        "the croup works for the hamstrings",
        0.2,
        (
            Evidence(("gluteus-medius",), "tone", "tight", 1.5),
            Evidence(("hamstrings",), "tone", "slack", 0.8),
            Evidence(("neck",), "tone", "tight", -0.6),
            Evidence(("croup",), "skin", "rub", 1.0),
            Evidence(("croup",), "skin", "clear", -0.3),
        ),
        "feel the hamstrings",
        "",
        "test",
    ),
    Pattern("neck-braces", "Neck braces", "", 0.2, (Evidence(("neck",), "tone", "tight", 1.0),), "", "", "test"),
)


def small_tables() -> Tables:
    return Tables(
        structures={row.id: row for row in STRUCTURES},
        techniques={},
        signs={"kick-threat": Sign("kick-threat", "Threat to kick", "guarding", 0.9, 20, "test")},
        aspects={row.id: row for row in ASPECTS},
        actions={},
        cautions={row.id: row for row in CAUTIONS},
        patterns={row.id: row for row in PATTERNS},
        exercises={},
        language=Language("en"),
    )
