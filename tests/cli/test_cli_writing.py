"""By the command line: entries by hand, earlier versions, a horse's details, a weight kept as a note."""

import json
from typing import Any

import pytest
from told import Shell


def entries(shell: Shell) -> list[dict[str, Any]]:
    return list(json.loads(shell.good("visit", "show", "Bramble", "--json"))["entries"])


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (
            ("bout", "technique=kneading", "structures=neck, splenius", "side=right"),
            "Kneading the right neck and",
        ),
        (("finding", "structure=splenius", "side=right", "aspect=tone", "value=tight"), "Right splenius: tight"),
        (("response", "sign=yawn"), "Yawned"),
        (("action", "kind=refer-saddler"), "Refer to the saddler"),
        (("flag", "flag=fever"), "Fever"),
        (("note", "text=he = kind"), "he = kind"),
    ],
)
def test_an_entry_by_hand_of_each_part(stable: Shell, arguments: tuple[str, ...], sentence: str) -> None:
    told = stable.good("visit", "write", "Bramble", *arguments, "--at", "59:30")
    number = int(told.split("Wrote entry ")[1].split(":")[0])

    assert sentence in told
    written = entries(stable)[number - 1]
    assert written["sentence"].startswith(sentence)
    assert (written["time"], written["source"], written["status"]) == ("59:30", "by hand", "accepted")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("wish", "a=b"), "“wish” is no part of the record; choose one of bout, finding, "),
        (("bout", "neck"), "“neck” is no change: write FIELD=VALUE"),
        (("bout", "technique=wishing", "structures=neck"), "technique can be hands-resting, effleurage, "),
        (("bout", "technique=kneading", "structures=neck,wing"), "structures can be masseter, "),
        (("bout", "technique=kneading"), "“structures” is missing from this bout."),
        (("bout", "technique=kneading", "structures=neck", "side=up"), "“up” is no side"),
        (("finding", "structure=neck", "aspect=tone"), "value can be slack, normal, tight."),
        (("finding", "structure=neck", "aspect=tone", "value=odd"), "choose one of normal, slack or tight"),
        (("finding", "structure=neck", "mood=odd"), "A finding has no “mood”. It has: structure, side, aspect, value."),
        (("response", "sign=sings"), "sign can be head-lowering, "),
        (("note", "text= "), "The note is empty"),
        (("note", "text=kind", "--at", "noon"), "“noon” is no time in the session"),
    ],
)
def test_what_is_refused_names_the_field_and_what_it_can_be(
    stable: Shell, arguments: tuple[str, ...], says: str
) -> None:
    before = entries(stable)
    outcome = stable("visit", "write", "Bramble", *arguments)
    assert (outcome.code, outcome.out) == (2, "")
    assert says in outcome.err and outcome.err.count("\n") == 1
    assert entries(stable) == before


def test_a_correction_that_is_refused_says_what_can_be_too(stable: Shell) -> None:
    number = str(1 + next(at for at, entry in enumerate(entries(stable)) if entry["part"] == "bout"))
    err = stable("visit", "correct", "Bramble", number, "technique=wishing").err
    assert "technique can be hands-resting, " in err and "structures can be" not in err


def test_undo_goes_back_one_version_or_to_the_one_that_is_named(stable: Shell) -> None:
    number = str(1 + next(at for at, entry in enumerate(entries(stable)) if entry["part"] == "bout"))
    assert "has one version" in stable("visit", "undo", "Bramble", number).err
    stable.good("visit", "correct", "Bramble", number, "passes=5")
    stable.good("visit", "correct", "Bramble", number, "side=right")

    assert "Back to version 2: Effleurage along the left neck, 5 passes" in stable.good(
        "visit", "undo", "Bramble", number
    )
    told = stable.good("visit", "undo", "Bramble", number, "1")
    assert "Back to version 1: Effleurage along the left neck, light (to be reviewed)." in told

    listed = stable.good("visit", "undo", "Bramble", number, "--versions")
    assert [line.split()[0] for line in listed.splitlines()[2:] if line[:1].isdigit()] == ["1", "2", "3", "4", "5"]
    assert "There is no version “9”" in stable("visit", "undo", "Bramble", number, "9").err


def test_only_the_details_of_a_horse_that_are_given_are_changed(stable: Shell) -> None:
    stable.good("owner", "add", "Bob Example")
    stable.good("horse", "change", "Bramble", "--work", "driving", "--height", "15.2 hh", "--flag", "head-shy")
    stable.good("horse", "change", "Bramble", "--owner", "bob example", "--name", "Thistle")

    horse = json.loads(stable.good("horse", "show", "Thistle", "--json"))
    assert (horse["horse"]["work"], horse["horse"]["born"], horse["owner"]["name"]) == ("driving", 2015, "Bob Example")
    assert (horse["horse"]["height_cm"], horse["horse"]["flags"]) == (157.5, ["head-shy"])

    changed = json.loads(stable.good("horse", "change", "Thistle", "--flag", "", "--work", "", "--json"))
    assert (changed["flags"], changed["work"], changed["height_cm"]) == ([], "", 157.5)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ((), "Nothing was given to change"),
        (("--born", "1850"), "should be a year from"),
        (("--name", " "), "needs a name"),
        (("--name", "Clover"), "call it so all the same with --another"),
        (("--yard", "Nowhere"), "There is no yard “Nowhere”"),
        (("--flag", "wings"), "There is no standing flag “wings”"),
    ],
)
def test_a_change_that_is_refused_changes_nothing(stable: Shell, options: tuple[str, ...], says: str) -> None:
    stable.good("horse", "add", "Clover", "--owner", "Ann Example", "--yard", "Example Farm")
    before = stable.good("horse", "show", "Bramble", "--json")
    outcome = stable("horse", "change", "Bramble", *options)
    assert (outcome.code, outcome.out) == (2, "")
    assert says in outcome.err
    assert stable.good("horse", "show", "Bramble", "--json") == before


def test_a_weight_is_kept_as_a_note_where_that_is_asked_for(stable: Shell) -> None:
    before = len(entries(stable))
    stable.good("weight", "--girth", "180", "--length", "160")
    assert len(entries(stable)) == before
    assert "Kept as a note" in stable.good("weight", "--girth", "180", "--length", "160", "--keep", "Bramble")
    (note,) = [entry for entry in entries(stable) if entry["part"] == "note"]
    assert note["body"]["text"].startswith("Tape: girth 180 cm, body length 160 cm. About 436 kg")
    assert "There is no visit “Nobody”" in stable("weight", "--girth", "180", "--length", "160", "--keep", "Nobody").err


def test_there_is_one_name_for_opening_a_visit(stable: Shell) -> None:
    assert "No such command 'add'" in stable("visit", "add", "Bramble").err


def test_numbers_and_what_the_owner_told(stable: Shell) -> None:
    stable.good("horse", "change", "Bramble", "--microchip", "276-098-101-234-567", "--teeth", "done in May")
    shown = " ".join(stable.good("horse", "show", "Bramble").split())
    assert "Microchip: 276 098 101 234 567" in shown and "Teeth: done in May" in shown
    wrong = stable("horse", "change", "Bramble", "--microchip", "276")
    assert (wrong.code, "has 3 digits instead of 15" in wrong.err) == (2, True)
    assert json.loads(stable.good("horse", "show", "Bramble", "--json"))["horse"]["microchip"] == "276098101234567"
