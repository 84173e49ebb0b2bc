"""A worker in a process of its own: killed, stopped, broken, and gone on with."""

import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

WORKER = Path(__file__).with_name("counting_worker.py")
PATIENCE_S = 60.0


class Workers:
    """Starts workers, waits for what they write, and ends those that are left."""

    def __init__(self, url: str, folder: Path) -> None:
        self.url, self.folder = url, folder
        self.running: list[subprocess.Popen[bytes]] = []

    def start(self) -> "subprocess.Popen[bytes]":
        self.running.append(subprocess.Popen([sys.executable, str(WORKER), self.url, str(self.folder)]))
        return self.running[-1]

    def order(self, attempt: int) -> None:
        part = self.folder / "new-order"
        part.write_text(str(attempt))
        part.replace(self.folder / "order-a")

    def say(self, word: str) -> None:
        part = self.folder / "new-go"
        part.write_text(word)
        part.replace(self.folder / "go")

    @property
    def paper(self) -> list[str]:
        path = self.folder / "paper"
        return path.read_text().splitlines() if path.exists() else []

    def wait_for(self, line: str) -> list[str]:
        until = time.monotonic() + PATIENCE_S
        while line not in self.paper:
            assert time.monotonic() < until, f"{line!r} did not come: {self.paper}"
            time.sleep(0.02)
        return self.paper

    def end(self) -> None:
        for one in self.running:
            one.kill()
            one.wait()


on_sqlite = pytest.mark.parametrize("jobs_url", ["sqlite"], indirect=True)


@pytest.fixture
def workers(jobs_url: str, tmp_path: Path) -> Iterator[Workers]:
    made = Workers(jobs_url, tmp_path)
    yield made
    made.end()


@on_sqlite
def test_a_worker_that_is_killed_goes_on_at_the_part_it_was_at(workers: Workers) -> None:
    workers.order(1)
    first = workers.start()
    workers.wait_for("part 2")
    first.kill()
    first.wait()
    workers.say("on")
    workers.start()

    paper = workers.wait_for("end 30")

    assert paper == ["begin 1", "part 0", "part 1", "part 2", "part 2", "part 3", "part 4", "end 30"]


@pytest.mark.parametrize("jobs_url", [pytest.param("postgresql", marks=pytest.mark.postgresql)], indirect=True)
def test_another_worker_takes_over_from_one_that_never_comes_back(workers: Workers, tmp_path: Path) -> None:
    first = workers.start()
    workers.order(1)
    workers.wait_for("part 2")
    # The second one has another name, and finds the first one's only after it is dead.
    workers.start()
    until = time.monotonic() + PATIENCE_S
    while (tmp_path / "name").read_text() != "here-2" and time.monotonic() < until:
        time.sleep(0.02)
    first.kill()
    first.wait()
    workers.say("on")

    assert workers.wait_for("end 30").count("part 1") == 1


@on_sqlite
@pytest.mark.parametrize(("word", "told"), [("stop", None), ("break", "failed Something went wrong on our side.")])
def test_a_further_attempt_keeps_the_parts_that_are_done(workers: Workers, word: str, told: str | None) -> None:
    workers.say(word)
    workers.order(1)
    workers.start()
    workers.wait_for("part 2")
    workers.say("on")
    workers.order(2)

    paper = workers.wait_for("end 30")

    assert [line for line in paper if not line.startswith("failed")] == [
        *("begin 1", "part 0", "part 1", "part 2"),
        *("part 2", "part 3", "part 4", "end 30"),
    ]
    assert [line[: len(told or "")] for line in paper if line.startswith("failed")] == ([told] if told else [])


@on_sqlite
def test_what_parts_gave_is_forgotten_once_nobody_wants_it(workers: Workers, tmp_path: Path) -> None:
    def kept() -> int:
        with closing(sqlite3.connect(tmp_path / "jobs.db")) as jobs:
            return int(jobs.execute("SELECT count(*) FROM operation_outputs").fetchone()[0])

    workers.say("break")
    workers.order(1)
    workers.start()
    workers.wait_for("part 2")
    until = time.monotonic() + PATIENCE_S
    while kept() < 4 and time.monotonic() < until:
        time.sleep(0.05)
    assert kept() == 4
    (tmp_path / "order-a").unlink()
    while kept() and time.monotonic() < until:
        time.sleep(0.05)
    assert kept() == 0
