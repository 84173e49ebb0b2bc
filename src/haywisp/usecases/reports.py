"""The owner's report of a visit, as data, as a PDF and printed."""

from haywisp.findings import override_text, overrides_in
from haywisp.report.types import OwnerReport
from haywisp.usecases.app import App
from haywisp.usecases.basis import before, earlier, nobody_worked, vet_answers
from haywisp.usecases.conclusions import reviewed, verdict_of
from haywisp.usecases.errors import NothingReviewed, Refused
from haywisp.usecases.listening import heard_again
from haywisp.usecases.lookup import horse_of, owner_of, visit_of, yard_of
from haywisp.usecases.vet import is_vet_word, unlifted


def owner_report(app: App, visit_id: str) -> OwnerReport:
    """What was done, found and answered, for the owner. What is still to be reviewed is counted in ``unreviewed``.

    Refused while nothing is reviewed: an owner would read silence as a clean bill of health.
    """
    from haywisp import report

    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        entries = unit.entries_of(visit_id)
        visits = unit.visits_of(horse.id)
        stored = unit.narration_of(visit_id)
        until = [visit, *earlier(visits, visit)]
        vet = vet_answers(unit, until, tables)
        known = before(unit, visit, until, horse, tables)
        first = nobody_worked(unit.entries_of_many([one.id for one in until]))
    if not reviewed(entries):
        raise NothingReviewed(sum(entry.status == "proposed" for entry in entries))
    for_gate = unlifted(entries, vet.own)
    verdict = verdict_of(for_gate, horse, tables, first_visit=first, before=known)
    words = heard_again(app.listen, app.tables, stored).transcript.words
    return report.owner_report(
        visit,
        horse,
        owner,
        yard,
        [entry for entry in entries if not is_vet_word(entry)],
        verdict,
        tables,
        words,
        vet_said=[(word.day, word.text) for word in vet.words[-1:]],
        answered=vet.own,
        set_aside=override_text(overrides_in(entries), tables),
    )


def owner_report_pdf(app: App, visit_id: str) -> bytes:
    """The same as a PDF."""
    from haywisp import report

    return report.pdf(owner_report(app, visit_id))


def owner_report_printed(app: App, visit_id: str, form: str) -> str:
    """The same as ``text`` for a terminal or a letter, or as an ``html`` page of its own."""
    from haywisp import report

    writers = {"text": report.owner_text, "html": report.owner_html}
    if form not in writers:
        raise Refused(f"There is no format “{form}” for a report. There are: {', '.join(writers)}.")
    return writers[form](owner_report(app, visit_id), app.tables().language.code)
