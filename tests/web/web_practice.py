"""A practice for the tests of the pages: a real database, a given ear, and a client that calls the app directly."""

import asyncio
import wave
from collections.abc import AsyncIterator, Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from io import BytesIO
from itertools import count
from math import pi, sin
from pathlib import Path

import httpx
from tests.jobs.hearing_worker import GivenEar

from haywisp.errors import HaywispError
from haywisp.knowledge import load_tables
from haywisp.knowledge.types import Tables
from haywisp.narration.types import (
    Action,
    Bout,
    Choice,
    Finding,
    Narration,
    OwnWord,
    Problem,
    Question,
    Repair,
    Response,
    Span,
    Transcript,
    Word,
)
from haywisp.store import open_store
from haywisp.store.shelf import Shelf
from haywisp.usecases import App
from haywisp.usecases.hearing import hearing
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.visits import hear, open_visit
from haywisp.web import create_app

NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
TODAY = NOW.date()

SMALL_TEXT = (
    "Long strokes down the left neck five passes nice and light and the splenius is tight there "
    "she licks and chews now the pole is tender and I want the vet to look"
)
# 0 Long 1 strokes 2 down 3 the 4 left 5 neck 6 five 7 passes 8 nice 9 and 10 light 11 and 12 the 13 splenius 14 is
# 15 tight 16 there 17 she 18 licks 19 and 20 chews 21 now 22 the 23 pole 24 is 25 tender 26 and 27 I 28 want 29 the
# 30 vet 31 to 32 look


class Deaf(HaywispError):
    """What the given ear says to a file that it can't read."""


def spoken(text: str, *, seconds_each: float = 0.6, words_a_cue: int = 8) -> tuple[Word, ...]:
    """The words of a text, evenly spoken."""
    return tuple(
        Word(word, index * seconds_each, (index + 1) * seconds_each, None, index // words_a_cue)
        for index, word in enumerate(text.split())
    )


SMALL = Narration(
    transcript=Transcript(spoken(SMALL_TEXT), "vtt", (Problem("line 3", "a time that ran backwards was mended"),)),
    bouts=(Bout("effleurage", ("neck",), "left", 0.0, 9.0, 5, "light", Span(0, 11), 0.95),),
    findings=(
        Finding("splenius", "left", "tone", "tight", 8.0, Span(12, 17), 0.9),
        Finding("poll", None, "tenderness", "present", 14.0, Span(22, 26), 0.5),
    ),
    responses=(Response("lick-and-chew", 11.0, Span(17, 22), 0.9),),
    actions=(Action("refer-vet", 16.0, Span(26, 33), 0.8),),
    questions=(
        Question(
            "finding",
            1,
            "side",
            "Which side of the poll was tender?",
            (Choice("Left", "left"), Choice("Right", "right")),
            14.0,
            Span(22, 26),
        ),
    ),
    repairs=(Repair(Span(23, 24), "pole", "poll", 0.9),),
)


def long_narration(rounds: int = 11) -> Narration:
    """Four entries a round, so 44 of them, as a long session has."""
    turn = "now kneading the left neck firm four passes the splenius there is knotted a big sigh from her and we rest "
    words = spoken(turn * rounds, seconds_each=1.0, words_a_cue=10)
    each = len(turn.split())
    starts = [each * place for place in range(rounds)]
    return Narration(
        transcript=Transcript(words, "vtt"),
        bouts=tuple(
            Bout("kneading", ("neck",), "left", at, at + 8.0, 4, "firm", Span(at, at + 8), 0.9) for at in starts
        ),
        findings=tuple(
            Finding("splenius", "left", "texture", "knotted", at + 11.0, Span(at + 8, at + 13), 0.9) for at in starts
        ),
        responses=tuple(Response("sigh", at + 15.0, Span(at + 13, at + 18), 0.9) for at in starts),
        actions=tuple(Action("rest", at + 19.0, Span(at + 18, at + 21), 0.9) for at in starts),
        questions=(),
    )


@contextmanager
def practice(folder: Path, narration: Narration = SMALL) -> Iterator[App]:
    """An app over a database in ``folder`` that hears ``narration`` in every file but one named ``broken``."""
    numbers = count(1)
    store = open_store(f"sqlite:///{(folder / 'haywisp.db').as_posix()}")
    store.migrate()

    def listen(data: bytes, file_name: str, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Narration:
        if file_name.startswith("broken"):
            raise Deaf(f"{file_name}, line 4: “nonsense” is no time. Write it as 00:01.000.")
        return narration

    yield App(
        units=store.unit,
        tables=load_tables,
        clock=lambda: NOW,
        new_id=lambda: f"id{next(numbers):05d}",
        listen=listen,
        shelf=Shelf(folder / "sound"),
        ear=GivenEar(),
    )
    store.close()


def a_horse(app: App, name: str = "Bramble", owner: str = "Ann Example", yard: str = "Example Farm") -> str:
    """A horse with its owner and yard; gives its id."""
    return add_horse(app, name, add_owner(app, owner).id, add_yard(app, yard).id).id


def a_visit(app: App, name: str = "Bramble", day: date = TODAY) -> str:
    """A horse and a planned visit; gives the visit's id."""
    return open_visit(app, a_horse(app, name), day).id


def a_heard_visit(app: App, name: str = "Bramble", day: date = TODAY) -> str:
    """The same with the narration heard."""
    visit_id = a_visit(app, name, day)
    hear(app, visit_id, "bramble.vtt", b"WEBVTT")
    return visit_id


def hear_waiting(app: App) -> None:
    """What a worker does with the recordings that wait."""
    work = hearing(app)
    for order in work.waiting():
        work.end(order, [work.part(order, what) for what in work.begin(order)])


def tone(seconds: float) -> bytes:
    """A WAV file with a plain tone, 8 kHz mono."""
    rate = 8000
    samples = (round(9000 * sin(2 * pi * 330 * place / rate)) for place in range(round(rate * seconds)))
    made = BytesIO()
    with wave.open(made, "wb") as file:
        file.setparams((1, 2, rate, 0, "NONE", ""))
        file.writeframes(b"".join(sample.to_bytes(2, "little", signed=True) for sample in samples))
    return made.getvalue()


class Spooled(httpx.AsyncByteStream):
    """A body that comes in pieces, handed on piece by piece."""

    def __init__(self, body: Iterable[bytes]) -> None:
        self.body = body

    async def __aiter__(self) -> AsyncIterator[bytes]:
        for piece in self.body:
            yield piece


class InProcess(httpx.BaseTransport):
    """Requests answered by the app itself, each in an event loop of its own."""

    def __init__(self, app: App) -> None:
        self.inner = httpx.ASGITransport(create_app(app), raise_app_exceptions=False)

    def handle_request(self, request: httpx.Request) -> httpx.Response:
        if not isinstance(request.stream, httpx.AsyncByteStream):
            request.stream = Spooled(request.stream)

        async def answered() -> httpx.Response:
            answer = await self.inner.handle_async_request(request)
            return httpx.Response(answer.status_code, headers=answer.headers, content=await answer.aread())

        return asyncio.run(answered())


def client_of(app: App) -> httpx.Client:
    """A browser without scripts: follows redirects only when told to."""
    return httpx.Client(transport=InProcess(app), base_url="http://localhost")
