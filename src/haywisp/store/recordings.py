"""What is known of the sound of visits; the sound itself is in files."""

from collections.abc import Sequence

from sqlalchemy import select

from haywisp.record.types import Recording
from haywisp.store.desk import Desk
from haywisp.store.rows import columns
from haywisp.store.tables import recording


class Recordings(Desk):
    """The part of the unit that knows which recordings there are and how far each has been heard."""

    def add_recording(self, recording: Recording) -> None:
        """Keep a new recording."""
        self.add([recording])

    def save_recording(self, recording: Recording) -> None:
        """Put what is known of a recording in place of what was."""
        self.replace(recording)

    def recording(self, recording_id: str) -> Recording | None:
        """The recording with this id."""
        return self.by_id(Recording, recording_id)

    def recording_to_change(self, recording_id: str) -> Recording | None:
        """The recording with this id, held until the unit ends: the page and the worker both write to it."""
        self.begin_writing()
        query = select(*columns(Recording)).where(recording.c.id == recording_id)
        return self.first(Recording, query.with_for_update())

    def recordings_of(self, visit_id: str) -> Sequence[Recording]:
        """The recordings of a visit, oldest first."""
        query = select(*columns(Recording)).where(recording.c.visit_id == visit_id)
        return self.find(Recording, query.order_by(recording.c.began_at, recording.c.id))

    def recordings_in(self, states: Sequence[str]) -> Sequence[Recording]:
        """All recordings in these states, oldest first."""
        query = select(*columns(Recording)).where(recording.c.state.in_(states))
        return self.find(Recording, query.order_by(recording.c.began_at, recording.c.id))

    def remove_recording(self, recording_id: str) -> None:
        """Forget a recording."""
        self.remove(Recording, recording_id)
