"""Where a reason of the gate comes from, when its facts say no more than its name does."""

from collections.abc import Mapping

from haywisp.record.types import Entry, Visit
from haywisp.usecases.app import App
from haywisp.usecases.basis import beforehand
from haywisp.usecases.days import day_words
from haywisp.usecases.lookup import visit_of
from haywisp.usecases.views import VerdictView


def origins(app: App, *verdicts: VerdictView) -> Mapping[str, str]:
    """``asked today``, ``said on 4 March 2026``: by the thread of each fact that only repeats its reason's name."""
    threads = {
        fact.thread
        for verdict in verdicts
        for reason in verdict.reasons
        for fact in reason.because
        if fact.thread and fact.sentence == reason.name
    }
    if not threads:
        return {}
    told = {}
    with app.units() as unit:
        for thread in threads:
            entry = unit.thread(thread)[0]
            told[thread] = _told(app, entry, visit_of(unit, entry.visit_id))
    return told


def _told(app: App, entry: Entry, visit: Visit) -> str:
    how = "said" if entry.first_word >= 0 else "asked" if beforehand(entry) else "written down"
    return f"{how} today" if visit.day == app.clock().date() else f"{how} on {day_words(visit.day)}"
