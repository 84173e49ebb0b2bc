# ruff: noqa: E501
"""Bouts that repeat, narrow, join, are called off or are advice, in sentences that are in no case (common practice, no source)."""

import pytest
from narration_samples import tables, words

from haywisp.narration import Transcript, understand

Row = tuple[str, tuple[str, ...], str | None, int | None, str | None]

BOUTS: list[tuple[str, list[Row]]] = [
    # Silence or a count after "same again" is the work itself; else it heads what follows.
    ("left side sweeps over the quarter light four one two three four (3) knead the glutes (8) round to the other side same again (11) glutes kneading (8)",
     [("effleurage", ("hindquarters",), "left", 4, "light"), ("kneading", ("gluteus-medius",), "left", None, None),
      ("effleurage", ("hindquarters",), "right", 4, "light"), ("kneading", ("gluteus-medius",), "right", None, None)]),
    ("knead the left splenius (8) squeeze the left triceps (8) and right the same (8)",
     [("kneading", ("splenius",), "left", None, None), ("muscle-squeezing", ("triceps-brachii",), "left", None, None),
      ("muscle-squeezing", ("triceps-brachii",), "right", None, None)]),
    # A new muscle after silence is no refinement of the region before it.
    ("left side long sweeps over the shoulder (7) then the supraspinatus going across it with my thumb (7)",
     [("effleurage", ("shoulder",), "left", None, None), ("cross-fibre-friction", ("supraspinatus",), "left", None, None)]),
    # One of several muscles alone is a bout of its own; the next one in one breath is of the same.
    ("left biceps femoris and gluteus superficialis kneading both together (9) so the biceps alone now firmer (9)",
     [("kneading", ("biceps-femoris", "gluteus-superficialis"), "left", None, None), ("kneading", ("biceps-femoris",), "left", None, "firm")]),
    ("left side knead through the splenius and down to the rhomboid (9)",
     [("kneading", ("splenius", "rhomboideus"), "left", None, None)]),
    # A titbit led to the other side.
    ("the carrot round to the right flank one (3) two (3) left elbow one (3) two (3)",
     [("baited-stretch", ("neck",), "right", 2, None), ("baited-stretch", ("neck",), "left", 2, None)]),
    # A limb is the handle of the muscle that is stretched.
    ("left side now the psoas (2) so i take the hind leg back and hold (9)", [("passive-stretch", ("iliopsoas",), "left", None, None)]),
    # What was found is pointed at.
    ("left side kneading the splenius (7) there is a knot in the splenius (2) thumb on that knot (8)",
     [("kneading", ("splenius",), "left", None, None), ("sustained-pressure", ("splenius",), "left", None, None)]),
    # Announced and put aside at once.
    ("left triceps kneading (8) hacking on the quarters no skip that (2) right triceps kneading (8)",
     [("kneading", ("triceps-brachii",), "left", None, None), ("kneading", ("triceps-brachii",), "right", None, None)]),
    # A region named on the second side stands for the muscle of the first.
    ("left side knead the splenius medium (8) swap over (2) and the neck same again (8)",
     [("kneading", ("splenius",), "left", None, "moderate"), ("kneading", ("splenius",), "right", None, "moderate")]),
    # A place named alone and its technique a moment later are one bout.
    ("left triceps compressions (8) left lat cupping (8) right side (2) triceps compressions (8) and lat on this side (1) i just knead it (8)",
     [("compression", ("triceps-brachii",), "left", None, None), ("cupping", ("latissimus-dorsi",), "left", None, None),
      ("compression", ("triceps-brachii",), "right", None, None), ("kneading", ("latissimus-dorsi",), "right", None, None)]),
    # The other hand is no other side; a side compared with is none either.
    ("left forearm extensors wringing one hand going past the other (8)", [("wringing", ("forearm-extensors",), "left", None, None)]),
    ("right side knead the splenius same as on the left (8)", [("kneading", ("splenius",), "right", None, None)]),
    ("we begin on the left (1) a stroke down the jaw (8)", [("stroking", ("jaw",), "left", None, None)]),
    # What a muscle is, told after its name, is no other muscle.
    ("left side (3) the semimembranosus that's the inside one of the hamstrings knead it light (8)", [("kneading", ("semimembranosus",), "left", None, "light")]),
    ("left side (3) the rhomboid that runs under the crest to the shoulder blade kneading it (8) good boy", [("kneading", ("rhomboideus",), "left", None, None)]),
    # A tail that is named and then pulled.
    ("right side knead the glutes (8) and the tail and i'm pulling it straight back and holding three times (8)",
     [("kneading", ("gluteus-medius",), "right", None, None), ("tail-traction", ("tail",), None, 3, None)]),
    # A titbit led down the middle has no side.
    ("carrot (2) down between his knees and hold it there (8)", [("baited-stretch", ("neck",), None, None, None)]),
    # Hands laid on that wait for the tissue are a hold.
    ("left side flat hands on the loin (2) and i wait (12)", [("myofascial-hold", ("loin",), "left", None, None)]),
    # A muscle worked at the second side's turn only, and told to be done again, is the one just left.
    ("left side knead the splenius (8) right side same (8) left side vibrate the longissimus capitis (8) right side same again (8)",
     [("kneading", ("splenius",), "left", None, None), ("kneading", ("splenius",), "right", None, None),
      ("vibration", ("longissimus-capitis",), "left", None, None), ("vibration", ("longissimus-capitis",), "right", None, None)]),
    # A muscle told of on the second side is not worked by that.
    ("left side knead the splenius (8) right side the right splenius is soft (8) good boy", [("kneading", ("splenius",), "left", None, None)]),
    # "Back" after a limb is where it goes.
    ("right hind back and hold (9)", [("passive-stretch", ("hindlimb",), "right", None, None)]),
]  # fmt: skip

NO_BOUTS = [
    "i ain't going to knead the left triceps we leave it be",
    "i should do the left triceps kneading as well but the owner says no",
    "you rub the left shoulder with a towel for him",
    "heat pack on the left loin every night for ten minutes",
    "i'd put my thumb on the left splenius if he let me",
    "there was a case for cupping the left shoulder",
    "folk will do some chopping on the quarters",
    "friction on the left triceps is omitted",
    "they'll spend twenty minutes kneading the flexors",
    "there's a grey horse in the far pen and he was sore so i kneaded his shoulder",
]


def bouts(text: str) -> list[Row]:
    narration = understand(Transcript(words(text, step=0.4), "test"), tables())
    return [(b.technique, b.structures, b.side, b.passes, b.pressure) for b in narration.bouts]


@pytest.mark.parametrize(("text", "wanted"), BOUTS)
def test_bouts_are_told_apart(text: str, wanted: list[Row]) -> None:
    assert bouts(text) == wanted


@pytest.mark.parametrize("text", NO_BOUTS)
def test_what_is_advised_or_put_aside_is_no_bout(text: str) -> None:
    assert bouts(text) == []
