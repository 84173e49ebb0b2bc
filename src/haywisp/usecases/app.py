"""What every use case is given: the store, the tables, the ear, the clock and the source of new ids."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime

from haywisp.knowledge.types import Tables
from haywisp.store.shelf import Shelf
from haywisp.store.types import Units
from haywisp.usecases.ears import Ear, SpeechEar
from haywisp.usecases.listening import Listen, listen


@dataclass(frozen=True, slots=True)
class App:
    """The wired parts; :func:`haywisp.bootstrap.build` makes one, and a test makes its own with fakes.

    ``tables`` is a function so that reading the knowledge tables waits until someone asks for them. ``clock`` gives
    the time with its zone, and its date is today's. ``listen`` reads and understands a transcript
    with the own words given. ``shelf`` keeps the sound of recordings, None where there is no folder for it, and ``ear``
    hears them.
    """

    units: Units
    tables: Callable[[], Tables]
    clock: Callable[[], datetime]
    new_id: Callable[[], str]
    close: Callable[[], None] = lambda: None
    listen: Listen = listen
    shelf: Shelf | None = None
    ear: Ear = field(default_factory=SpeechEar)
