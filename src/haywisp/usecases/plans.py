"""A plan for the next hands-on time, from what was found at a visit."""

from collections.abc import Sequence
from datetime import timedelta

from haywisp.findings.types import Fact, GateVerdict
from haywisp.knowledge.types import Tables
from haywisp.plan.types import Need, Omission, Plan, PlannedBout, PlanProblem
from haywisp.record.types import Entry, Horse
from haywisp.report.wording import entry_sentence, mmss, place_title
from haywisp.usecases.app import App
from haywisp.usecases.basis import basis_of, vet_answers
from haywisp.usecases.conclusions import (
    facts_asking,
    held_of,
    pattern_views,
    reviewed,
    standing,
    verdict_view,
)
from haywisp.usecases.days import day_words
from haywisp.usecases.errors import Refused
from haywisp.usecases.limits import refusal_sentence, worded
from haywisp.usecases.lookup import horse_of, owner_of, visit_of, yard_of
from haywisp.usecases.overriding import overrides_for
from haywisp.usecases.views import NeedView, OmissionView, PlannedBoutView, PlanPage, Ref
from haywisp.usecases.visit_rows import visit_row
from haywisp.usecases.visits import MINUTES
from haywisp.usecases.wording import label, structure_label

HEAD_SHY = "head-shy"
NEEDS_LAST = timedelta(days=180)  # what was not felt again for longer asks for no work; own choice, no source
CAUTIONS = (
    "Haywisp reckons; it never diagnoses. Fever, heat with swelling, acute lameness, colic, tying-up, signs of the "
    "nerves or anything you can't explain go to a vet first.",
    "The law on who may treat animals, and what your licence or your vet's agreement covers, comes before any plan.",
    "A handler at the head, a hat and safe footwear, the horse free to move and never tied hard; stop when it asks to.",
)


def plan_next(app: App, visit_id: str, minutes: int | None = None) -> PlanPage:
    """The plan within ``minutes`` (the visit's own unless told).

    A visit that nothing is recorded of yet is planned from the newest one before it that has entries, which also gives
    the verdict; ``made_from`` names it. What was found before that and not felt again still stands. Needs come from
    reviewed findings alone, and entries still to be reviewed are counted; the gate reads those too, since a caution
    that was heard holds until someone says that it was misheard.
    """
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        visits = unit.visits_of(horse.id)
        basis = basis_of(unit, visit, visits, horse, tables)
        vet = vet_answers(unit, visits, tables).words
        own = unit.entries_of(visit.id)
        waiting = unit.open_questions([visit_id]).get(visit_id, 0)
        aside = overrides_for(unit, visit, basis.entries, basis.before, next_time=True)
    booked = visit.minutes if minutes is None else minutes
    if not MINUTES[0] <= booked <= MINUTES[1]:
        raise Refused(f"A plan can't be made for {booked} minutes: from {MINUTES[0]} to {MINUTES[1]}.")
    entries = basis.entries
    stood_by = reviewed(entries)
    verdict = held_of(entries, horse, tables, first_visit=basis.first, before=basis.before, overrides=aside).verdict
    asking = facts_asking(entries, basis.before, horse, tables, not_before=visit.day - NEEDS_LAST)
    plan, problem, faults = _solved(asking, stood_by, horse, verdict, booked, tables)
    return PlanPage(
        visit=visit,
        row=visit_row(visit, horse, Ref(owner.id, owner.name), Ref(yard.id, yard.name), own, waiting, tables),
        horse=horse,
        owner=owner,
        yard=yard,
        minutes=booked,
        verdict=verdict_view(verdict, tables, aside),
        plan=plan,
        bouts=_bout_views(plan.bouts, problem.walk_round_minutes, tables),
        omissions=tuple(_omission_view(omission, tables) for omission in plan.omissions),
        needs=tuple(_need_view(need, tables) for need in problem.needs),
        patterns=pattern_views(stood_by, horse, tables),
        unreviewed=sum(entry.status == "proposed" for entry in standing(entries)),
        proof=proof(plan),
        problems=faults,
        cautions=CAUTIONS,
        made_from=None if basis.visit.id == visit.id else Ref(basis.visit.id, day_words(basis.visit.day)),
        vet_said=vet[::-1],
    )


def _solved(
    facts: Sequence[Fact], entries: Sequence[Entry], horse: Horse, verdict: GateVerdict, minutes: int, tables: Tables
) -> tuple[Plan, PlanProblem, tuple[str, ...]]:
    """The plan, the problem it answers, and what the independent checker has against it: nothing, or it is at fault."""
    from haywisp.plan import check, needs_from_facts, problem_for, solve
    from haywisp.session import log_of

    needs = needs_from_facts(facts, tables)
    log = log_of(entries, tables)
    problem = problem_for(
        needs,
        worded(verdict, tables),
        minutes,
        head_shy=HEAD_SHY in horse.flags,
        log=log,
        refusal=refusal_sentence(verdict, tables),
    )
    plan = solve(problem, tables, seed=0)
    return plan, problem, check(plan, problem, tables)


def proof(plan: Plan) -> str:
    """How far the plan was reckoned to its end, and what to do in time that it leaves."""
    if plan.status == "none":
        return plan.refusal or "There is no plan."
    if not plan.benefit:
        told = "A light round: nothing that was reviewed asks for more, or may be given more."
    elif plan.status == "optimal":
        told = "Reckoned to the end: within these rules no other plan gives more to what was found."
    else:
        told = f"Reckoned in part: within these rules up to {plan.gap:.0%} more could be given to what was found."
    return f"{told} {plan.left_over}".strip()


def _bout_views(bouts: Sequence[PlannedBout], walk_minutes: float, tables: Tables) -> tuple[PlannedBoutView, ...]:
    """The bouts with the time that each begins, walks round the horse counted."""
    from haywisp.plan import walks

    views = []
    ordered = sorted(bouts, key=lambda bout: bout.order)
    for number, bout in enumerate(ordered):
        worked = sum(other.minutes for other in ordered[:number])
        begins = worked + walk_minutes * walks([other.side for other in ordered[: number + 1]])
        body = {
            "technique": bout.technique,
            "structures": [bout.structure],
            "side": bout.side,
            "pressure": bout.pressure,
        }
        views.append(
            PlannedBoutView(
                order=bout.order,
                sentence=entry_sentence("bout", body, tables),
                technique=Ref(bout.technique, label(tables.techniques, bout.technique)),
                structure=Ref(bout.structure, structure_label(bout.structure, tables)),
                side=bout.side,
                minutes=bout.minutes,
                pressure=bout.pressure,
                begins=mmss(begins * 60),
                why=bout.why,
            )
        )
    return tuple(views)


def _omission_view(omission: Omission, tables: Tables) -> OmissionView:
    return OmissionView(name=place_title(omission.structure, omission.side, tables), why=omission.why)


def _need_view(need: Need, tables: Tables) -> NeedView:
    return NeedView(
        name=place_title(need.structure, need.side, tables),
        structure=need.structure,
        side=need.side,
        weight=need.weight,
        because=need.because,
    )
