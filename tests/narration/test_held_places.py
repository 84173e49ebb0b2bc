"""The place that the hands stay at while it is described, and what is no finding of it; the sentences are invented."""

import pytest
from narration_samples import understood

Bouts = list[tuple[str, tuple[str, ...], str | None]]


def bouts(text: str) -> Bouts:
    return [(bout.technique, bout.structures, bout.side) for bout in understood(text).bouts]


def findings(text: str) -> list[tuple[str, str | None, str, str]]:
    return [(f.structure, f.side, f.aspect, f.value) for f in understood(text).findings]


@pytest.mark.parametrize(
    "text, wanted",
    [
        (
            "[0:02] Left side, kneading the splenius. [0:12] Right side, come round the front. [0:16] Kneading the "
            "splenius.",
            [("kneading", ("splenius",), "left"), ("kneading", ("splenius",), "right")],
        ),
        (
            "[0:02] Left side. The trapezius, both bits of it, kneading. [0:14] I stop on the back bit and circle it "
            "with my thumb. [0:24]",
            [
                ("kneading", ("trapezius-cervical", "trapezius-thoracic"), "left"),
                ("circular-friction", ("trapezius-thoracic",), "left"),
            ],
        ),
        (
            "[0:02] Left side, kneading the splenius. [0:12] Her hamstrings, which were sore in May, I'm "
            "wringing. [0:22]",
            [("kneading", ("splenius",), "left"), ("wringing", ("hamstrings",), "left")],
        ),
        (
            "[0:02] Left hind. I take it forward, under his belly, and hold. [0:14]",
            [("passive-stretch", ("hindlimb",), "left")],
        ),
        (
            "[0:02] Left side, the external oblique. I stroke it from the ribs to the hip. [0:14]",
            [("stroking", ("external-oblique",), "left")],
        ),
        (
            "[0:02] Left side, kneading the biceps femoris and the semitendinosus. [0:12] The biceps is soft. The "
            "other is tight. So only the other. [0:20] Kneading it. [0:28]",
            [
                ("kneading", ("biceps-femoris", "semitendinosus"), "left"),
                ("kneading", ("semitendinosus",), "left"),
            ],
        ),
        (
            "[0:02] Left side, kneading the splenius. [0:12] And to finish, the carrot. To the left hip. [0:20]",
            [
                ("kneading", ("splenius",), "left"),
                ("baited-stretch", ("neck",), "left"),
            ],
        ),
    ],
)
def test_the_hands_stay_where_they_were_said_to_be(text: str, wanted: Bouts) -> None:
    assert bouts(text) == wanted


def test_a_bare_fine_after_a_stretch_tells_how_it_went() -> None:
    assert findings("[0:02] Left hind, forward, and hold. [0:14] Fine. [0:16]") == [
        ("hindlimb", "left", "mobility", "free")
    ]


def test_a_side_told_alone_is_that_of_the_finding_before_it() -> None:
    assert findings("[0:02] The thoracic trapezius has gone to nothing. Near side. [0:08]") == [
        ("trapezius-thoracic", "left", "development", "under")
    ]


def test_a_place_within_the_muscle_under_the_hand_is_still_that_muscle() -> None:
    told = "[0:02] Left side, effleurage on the longissimus. [0:12] It's tight behind the saddle. [0:16]"
    assert findings(told) == [("longissimus-dorsi", "left", "tone", "tight")]


@pytest.mark.parametrize(
    "said",
    [
        "She gave a big sigh. Lovely.",
        "I wring it like a wet dishcloth.",
        "It was swollen up like a football.",
        "The dentist came, there was a split tooth on the right at the back.",
        "That's as hard as I'll go.",
        "It's too cold for flies.",
        "Careful of that scrape.",
        "He gets stuck spinning right.",
    ],
)
def test_what_is_no_finding_of_the_place_under_the_hand(said: str) -> None:
    assert findings(f"[0:02] Left side, kneading the triceps. [0:12] {said} [0:16]") == []


def test_what_the_pack_is_like_is_no_finding() -> None:
    assert findings("[0:02] A heat pack on the left loin. [0:40] That's going cold. [0:44] Off it comes.") == []


def test_what_was_read_out_after_a_pause_is_no_finding() -> None:
    told = "[0:02] Read me out what you wrote last month. [0:09] Sore over the right loin, tight in the neck. "
    told += "[0:14] Right, well."
    assert findings(told) == []
