"""The demo: made, walked through over HTTP, kept apart from real records."""

import json
import socket
from pathlib import Path

import pytest
from told import Shell

from haywisp import bootstrap
from haywisp.commands.serving import NoPort, address_of, listening, running
from haywisp.commands.walking import WalkFailed, fetched


def test_the_check_walks_from_a_narration_to_a_pdf(shell: Shell, tmp_path: Path) -> None:
    said = shell.good("demo", "--check")

    assert "Made an invented practice: 10 horses" in said
    assert "Page /horses" in said
    assert "a PDF of" in said
    assert said.rstrip().endswith("All of it works.")
    assert not (tmp_path / "data").exists()


def test_the_demo_refuses_a_database_with_real_horses(stable: Shell, tmp_path: Path) -> None:
    data = tmp_path / "data" / "haywisp"
    data.mkdir(parents=True)
    (tmp_path / "haywisp.db").rename(data / "demo.db")

    outcome = stable("demo", "--keep", "--no-browser", "--port", "0")

    assert outcome.code == 2
    assert "real horses" in outcome.err


def test_a_taken_port_is_passed_over_or_refused() -> None:
    taken = listening("127.0.0.1", 0)
    port = taken.getsockname()[1]

    with pytest.raises(NoPort, match=f"port {port}"):
        listening("127.0.0.1", port)
    with listening("127.0.0.1", port, tries=30) as other:
        assert other.getsockname()[1] > port
    taken.close()


def test_pages_are_served_from_a_thread_and_stopped(shell: Shell) -> None:
    app = bootstrap.build()
    listener = listening("127.0.0.1", 0)
    address = address_of(listener)

    with running(bootstrap.pages(app), listener) as served:
        assert served == address
        assert b"</html>" in fetched(address, "/")
        with pytest.raises(WalkFailed, match="the server answered 404"):
            fetched(address, "/horses/gone")
    app.close()

    with socket.socket() as probe:
        assert probe.connect_ex(("127.0.0.1", int(address.rsplit(":", 1)[1]))) != 0


def test_json_of_a_demo_horse_says_that_it_is_invented(shell: Shell, tmp_path: Path) -> None:
    from haywisp.usecases.demo import seed_demo

    app = bootstrap.build(f"sqlite:///{(tmp_path / 'haywisp.db').as_posix()}")
    seeded = seed_demo(app, app.clock().date())
    again = seed_demo(app, app.clock().date())
    app.close()

    rows = json.loads(shell.good("horses", "--json"))
    assert seeded.seeded
    assert not again.seeded
    assert (again.horses, again.visits, again.heard, again.show) == (
        seeded.horses,
        seeded.visits,
        seeded.heard,
        seeded.show,
    )
    assert all(row["invented"] for row in rows)
