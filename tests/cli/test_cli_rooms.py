"""Every room from the command line: the round, the tape, a visit as a file; and what the help says."""

import json
import re
import socket
from pathlib import Path
from typing import cast

import pytest
from told import Shell

from haywisp.commands import serving


def test_the_round_goes_by_yard_and_ends_in_isolation(stable: Shell) -> None:
    stable.good("yard", "add", "Quarantine", "--isolation", "--address", "Far Lane 1")
    for horse, yard in (("Clover", "Quarantine"), ("Daisy", "Example Farm")):
        stable.good("horse", "add", horse, "--owner", "Ann Example", "--yard", yard)
        stable.good("visit", "open", horse, "--day", "2026-01-05", "--minutes", "30")

    told = stable.good("round", "2026-01-05")
    page = json.loads(stable.good("round", "2026-01-05", "--json"))

    assert [stop["name"] for stop in page["stops"]] == ["Example Farm", "Quarantine"]
    assert [row["horse"]["name"] for row in page["stops"][0]["visits"]] == ["Bramble", "Daisy"]
    assert told.index("1. Example Farm (90 minutes)") < told.index("2. Quarantine, in isolation (30 minutes)")
    assert "own kit and clothing" in " ".join(told.split())
    assert max(len(line.rstrip()) for line in told.splitlines()) <= 80
    assert "No visits on this day" in stable.good("round", "2026-01-06")


def test_the_tape_tells_a_weight_with_its_source(shell: Shell) -> None:
    # 180² × 160 / 11900 = 435.63
    told = " ".join(shell.good("weight", "--girth", "180", "--length", "160 cm").split())
    assert "About 436 kg" in told
    assert "the source gives no error in kg" in told
    assert "Carroll & Huntington 1988" in told
    value = json.loads(shell.good("weight", "--girth", "180", "--length", "160", "--json"))["value"]
    assert value == pytest.approx(435.63, abs=0.01)


@pytest.mark.parametrize(
    ("girth", "says"), [("1.8", "The girth of 1.8 cm is outside"), ("wide", "should be a number of centimetres")]
)
def test_a_reading_that_is_none(shell: Shell, girth: str, says: str) -> None:
    outcome = shell("weight", "--girth", girth, "--length", "160")
    assert (outcome.code, outcome.out) == (2, "")
    assert says in outcome.err


def test_a_visit_goes_out_and_comes_in_again(stable: Shell, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    stable.good("visit", "accept", "Bramble", "1")
    stable.good("visit", "answer", "Bramble", "1", "right")
    shown = json.loads(stable.good("visit", "show", "Bramble", "--json"))
    stable.good("visit", "export", "Bramble", "bramble.json")
    assert stable.good("visit", "export", "Bramble") == (tmp_path / "bramble.json").read_text(encoding="utf-8")
    assert "is kept already" in stable("visit", "import", "bramble.json").err

    monkeypatch.setenv("HAYWISP_DATABASE", f"sqlite:///{(tmp_path / 'other.db').as_posix()}")
    assert "Kept the visit of 2026-01-05" in stable.good("visit", "import", "bramble.json")

    again = json.loads(stable.good("visit", "show", "Bramble", "--json"))
    assert again == shown


def test_a_visit_of_names_that_are_kept_already(stable: Shell, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    stable.good("visit", "export", "Bramble", "bramble.json")
    monkeypatch.setenv("HAYWISP_DATABASE", f"sqlite:///{(tmp_path / 'other.db').as_posix()}")
    stable.good("owner", "add", "Ann Example")

    outcome = stable("visit", "import", "bramble.json")

    assert outcome.code == 2
    assert "owner called “Ann Example” already" in outcome.err and "--another" in outcome.err
    assert stable.good("horses").startswith("No horses yet")
    stable.good("visit", "import", "bramble.json", "--another")


def test_a_file_that_is_no_visit(stable: Shell, tmp_path: Path) -> None:
    (tmp_path / "sound.json").write_bytes(b"\xff\xfb\x90")
    assert "it is no text in UTF-8" in stable("visit", "import", "sound.json").err
    (tmp_path / "other.json").write_text("{}", encoding="utf-8")
    assert "visit document" in stable("visit", "import", "other.json").err


def test_names_that_are_kept_already_need_to_be_meant(stable: Shell) -> None:
    for arguments in (
        ("horse", "add", "bramble", "--owner", "Ann Example", "--yard", "Example Farm"),
        ("owner", "add", "ann example"),
        ("yard", "add", "Example  Farm"),
    ):
        outcome = stable(*arguments)
        assert outcome.code == 2
        assert "already" in outcome.err and "--another" in outcome.err
        stable.good(*arguments, "--another")


def test_a_height_in_hands_and_days_as_everywhere(stable: Shell) -> None:
    stable.good("horse", "add", "Clover", "--owner", "Ann Example", "--yard", "Example Farm", "--height", "15.2hh")
    assert "157.5 cm (15.2 hh)" in stable.good("horse", "show", "Clover")

    stable.good("visit", "answer", "Bramble", "1", "right")
    stable.good("visit", "accept", "Bramble")
    told = stable.good("horse", "show", "Bramble")
    assert "2026-01-05 tight" in " ".join(told.split())


@pytest.mark.parametrize(
    "command",
    [
        ("horse", "add"),
        ("horse", "change"),
        ("owner", "add"),
        ("yard", "add"),
        ("visit", "accept"),
        ("visit", "asked"),
        ("visit", "correct"),
        ("visit", "write"),
        ("visit", "undo"),
        ("visit", "override"),
        ("gate",),
        ("weight",),
        ("serve",),
    ],
)
def test_help_explains_every_option_and_names_no_types_of_python(shell: Shell, command: tuple[str, ...]) -> None:
    told = shell.good(*command, "--help")
    assert "list[" not in told
    assert re.search(r"^  --\S+ ", told, re.MULTILINE)
    # An option whose line ends with the kind of its value has no text of its own.
    assert re.findall(r"^  --[\w-]+ (?:<\w+>|[A-Z]+)$", told, re.MULTILINE) == []


def test_what_is_known_has_no_empty_heading(shell: Shell) -> None:
    lines = shell.good("know", "masseter").splitlines()
    assert not any(set(line.strip()) == {"─"} for line in lines)
    assert any(line.lstrip().startswith("Source: ") for line in lines)


def test_everywhere_is_an_address_to_type_into_a_phone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "own_addresses", lambda family: ("192.0.2.7",))
    with serving.listening("0.0.0.0", 0) as listener:
        port = listener.getsockname()[1]
        assert serving.here_and_there(listener) == (f"http://127.0.0.1:{port}", ("http:" + f"//192.0.2.7:{port}",))
    with serving.listening("127.0.0.1", 0) as listener:
        assert serving.here_and_there(listener)[1] == ()


@pytest.mark.parametrize(
    ("host", "alone"), [("127.0.0.1", True), ("127.0.0.2", True), ("::1", True), ("0.0.0.0", False), ("::", False)]
)
def test_every_loopback_address_is_this_machine_alone(host: str, alone: bool) -> None:
    class Bound:
        def getsockname(self) -> tuple[str, int]:
            return host, 8765

    assert serving.only_here(cast(socket.socket, Bound())) is alone


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost"])
def test_what_serves_this_machine_alone_warns_of_nobody(
    shell: Shell, monkeypatch: pytest.MonkeyPatch, host: str
) -> None:
    class Served:
        def run(self, sockets: list[socket.socket]) -> None:
            sockets[0].close()

    monkeypatch.setattr(serving, "server_of", lambda pages: Served())
    told = shell.good("serve", "--host", host, "--port", "0")
    assert "Haywisp is at http://127.0.0.1:" in told
    assert "no accounts" not in told and "no network" not in told


def test_own_addresses_are_no_loopback() -> None:
    assert all(not one.startswith("127.") for one in serving.own_addresses(socket.AF_INET))
