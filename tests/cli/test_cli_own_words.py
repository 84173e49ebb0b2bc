"""Own words by the command line, with the real ear."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from told import Shell

from haywisp import bootstrap
from haywisp.usecases.listening import listen

SAID = (
    "[0:00] Left side, hands on his neck. [0:10] Effleurage on the big fella at the bottom, five times. "
    "[0:40] Then the bear hug on his splenius. [1:40] Done."
)


@pytest.fixture
def heard(shell: Shell, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Shell:
    build = bootstrap.build
    monkeypatch.setattr(bootstrap, "build", lambda url=None, **told: replace(build(url, **told), listen=listen))
    shell.good("owner", "add", "Ann Example")
    shell.good("yard", "add", "Example Farm")
    shell.good("horse", "add", "Bramble", "--owner", "ann example", "--yard", "Example Farm")
    shell.good("visit", "open", "Bramble", "--day", "2026-01-05")
    (tmp_path / "told.txt").write_text(SAID, encoding="utf-8")
    shell.good("visit", "hear", "Bramble", "told.txt")
    return shell


def test_words_are_taught_listed_found_and_forgotten(heard: Shell) -> None:
    told = heard.good("words", "teach", "the Bear-Hug", "Compression")
    assert "means Compression (technique) from the next narration on" in " ".join(told.split())
    assert "It was said at 1 visit that was heard before" in " ".join(told.split())
    assert [row["meaning"] for row in json.loads(heard.good("words", "list", "--json"))] == ["compression"]
    assert "the Bear-Hug" in heard.good("words", "list")
    assert [row["times"] for row in json.loads(heard.good("words", "heard", "a bear hug", "--json"))] == [1]
    assert "Off the list" in heard.good("words", "forget", "bear hug")
    assert "No words yet" in heard.good("words", "list")


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (("on the left", "splenius"), "only everyday words"),
        (("the poll", "splenius"), "keep them all the same with --anyway"),
        (("bear hug", "no such thing"), "There is no structure, technique or sign"),
        (("bear hug", "triceps brachii of the moon"), "There is no structure, technique or sign"),
        (("bear hug", "longissimus"), "could be"),
        (("a bit wobbly", "rocking"), "red flag"),
    ],
)
def test_what_can_not_be_kept_is_refused_with_a_sentence(shell: Shell, arguments: tuple[str, str], why: str) -> None:
    outcome = shell("words", "teach", *arguments)
    assert outcome.code == 2
    assert why in outcome.err
    assert shell.good("words", "list").startswith("No words yet")


def test_a_warning_can_be_passed_over(shell: Shell) -> None:
    assert "Kept" in shell.good("words", "teach", "the poll", "splenius", "--anyway")


def test_a_correction_says_how_its_words_are_taught(heard: Shell) -> None:
    rows = json.loads(heard.good("visit", "show", "Bramble", "--json"))["entries"]
    number = next(place for place, row in enumerate(rows, 1) if row["sentence"].startswith("Effleurage"))
    told = heard.good("visit", "correct", "Bramble", str(number), "structures=brachiocephalicus")
    assert 'haywisp words teach "big fella at the bottom" brachiocephalicus' in " ".join(told.split())


def test_reading_again_tells_first_and_does_it_only_with_yes(heard: Shell) -> None:
    heard.good("words", "teach", "the bear hug", "compression")
    before = heard.good("visit", "show", "Bramble", "--json")
    told = " ".join(heard.good("visit", "read-again", "Bramble").split())
    assert "On your list since: “the bear hug”" in told
    assert "Nothing was changed. Do it with --yes." in told
    assert heard.good("visit", "show", "Bramble", "--json") == before
    assert "Done." in heard.good("visit", "read-again", "Bramble", "--yes")
    assert "Compression on the left splenius" in heard.good("visit", "show", "Bramble", "--json")
    assert "No entry would change" in heard.good("visit", "read-again", "Bramble")
