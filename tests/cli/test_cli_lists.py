"""Lists: readable at 80 columns, and the same as JSON."""

import json

import pytest
from told import Shell


@pytest.mark.parametrize(
    "arguments",
    [
        ("horses",),
        ("horse", "list"),
        ("horse", "show", "Bramble"),
        ("owner", "list"),
        ("yard", "list"),
        ("visit", "list", "Bramble"),
        ("visit", "show", "Bramble"),
        ("visit", "asked", "Bramble"),
        ("today",),
        ("round", "2026-01-05"),
        ("weight", "--girth", "180", "--length", "160"),
        ("know", "masseter"),
        ("know",),
        ("plan", "Bramble"),
    ],
)
def test_every_list_fits_a_terminal_and_has_json(stable: Shell, arguments: tuple[str, ...]) -> None:
    printed = stable.good(*arguments)

    assert printed.strip()
    assert max(len(line.rstrip()) for line in printed.splitlines()) <= 80
    assert json.loads(stable.good(*arguments, "--json"))


def test_a_horse_is_found_by_name_by_id_and_by_the_start_of_either(stable: Shell) -> None:
    horse_id = json.loads(stable.good("horses", "--json"))[0]["id"]

    for text in ("Bramble", "bramble", "bra", horse_id, horse_id[:8]):
        assert json.loads(stable.good("horse", "show", text, "--json"))["horse"]["id"] == horse_id


def test_two_horses_of_one_name_are_told_apart_by_id(stable: Shell) -> None:
    stable.good("horse", "add", "Bramble", "--owner", "Ann Example", "--yard", "Example Farm", "--another")
    ids = [row["id"] for row in json.loads(stable.good("horses", "--json"))]

    outcome = stable("horse", "show", "Bramble")

    assert outcome.code == 2
    assert all(one[:8] in outcome.err for one in ids)


def test_names_are_data_and_not_markup(stable: Shell) -> None:
    stable.good("owner", "add", "[bold]Bea[/bold] :horse: \x1b[31mred")

    printed = stable.good("owner", "list")

    assert "[bold]Bea[/bold] :horse:" in printed
    assert "\x1b" not in printed


def test_nothing_kept_yet_says_what_to_do(shell: Shell) -> None:
    assert "haywisp horse add" in shell.good("horses")
    assert "haywisp owner add" in shell.good("owner", "list")
    assert "No visits today." in shell.good("today")
