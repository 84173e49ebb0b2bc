"""What is wished for, doubted, foretold, or of a person or a thing is no finding; sizes are told of sides only."""

import pytest
from narration_samples import understood

WORK = "[0:02] Left triceps, kneading. [0:20] "


@pytest.mark.parametrize(
    "said",
    [
        "I hope there's no heat in it tomorrow.",
        "Fingers crossed there's no swelling by Friday.",
        "I'm not sure there's a knot there.",
        "He'll be sore in the morning.",
        "I'm so tight myself.",
        "My knees are stiff.",
        "Sore in my own back, mind.",
        "The door's stiff.",
        "It's a tight schedule.",
        "Right enough, she's a bigger mare than I thought.",
        "All right, bigger bucket please.",
        "Is the left bigger.",
    ],
)
def test_it_is_no_finding(said: str) -> None:
    assert understood(WORK + said).findings == ()


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("Bigger left side.", "larger-left"),
        ("There's more of him on the right.", "larger-right"),
        ("The left looks small next to the right.", "larger-right"),
        ("Near shoulder's a size up from the off.", "larger-left"),
    ],
)
def test_the_larger_side_is_told(said: str, value: str) -> None:
    assert [finding.value for finding in understood(WORK + said).findings] == [value]


def test_a_no_that_stands_alone_denies_nothing() -> None:
    found = understood(WORK + "There's a nodule, no, a knot, deep in there.").findings
    assert [finding.value for finding in found] == ["knotted"]


def test_here_turns_no_statement_into_a_question() -> None:
    found = understood(WORK + "Here is it cold.").findings
    assert [finding.value for finding in found] == ["cool"]
