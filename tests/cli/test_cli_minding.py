"""The worker beside the pages: started again when it dies, and gone when its parent is, however that went."""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from haywisp import bootstrap
from haywisp.commands import minding
from haywisp.commands.opening import Opened
from haywisp.jobs import Hands

PATIENCE_S = 60.0
PARENT = """
import sys, time
from haywisp.commands.minding import minded
from haywisp.commands.opening import Opened
with minded(Opened(sys.argv[1])):
    time.sleep(600)
"""


def wait_for(act: Callable[[], object]) -> None:
    until = time.monotonic() + PATIENCE_S
    while not act():
        assert time.monotonic() < until
        time.sleep(0.05)


@pytest.fixture
def url(tmp_path: Path) -> str:
    made = bootstrap.sqlite_url(tmp_path / "haywisp.db")
    bootstrap.build(made).close()
    return made


def at_work(tmp_path: Path) -> bool:
    """Whether a worker holds its name."""
    folder = tmp_path / "haywisp-recordings" / "workers"
    locks = [path.name for path in folder.glob("*-1.lock")]
    if not locks:
        return False
    other = Hands(folder, locks[0].removesuffix("-1.lock"))
    other.take()
    taken = other.name.endswith("-2")
    other.give_back()
    (folder / locks[0].replace("-1", "-2")).unlink(missing_ok=True)
    return taken


def test_a_worker_that_dies_is_started_again_and_ends_with_the_block(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(minding, "FIRST_WAIT_S", 0.05)
    with minding.minded(Opened(url)) as minder:
        wait_for(lambda: at_work(tmp_path))
        first = minder.child
        assert first is not None
        first.kill()
        wait_for(lambda: minder.child is not first and at_work(tmp_path))
        second = minder.child
    assert second is not None and second.returncode is not None
    assert not at_work(tmp_path)


def test_a_worker_is_gone_when_its_parent_was_killed(url: str, tmp_path: Path) -> None:
    with subprocess.Popen([sys.executable, "-c", PARENT, url], env=dict(os.environ)) as parent:
        wait_for(lambda: at_work(tmp_path))
        parent.kill()
    wait_for(lambda: not at_work(tmp_path))
