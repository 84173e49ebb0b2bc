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
