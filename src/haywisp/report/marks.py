"""What the drawn session shows, read from a narration."""

from dataclasses import dataclass

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration
from haywisp.report.phrases import cap, table
from haywisp.report.wording import entry_sentence, structure_name


@dataclass(frozen=True, slots=True)
class BoutMark:
    """One bout: ``row`` is the part of the body that it is drawn beside."""

    thread: str
    row: str
    side: str | None
    start_s: float
    end_s: float
    pressure: str | None
    label: str


@dataclass(frozen=True, slots=True)
class AnswerMark:
    """One sign: ``direction`` is ``settling`` or ``guarding``."""

    thread: str
    direction: str
    time_s: float
    label: str


@dataclass(frozen=True, slots=True)
class Marks:
    """``rows`` are the parts of the body and their names, from head to tail."""

    bouts: tuple[BoutMark, ...]
    answers: tuple[AnswerMark, ...]
    rows: tuple[tuple[str, str], ...]
    end_s: float


def part_of_body(structure: str, tables: Tables) -> str:
    """The region that holds a structure, itself where no table names one."""
    row = tables.structures.get(structure)
    return row.region if row and row.region else structure


def head_to_tail(regions: set[str], tables: Tables) -> list[str]:
    """Regions in the order in which a reader expects them, unknown ones last."""
    order: list[str] = table("figure", tables.language.code)["head_to_tail"]
    return sorted(regions, key=lambda one: (order.index(one) if one in order else len(order), one))


def marks_of_narration(narration: Narration, tables: Tables) -> Marks:
    """The marks of what was understood."""
    bouts = [
        BoutMark(
            thread=f"bout-{number}",
            row=part_of_body(bout.structures[0], tables) if bout.structures else "",
            side=bout.side,
            start_s=bout.start,
            end_s=bout.end,
            pressure=bout.pressure,
            label=entry_sentence("bout", _body(bout), tables),
        )
        for number, bout in enumerate(narration.bouts)
    ]
    answers = [
        AnswerMark(
            f"response-{number}",
            _direction(response.sign, tables),
            response.time,
            entry_sentence("response", {"sign": response.sign}, tables),
        )
        for number, response in enumerate(narration.responses)
    ]
    return _marks(bouts, answers, tables)


def _body(bout: object) -> dict[str, object]:
    return {key: getattr(bout, key) for key in ("technique", "structures", "side", "passes", "pressure")}


def _direction(sign: str, tables: Tables) -> str:
    """A sign that no table knows is drawn on the careful side."""
    row = tables.signs.get(sign)
    return "settling" if row is not None and row.direction == "settling" else "guarding"


def _marks(bouts: list[BoutMark], answers: list[AnswerMark], tables: Tables) -> Marks:
    regions = head_to_tail({bout.row for bout in bouts}, tables)
    rows = tuple((region, cap(structure_name(region, tables))) for region in regions)
    end = max([*(bout.end_s for bout in bouts), *(answer.time_s for answer in answers), 0.0])
    in_time = sorted(bouts, key=lambda bout: (bout.start_s, bout.thread))
    return Marks(tuple(in_time), tuple(sorted(answers, key=lambda one: (one.time_s, one.thread))), rows, end)
