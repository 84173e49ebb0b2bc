"""A handful of tables and entries that the report tests share, small enough to check by eye."""

from collections.abc import Mapping
from datetime import UTC, date, datetime

from haywisp.findings.types import GateVerdict, Limits, Reason
from haywisp.knowledge.types import ActionKind, Exercise, Language, Sign, Structure, Tables, Technique
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, Visit

NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)


def structure(name: str, region: str = "", kind: str = "region") -> Structure:
    id_ = name.lower().replace(" ", "-")
    return Structure(id_, name, "", kind, "regions", region or id_, True, "", "", "", "", "", (), "test")


def technique(id_: str, name: str) -> Technique:
    return Technique(id_, name, "", "opening", "moderate", (), 0.5, {}, (), (), {}, "test")


def action(id_: str, wording: str) -> ActionKind:
    return ActionKind(id_, id_.replace("-", " "), wording, "test")


STRUCTURES = (
    structure("Neck"),
    structure("Shoulder"),
    structure("Back"),
    structure("Brachiocephalicus", "neck", "muscle"),
    structure("Splenius", "neck", "muscle"),
    structure("Longissimus dorsi", "back", "muscle"),
)
ACTIONS = (
    action("refer-vet", "Please have your vet look at this before any more bodywork."),
    action("turnout", "Turn out as usual tonight, so that the horse can move about freely."),
    action("baited-stretches", "Do the stretches below with a treat."),
)
CARROT = Exercise("chin-to-chest", "Chin to chest", "Hold the treat at the chest.", 5, 5.0, 5, ("neck",), "", "test")

TABLES = Tables(
    structures={row.id: row for row in STRUCTURES},
    techniques={
        "effleurage": technique("effleurage", "Effleurage"),
        "kneading": technique("kneading", "Kneading"),
        "cross-fibre-friction": technique("cross-fibre-friction", "Cross-fibre friction"),
    },
    signs={
        "lick-and-chew": Sign("lick-and-chew", "Licking and chewing", "settling", 0.8, 60.0, "test"),
        "sigh": Sign("sigh", "Sighing", "settling", 0.5, 60.0, "test"),
        "flinch": Sign("flinch", "Flinching", "guarding", 0.9, 30.0, "test"),
    },
    aspects={},
    actions={row.id: row for row in ACTIONS},
    cautions={},
    patterns={},
    exercises={CARROT.id: CARROT},
    language=Language("en"),
)

HORSE = Horse("h1", "Clover", "o1", "y1", invented=True)
OWNER = Owner("o1", "Ines Marlow", invented=True)
YARD = Yard("y1", "Sedge Farm", invented=True)
VISIT = Visit("v1", "h1", date(2031, 3, 14), 45, "reviewed", 2, practitioner="J. Tarn")


def entry(
    thread: str,
    part: str,
    body: Mapping[str, object],
    start: float,
    end: float | None = None,
    status: str = "accepted",
) -> Entry:
    last = start if end is None else end
    return Entry(f"{thread}-1", thread, 1, "v1", part, body, start, last, 0, 4, 0.9, status, "narration", "", NOW)


def bout(
    thread: str, technique_id: str, where: str, side: str | None, start: float, end: float, **more: object
) -> Entry:
    status = str(more.pop("status", "accepted"))
    body = {"technique": technique_id, "structures": [where], "side": side, "passes": None, "pressure": None, **more}
    return entry(thread, "bout", body, start, end, status)


def finding(thread: str, where: str, side: str | None, aspect: str, value: str, start: float, **more: str) -> Entry:
    body = {"structure": where, "side": side, "aspect": aspect, "value": value}
    return entry(thread, "finding", body, start, status=more.get("status", "accepted"))


ENTRIES = (
    bout("b1", "effleurage", "neck", "left", 0.0, 240.0, passes=5, pressure="light"),
    finding("f1", "brachiocephalicus", "left", "tone", "tight", 200.0),
    bout("b2", "kneading", "brachiocephalicus", "left", 240.0, 540.0, pressure="moderate"),
    entry("r1", "response", {"sign": "lick-and-chew"}, 300.0),
    entry("r2", "response", {"sign": "lick-and-chew"}, 500.0),
    finding("f2", "brachiocephalicus", "left", "warmth", "normal", 520.0),
    bout("b3", "effleurage", "back", "right", 600.0, 630.0),
    entry("r3", "response", {"sign": "flinch"}, 610.0),
    entry("a1", "action", {"kind": "turnout"}, 700.0),
    entry("a2", "action", {"kind": "baited-stretches"}, 710.0),
)

WORK = GateVerdict("work", (), Limits())
VET = GateVerdict(
    "vet-first",
    (Reason("heat-swelling", "Heat and swelling", "Heat with swelling needs a vet.", (), True, "test"),),
    Limits(),
)
