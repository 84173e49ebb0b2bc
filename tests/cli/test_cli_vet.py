"""What the vet answered, by the command line."""

import json

from told import Shell


def test_what_the_vet_said_is_kept_and_printed(stable: Shell) -> None:
    stable.good("visit", "accept", "Bramble")
    stable.good("visit", "vet-said", "Bramble", "Not before Friday", "--wait")
    waiting = " ".join(stable.good("visit", "show", "Bramble").split())
    assert "(to wait): “Not before Friday”" in waiting
    assert json.loads(stable.good("plan", "Bramble", "--json"))["verdict"]["verdict"] == "vet-first"

    assert "Kept: Fit for bodywork" in stable.good("visit", "vet-said", "Bramble", "Fit for bodywork")

    plan = json.loads(stable.good("plan", "Bramble", "--json"))
    assert plan["verdict"]["verdict"] != "vet-first"
    assert [word["text"] for word in plan["vet_said"]] == ["Fit for bodywork", "Not before Friday"]
    assert "“Fit for bodywork”" in stable.good("plan", "Bramble")
    assert "Fit for bodywork" in stable.good("report", "Bramble")


def test_an_empty_answer_is_refused(stable: Shell) -> None:
    outcome = stable("visit", "vet-said", "Bramble", " ")
    assert outcome.code == 2
    assert "The note is empty" in outcome.err


def test_a_reason_to_work_all_the_same_is_kept_and_printed(stable: Shell) -> None:
    stable.good("visit", "open", "Bramble", "--day", "2026-02-02")
    stable.good("visit", "asked", "Bramble", "--yes", "unexplained-lameness")
    reason = "The vet saw him on Monday and it is known."

    assert f"Kept: {reason}" in " ".join(stable.good("visit", "override", "Bramble", reason).split())

    for command in (("visit", "show"), ("plan",), ("horse", "show")):
        told = " ".join(stable.good(*command, "Bramble").split())
        assert f"The reason that was written: “{reason}”" in told
    verdict = json.loads(stable.good("plan", "Bramble", "--json"))["verdict"]
    assert (verdict["verdict"], len(verdict["set_aside"])) == ("within-limits", 1)


def test_a_reason_against_what_is_absolute_is_refused(stable: Shell) -> None:
    stable.good("visit", "asked", "Bramble", "--yes", "fever")
    outcome = stable("visit", "override", "Bramble", "He looks quite well to me today.")
    assert (outcome.code, outcome.out) == (2, "")
    assert "No reason sets this aside: Fever." in outcome.err
