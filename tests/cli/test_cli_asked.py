"""Today's questions before touching, by the command line."""

import json

import pytest
from told import Shell

from haywisp.knowledge import load_tables


def words(told: str) -> str:
    return " ".join(told.split())


def test_without_options_the_questions_are_listed_with_their_flags(stable: Shell) -> None:
    listed = stable.good("visit", "asked", "Bramble")

    asked = {
        flag.id
        for flag in load_tables().flags.values()
        if not flag.lasting and flag.id != "first-visit" and flag.group != "readings"
    }
    assert {line.split()[0] for line in listed.splitlines() if line.strip()} >= asked
    assert listed.index("the vet first") < listed.index("fever") < listed.index("limits") < listed.index("just-worked")
    assert "Nothing is answered yet." in listed
    assert max(len(line.rstrip()) for line in listed.splitlines()) <= 80
    page = json.loads(stable.good("visit", "asked", "Bramble", "--json"))
    assert page["told"] == "" and len(page["vet_first"]) + len(page["limits"]) == len(asked)


def test_a_yes_holds_the_gate_and_stays_until_it_is_answered_with_no(stable: Shell) -> None:
    told = words(stable.good("visit", "asked", "Bramble", "--yes", "fever", "--agreement", "Dr Example, 4 January"))
    assert "yes to 1 of" in told and "(Fever)" in told and "Before touching: vet first." in told

    told = words(stable.good("visit", "asked", "Bramble", "--yes", "isolation"))
    assert "(Fever, In isolation)" in told and "Agreement and consent: Dr Example, 4 January" in told
    assert "yes" in next(line for line in stable.good("visit", "asked", "Bramble").splitlines() if "fever" in line)

    told = words(stable.good("visit", "asked", "Bramble", "--no", "fever"))
    assert "(In isolation)" in told and "Before touching: work within limits." in told
    assert "no to all" in stable.good("visit", "asked", "Bramble", "--no-to-all")


def test_limits_that_stay_the_same_for_next_time_are_shown_once(stable: Shell) -> None:
    stable.good("visit", "accept", "Bramble")
    stable.good("visit", "open", "Bramble", "--day", "2026-02-02")
    stable.good("visit", "asked", "Bramble", "--yes", "fever")
    assert "From the visit of 5 January 2026 and what was answered before touching: Vet first." in words(
        stable.good("visit", "show", "Bramble")
    )
    stable.good("visit", "write", "Bramble", "bout", "technique=kneading", "structures=neck")

    before, after = words(stable.good("visit", "show", "Bramble")).split("For next time, from this visit")

    assert "because of fever" in before
    assert "The same as before touching." in after and "because of fever" not in after

    stable.good("visit", "write", "Bramble", "action", "kind=refer-vet")
    _, after = words(stable.good("visit", "show", "Bramble")).split("For next time, from this visit")
    assert "Vet first." in after and "It changes the same in a plan as before touching." in after
    assert "because of fever" not in after


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--yes", "wings"), "“wings” is no question of today; choose one of fever, "),
        (("--no", "head-shy"), "“head-shy” is no question of today; choose one of fever, "),
        (("--yes", "fever", "--no", "fever"), "can't be answered with yes and with no"),
        (("--yes", "fever", "--no-to-all"), "can't be answered with yes and with no"),
        (("--agreement", "by letter"), "Nothing is answered yet"),
        (("--no-to-all", "--agreement", "x" * 401), "400 is the most"),
    ],
)
def test_what_is_refused_keeps_nothing(stable: Shell, options: tuple[str, ...], says: str) -> None:
    outcome = stable("visit", "asked", "Bramble", *options)
    assert (outcome.code, outcome.out) == (2, "")
    assert says in outcome.err
    assert json.loads(stable.good("visit", "asked", "Bramble", "--json"))["told"] == ""
