"""Undo in a record that only grows: an earlier version of an entry, appended again as the newest."""

from dataclasses import replace

from haywisp.usecases.app import App
from haywisp.usecases.deciding import append, current, reopen_questions
from haywisp.usecases.entry_views import entry_view
from haywisp.usecases.errors import NotFound
from haywisp.usecases.views import EntryView


def go_back(app: App, thread: str, version: int, to: int) -> EntryView:
    """Version ``to`` of an entry counts again, with the body and the status it had; ``version`` is the one seen.

    Going back to a version that nobody had decided on opens the questions about it again.
    """
    with app.units() as unit:
        newest = current(unit, thread, version)
        old = next((one for one in unit.thread(thread) if one.version == to), None)
        if old is None:
            raise NotFound("version", str(to), "The entry's history lists the versions it has.")
        restored = replace(
            newest,
            id=app.new_id(),
            version=newest.version + 1,
            body=old.body,
            status=old.status,
            reason=f"back to version {to}",
            made_at=app.clock(),
        )
        append(unit, [restored])
        if restored.status == "proposed":
            reopen_questions(unit, restored)
        return entry_view(restored, unit.questions_of(restored.visit_id), app.tables())
