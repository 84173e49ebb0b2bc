"""Why an entry was missed or added, told from what the engine itself heard around it (its scene).

Each missed or added row gets one cause, the first that applies in the order of its function. A row that was heard as
something else is two errors, one missed and one added, both of the same cause.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from case_files import Row
from score_sheet import Numbered, Outcome

from haywisp.narration.clauses import DONE
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene

SAME_ERROR_S = 8.0
BEFORE_S, AFTER_S = 1.5, 9.0
PLACE_BEFORE_S, PLACE_AFTER_S = 20.0, 10.0
SAID_TWICE_S = 60.0
MEANT = (DONE, "declined")


@dataclass(frozen=True)
class Fault:
    """One error: its part, ``missed`` or ``extra``, its cause, and when it is."""

    part: str
    sort: str
    cause: str
    when: float


def time_of(row: Row) -> float:
    """When a row begins."""
    return float(row.get("start", row.get("time", 0.0)))


def faults_of(found: Iterable[Outcome], scene: Scene) -> list[Fault]:
    """Every missed and added row of a case with its cause."""
    parts = {outcome.part: outcome for outcome in found}
    faults = []
    for part, outcome in parts.items():
        missed, extra = _TELL[part]
        view = View(scene, outcome, parts)
        faults += [Fault(part, "missed", missed(one.row, view), time_of(one.row)) for one in outcome.missed]
        faults += [Fault(part, "extra", extra(one.row, view), time_of(one.row)) for one in outcome.extra]
    return faults


def counted(faults: Iterable[Fault]) -> Counter[tuple[str, str, str]]:
    """How many errors there are by part, cause and sort."""
    return Counter((fault.part, fault.cause, fault.sort) for fault in faults)


@dataclass(frozen=True)
class View:
    """What a cause is told from: the scene, the outcome of its part and those of all parts."""

    scene: Scene
    outcome: Outcome
    parts: dict[str, Outcome]

    def tokens(self, first_s: float, last_s: float) -> tuple[int, int]:
        """The tokens that begin in a stretch of time, as first and one after the last."""
        places = [place for place, token in enumerate(self.scene.tokens) if first_s <= token.start <= last_s]
        return (places[0], places[-1] + 1) if places else (0, 0)

    def mentions(self, kinds: Sequence[str], when: float, before: float, after: float) -> list[Mention]:
        """What is mentioned around a time."""
        first, last = self.tokens(when - before, when + after)
        return [mention for kind in kinds for mention in self.scene.mentions.within(kind, first, last)]

    def meant(self, mentions: Iterable[Mention], modes: Sequence[str] = MEANT) -> bool:
        """Whether a clause of one of these modes holds one of the mentions."""
        clauses = [clause for clause in self.scene.clauses if clause.mode in modes]
        return any(clause.first <= mention.first < clause.last for mention in mentions for clause in clauses)

    def places(self, when: float) -> set[str]:
        """Structures named around a time."""
        first, last = self.tokens(when - PLACE_BEFORE_S, when + PLACE_AFTER_S)
        return {structure for _, structure in self.scene.structures(first, last)}


def near(rows: Iterable[Numbered], row: Row, *same: str, within: float = SAME_ERROR_S) -> bool:
    """Whether one of the rows is close in time and alike in these fields."""
    return any(
        abs(time_of(other.row) - time_of(row)) <= within and all(other.row[key] == row[key] for key in same)
        for other in rows
    )


def overlapping(rows: Iterable[Numbered], row: Row, *same: str) -> bool:
    """Whether one of the rows runs at the same time and is alike in these fields; structures need only meet."""
    return any(
        other.row["start"] < row["end"] + SAME_ERROR_S
        and row["start"] < other.row["end"] + SAME_ERROR_S
        and all(_alike(other.row[key], row[key]) for key in same)
        for other in rows
    )


def _alike(one: object, other: object) -> bool:
    if isinstance(one, list) and isinstance(other, list):
        return bool(set(one) & set(other))
    return one == other


def paired(view: View, side: int) -> list[Numbered]:
    """The matched rows of a part: gold (0) or heard (1)."""
    return [pair[side] for pair in view.outcome.pairs]


def _confused(row: Row, others: Sequence[Numbered]) -> str:
    if near(others, row, "technique"):
        return "right technique, wrong place"
    if any(_alike(o.row["structures"], row["structures"]) for o in others if near([o], row)):
        return "right place, wrong technique"
    return ""


def bout_missed(row: Row, view: View) -> str:
    """Why a bout is not in the record."""
    confused = _confused(row, view.outcome.extra)
    if confused:
        return confused
    when = time_of(row)
    named = view.mentions(("technique", "weak", "rough"), when, BEFORE_S, AFTER_S)
    said = [mention for mention in named if mention.id == row["technique"]]
    if overlapping(paired(view, 1), row, "technique", "structures"):
        return "not told from the bout beside it (side, place, return)"
    if not said:
        earlier = [*paired(view, 0), *view.outcome.missed]
        again = any(o.row["technique"] == row["technique"] and time_of(o.row) < when for o in earlier)
        return "repeat or ellipsis not followed" if again and not named else "technique not heard"
    if not view.meant(said, (DONE,)):
        return "modality: not taken as done"
    if not set(row["structures"]) & view.places(when):
        return "structure not heard"
    return "all heard, no bout made"


def bout_extra(row: Row, view: View) -> str:
    """Why a bout is in the record that gold lacks."""
    confused = _confused(row, view.outcome.missed)
    if confused:
        return confused
    if overlapping(paired(view, 0), row, "technique", "structures"):
        return "said twice: one bout made two"
    if overlapping([*paired(view, 0), *view.outcome.missed], row, "structures"):
        return "another technique heard beside the one meant"
    said = view.mentions(("technique", "weak", "rough"), time_of(row), BEFORE_S, AFTER_S)
    if not any(mention.id == row["technique"] for mention in said):
        return "a repeat that was none"
    return "modality: taken as done"


def finding_missed(row: Row, view: View) -> str:
    """Why a finding is not in the record."""
    extra = view.outcome.extra
    if near(extra, row, "aspect", "value", within=2 * SAME_ERROR_S):
        return "heard, but about something else"
    if near(extra, row, "structure", "aspect"):
        return "right aspect, wrong value"
    when = time_of(row)
    said = [m for m in view.mentions(("aspect",), when, BEFORE_S, AFTER_S) if _tells(m, row, view)]
    if not said:
        return "aspect not heard"
    if not view.meant(said):
        return "modality: not taken as found"
    if row["structure"] not in view.places(when) and not _worked(row, view):
        return "structure not heard"
    return "all heard, nothing noted"


def _tells(mention: Mention, row: Row, view: View) -> bool:
    said = view.scene.lexicon.said[mention.id]
    return said.aspect == row["aspect"] and row["value"] in (said.value, said.denied)


def _worked(row: Row, view: View) -> bool:
    """Whether the structure is under the hands by the bouts that were heard."""
    bouts = [b for _, b in view.parts["treatments"].pairs] + list(view.parts["treatments"].extra)
    when = time_of(row)
    return any(
        row["structure"] in bout.row["structures"] and bout.row["start"] <= when <= bout.row["end"] + SAME_ERROR_S
        for bout in bouts
    )


def finding_extra(row: Row, view: View) -> str:
    """Why a finding is in the record that gold lacks."""
    missed = view.outcome.missed
    if near(missed, row, "aspect", "value", within=2 * SAME_ERROR_S):
        return "heard, but about something else"
    if near(missed, row, "structure", "aspect"):
        return "right aspect, wrong value"
    if near(paired(view, 0), row, "structure", "aspect", "value", within=SAID_TWICE_S):
        return "said twice"
    if near(paired(view, 0), row, "aspect", "value"):
        return "of one place too many"
    signs = [*view.parts["responses"].missed, *(gold for gold, _ in view.parts["responses"].pairs)]
    if any(one.row["sign"] == "muscle-release" for one in signs if near([one], row)):
        return "a change taken for a finding"
    return "taken as found: not meant so"


def response_missed(row: Row, view: View) -> str:
    """Why a sign is not in the record."""
    if near(view.outcome.extra, row, "sign", within=SAID_TWICE_S):
        return "heard at another time"
    said = [m for m in view.mentions(("sign",), time_of(row), 3.0, AFTER_S) if m.id == row["sign"]]
    if not said:
        return "taken for another sign" if near(view.outcome.extra, row) else "sign not heard"
    if not view.meant(said):
        return "modality: not taken as shown"
    return "heard, nothing noted"


def response_extra(row: Row, view: View) -> str:
    """Why a sign is in the record that gold lacks."""
    if near(view.outcome.missed, row, "sign", within=SAID_TWICE_S):
        return "heard at another time"
    if near(paired(view, 0), row, "sign", within=SAID_TWICE_S):
        return "said twice"
    if near(view.outcome.missed, row):
        return "taken for another sign"
    return "taken as shown: not meant so"


def action_missed(row: Row, view: View) -> str:
    """Why a decision is not in the record."""
    said = [m for m in view.mentions(("action", "after"), time_of(row), 4.0, AFTER_S) if m.id == row["kind"]]
    if not said:
        return "taken for another decision" if near(view.outcome.extra, row) else "decision not heard"
    return "decision not believed"


def action_extra(row: Row, view: View) -> str:
    """Why a decision is in the record that gold lacks."""
    if near(view.outcome.missed, row):
        return "taken for another decision"
    return "taken as decided: not meant so"


Tell = Callable[[Row, View], str]
_TELL: dict[str, tuple[Tell, Tell]] = {
    "treatments": (bout_missed, bout_extra),
    "findings": (finding_missed, finding_extra),
    "responses": (response_missed, response_extra),
    "actions": (action_missed, action_extra),
}


def attribute_faults(found: Iterable[Outcome]) -> list[Fault]:
    """Sides, counts and pressures that are wrong on what was matched, by what gold and record say."""
    faults = []
    for outcome in found:
        names = {"treatments": ("side", "passes", "pressure"), "findings": ("side",)}.get(outcome.part, ())
        for wanted, heard in outcome.pairs:
            for name in names:
                gold, said = wanted.row.get(name), heard.row.get(name)
                if gold != said:
                    how = "not heard" if said is None else "added" if gold is None else "another one"
                    faults.append(Fault(outcome.part, "wrong", f"{name}: {how}", time_of(wanted.row)))
    return faults
