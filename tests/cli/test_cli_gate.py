"""The screening gate from the command line: for facts alone, and for a horse as it is known."""

import json
from pathlib import Path

import pytest
from told import Shell

from haywisp.knowledge import load_tables


def words(told: str) -> str:
    return " ".join(told.split())


def test_facts_alone_need_no_database(shell: Shell, tmp_path: Path) -> None:
    told = shell.good("gate", "--flag", "fever", "--finding", "left longissimus-dorsi warmth warm")

    assert told.strip().startswith("Vet first")
    assert "Fever (fever) Vet first, and no reason sets it aside." in words(told)
    assert "Heat (heat) Work within limits. Because: Left longissimus dorsi: warm." in words(told)
    assert "The whole body: not worked, because of fever." in words(told)
    assert "Source: taught position, three course pages (secondary): none above 39 °C / 102 °F." in words(told)
    assert "it never diagnoses" in words(told) and "The law on who may treat animals" in words(told)
    assert max(len(line.rstrip()) for line in told.splitlines()) <= 80
    assert not (tmp_path / "haywisp.db").exists()


def test_as_json_the_limits_are_ids(shell: Shell) -> None:
    view = json.loads(
        shell.good(
            "gate", "--flag", "pregnant-middle", "--finding", "left gaskin skin wound", "--first-visit", "--json"
        )
    )
    assert view["verdict"]["verdict"] == "within-limits"
    assert [reason["caution"] for reason in view["verdict"]["reasons"]] == [
        "first-visit",
        "open-wound",
        "pregnant-middle",
    ]
    assert view["excluded"] == ["belly", "external-oblique", "gaskin:left", "gastrocnemius:left", "rectus-abdominis"]
    assert view["techniques"] == ["cupping", "hacking", "tail-traction"]
    assert (view["pressure_cap"], view["caps"], view["horse"], view["visit"]) == ("moderate", {}, None, None)
    assert view["facts"] == ["In foal, middle months", "Left gaskin: a wound in the skin", "First session"]
    assert len(view["cautions"]) == 3


def test_what_gives_way_to_what_is_said(shell: Shell) -> None:
    told = words(shell.good("gate", "--flag", "vet-says-wait", "--flag", "painkillers", "--sign", "kick-threat"))
    assert "only the vet's word, or what the law wants, lifts it" in told
    assert "Painkillers or sedation (painkillers) Vet first, unless a reason is written down for the visit." in told
    assert "Threat to kick (kick-threat) Work within limits." in told


def test_an_action_is_asked_about_as_well(shell: Shell) -> None:
    assert "Vet asked for last time" in shell.good("gate", "--action", "refer-vet")


def test_what_is_as_usual_speaks_against_nothing(shell: Shell) -> None:
    told = words(shell.good("gate", "--finding", "both neck skin clear"))
    assert told.startswith("Nothing recorded speaks against the work")
    assert "What that changes in a plan Nothing." in told and "it never diagnoses" in told


@pytest.mark.parametrize(
    ("place", "structure"),
    [
        ("left longissimus dorsi", "longissimus-dorsi"),
        ("left Longissimus-Dorsi", "longissimus-dorsi"),
        ("left nuchal ligament", "nuchal-ligament"),
    ],
)
def test_a_place_by_its_id_or_its_name(shell: Shell, place: str, structure: str) -> None:
    view = json.loads(shell.good("gate", "--finding", f"{place} swelling present", "--json"))
    assert {site.partition(":")[0] for site in view["excluded"]} == {structure}


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ((), "There is nothing to judge: name a horse, or give a --flag"),
        (("--flag", "feaver"), "There is no flag “feaver”. Did you mean fever"),
        (("--flag", "xyzzy"), "There is no flag “xyzzy”. List them all with: haywisp know"),
        (("--sign", "kick-treat"), "There is no sign “kick-treat”. Did you mean kick-threat"),
        (("--action", "vet"), "There is no action “vet”."),
        (("--finding", "warm"), "“warm” is no finding: write side (or none), place, what was felt"),
        (("--finding", "left neck warm"), "is no finding"),
        (("--finding", ""), "“” is no finding"),
        (("--finding", "left nek warmth warm"), "There is no structure “nek”. Did you mean neck"),
        (("--finding", "left neck warmth hot"), "“hot” is no value of warmth that Haywisp knows; choose one of cool,"),
        (("--finding", "left neck heat warm"), "“heat” is no aspect that Haywisp knows"),
    ],
)
def test_what_is_no_fact_is_refused_in_a_sentence(shell: Shell, options: tuple[str, ...], says: str) -> None:
    outcome = shell("gate", *options)
    assert (outcome.code, outcome.out) == (2, "")
    assert says in outcome.err
    assert len(outcome.err.splitlines()) == 1


def test_a_horse_is_judged_as_its_page_has_it(stable: Shell) -> None:
    stable.good("visit", "write", "Bramble", "finding", "structure=neck", "side=left", "aspect=skin", "value=rub")
    view = json.loads(stable.good("gate", "Bramble", "--json"))
    page = json.loads(stable.good("horse", "show", "Bramble", "--json"))
    assert view["verdict"] == page["verdict"]
    assert view["visit"]["name"] == "5 January 2026"
    assert view["facts"] == ["Left neck: a rub on the skin"]
    assert "Bramble: work within limits" in stable.good("gate", "bramble")


def test_standing_flags_and_a_first_visit_count(stable: Shell) -> None:
    stable.good(
        "horse",
        "add",
        "Clover",
        "--owner",
        "Ann Example",
        "--yard",
        "Example Farm",
        "--flag",
        "ppid",
        "--flag",
        "head-shy",
    )
    told = words(stable.good("gate", "Clover"))
    assert "Nothing is recorded of a visit yet." in told
    assert all(
        name in told for name in ("First session (first-visit)", "PPID (Cushing's) (ppid)", "Head-shy (head-shy)")
    )


def test_facts_beside_a_horse_are_asked_about_and_not_kept(stable: Shell) -> None:
    before = json.loads(stable.good("gate", "Bramble", "--json"))
    asked = json.loads(stable.good("gate", "Bramble", "--flag", "colic", "--json"))
    assert before["verdict"]["verdict"] != "vet-first"
    assert asked["verdict"]["verdict"] == "vet-first"
    assert json.loads(stable.good("gate", "Bramble", "--json")) == before


def test_what_was_set_aside_is_told_with_the_verdict(stable: Shell) -> None:
    stable.good("visit", "open", "Bramble", "--day", "2026-02-02")
    stable.good("visit", "asked", "Bramble", "--yes", "unexplained-lameness")
    stable.good("visit", "override", "Bramble", "The vet saw him on Monday and it is known.")
    told = words(stable.good("gate", "Bramble"))
    assert "Bramble: work within limits" in told
    assert "Work without waiting for the vet, who should come first" in told and "“The vet saw him on Monday" in told


def test_a_horse_that_is_not_there(stable: Shell) -> None:
    outcome = stable("gate", "Nobody", "--flag", "fever")
    assert (outcome.code, outcome.out) == (2, "")
    assert "There is no horse “Nobody”" in outcome.err


@pytest.mark.parametrize("flag", sorted(load_tables().flags))
def test_every_flag_can_be_asked_about(shell: Shell, flag: str) -> None:
    """Each alone raises a caution, and the strictest word for it is printed first."""
    view = json.loads(shell.good("gate", "--flag", flag, "--json"))
    assert len(view["verdict"]["reasons"]) == 1
    assert view["verdict"]["verdict"] in {"vet-first", "within-limits"}
