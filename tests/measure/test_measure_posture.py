"""Posture by hand: angles, ratios and depths of drawn shapes, placing error, and what is refused with a sentence."""

import subprocess
import sys
from dataclasses import replace

import numpy as np
import posture_herd as herd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.errors import HaywispError
from haywisp.measure.posture import (
    DEFAULT_PLACING,
    LANDMARKS,
    TRACES,
    KnownSizes,
    PlacedLandmarks,
    mean_placing,
    measure_posture,
    of_mean,
    placing_error,
    pooled_sd,
)
from haywisp.measure.posture.errors import (
    BadPicture,
    BadTold,
    BelowGround,
    DifferentPictures,
    GroundTooShort,
    GroundTooSteep,
    LineTooShort,
    MissingLandmark,
    OutsidePicture,
    SamePlace,
    ScaleTooShort,
    ScaleWithoutLength,
    TooFewPlacings,
    UnknownLandmark,
    WrongWayRound,
)
from haywisp.measure.posture.evidence import evenly
from haywisp.measure.posture.kinds import NAMES
from haywisp.measure.posture.landmarks import ORDER, place, stretch
from haywisp.measure.posture.shape import measures

STANDING = {"withers": (0.0, 1.0), "ground front": (0.5, 0.0), "ground behind": (-1.0, 0.0)}


def shape(**where: tuple[float, float] | list[tuple[float, float]]) -> dict[str, float]:
    """The measures of points that are drawn by hand, over withers height; underscores stand for blanks."""
    points = np.full((len(ORDER), 2), np.nan)
    for name, value in {**STANDING, **{key.replace("_", " "): value for key, value in where.items()}}.items():
        if name in TRACES:
            points[stretch(name)] = evenly(np.array(value, dtype=float), 9)
        else:
            points[place(name)] = value
    return dict(zip(NAMES, measures(points), strict=False))


@pytest.mark.parametrize(
    ("nose", "vertical", "ground"),
    [((0.0, -1.0), 0.0, 90.0), ((1.0, -1.0), 45.0, 45.0), ((-1.0, -1.0), -45.0, 135.0)],
)
def test_nose_line(nose: tuple[float, float], vertical: float, ground: float) -> None:
    """Nose straight below is 0° and 90°, as far before as below 45° and 45°.

    Ground angle as in Go, Barton & Ohnesorge 2014, BMC Vet Res 10:118 (abstract); nose to vertical is 90° less it.
    """
    found = shape(forehead=(0.5, 1.5), nose=(0.5 + nose[0] / 4, 1.5 + nose[1] / 4))
    assert found["nose to vertical"] == pytest.approx(vertical)
    assert found["nose to ground"] == pytest.approx(ground)


def test_neck_and_head() -> None:
    """A poll as far before as above the withers: 45°; the nose straight down is then 45° from the neck as well."""
    found = shape(poll=(0.6, 1.6), forehead=(0.7, 1.5), nose=(0.7, 1.2))
    assert found["neck to horizontal"] == pytest.approx(45)
    assert found["head to neck"] == pytest.approx(45)
    assert found["poll over withers"] == pytest.approx(1.6)


def test_a_lowered_neck_is_negative() -> None:
    assert shape(poll=(0.5, 0.5))["neck to horizontal"] == pytest.approx(-45)


def test_trunk() -> None:
    """Croup 4 % below the withers; shoulder to buttock 0.9 along and 0.12 down: √(0.9² + 0.12²) = 0.907965."""
    found = shape(croup=(-0.6, 0.96), point_of_shoulder=(0.1, 0.62), point_of_buttock=(-0.8, 0.74))
    assert found["croup over withers"] == pytest.approx(0.96)
    assert found["withers less croup"] == pytest.approx(0.04)
    assert found["length over height"] == pytest.approx(0.907965, abs=1e-6)


def test_depths_of_a_level_neck() -> None:
    """A level neck 1 long, its under line falling from 0.2 to 0.6 below, the vertebrae from 0.1 to 0.3."""
    found = shape(
        poll=(1.0, 1.0),
        upper_neck=[(1.0, 1.0), (0.5, 1.1), (0.0, 1.0)],
        under_neck=[(1.0, 0.8), (0.5, 0.6), (0.0, 0.4)],
        neck_vertebrae=[(1.0, 0.9), (0.5, 0.8), (0.0, 0.7)],
    )
    assert [found[f"neck depth {at}"] for at in (25, 50, 75)] == pytest.approx([0.35, 0.5, 0.55])
    assert [found[f"neck above vertebrae {at}"] for at in (25, 50, 75)] == pytest.approx([0.2, 0.3, 0.3])
    assert [found[f"neck below vertebrae {at}"] for at in (25, 50, 75)] == pytest.approx([0.15, 0.2, 0.25])


def test_a_line_that_does_not_reach_gives_no_depth() -> None:
    found = shape(poll=(1.0, 1.0), upper_neck=[(1, 1), (0, 1)], under_neck=[(1.0, 0.8), (0.7, 0.68), (0.4, 0.56)])
    assert found["neck depth 50"] == pytest.approx(0.4)
    assert np.isnan(found["neck depth 75"])


@given(st.floats(-0.5, 0.5), st.floats(0.1, 50), st.floats(-9, 9))
def test_turning_scaling_and_shifting_the_drawing_changes_no_measure(turn: float, scale: float, shift: float) -> None:
    points = herd.horse(np.random.default_rng(1)).points[:, :2]
    turned = points @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) * scale + shift
    assert measures(turned)[:-1] == pytest.approx(measures(points)[:-1])


def test_pooled_sd_of_pairs_is_the_technical_error() -> None:
    """Dahlberg's √(Σd²/2n) of peak flows read twice (Bland & Altman 1986): Σd² 7966, 15.3067; recomputed."""
    first = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427]
    second = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421]
    sd, degrees = pooled_sd(list(zip(first, second, strict=True)))
    assert (sd, degrees) == (pytest.approx(15.3067, abs=5e-5), 17)


SHOT = herd.Shot(yaw=2.0, tilt=-3.0)
HORSE = herd.horse(np.random.default_rng(4))
PLACED = herd.placed(herd.pixels(HORSE, SHOT), "right")
SIZES = herd.sizes(HORSE, SHOT)


def moved(placed: PlacedLandmarks, **where: tuple[float, float] | None) -> PlacedLandmarks:
    """The same with some landmarks elsewhere, or without them."""
    points = {**placed.points, **{name.replace("_", " "): value for name, value in where.items()}}
    return replace(placed, points={name: value for name, value in points.items() if value is not None})


def test_own_placing_error_is_found_again() -> None:
    """30 pictures placed twice with 12 pixels SD: known to about 9 %; the defaults weigh as 4 of 64 degrees."""
    chance = np.random.default_rng(2)
    tall = SHOT.focal_px * HORSE.height_cm / SHOT.distance_cm
    at = herd.pixels(HORSE, SHOT)
    rounds = [[herd.placed(at + chance.normal(0, 12, at.shape), "right") for _ in range(2)] for _ in range(30)]
    found = placing_error(rounds)
    own = np.array([found.sd[name] for name in LANDMARKS])
    default = np.array([DEFAULT_PLACING.sd[name] for name in LANDMARKS])
    expected = np.sqrt((60 * (12 / tall) ** 2 + 4 * default**2) / 64)
    assert np.mean(own / expected) == pytest.approx(1, abs=0.05)
    assert own == pytest.approx(expected, rel=0.35)
    assert found.sd["upper neck"] == pytest.approx(12 / tall, rel=0.1)
    assert "30 pictures" in found.source


def test_where_along_a_line_its_points_are_set_is_no_error() -> None:
    """The same straight line traced with points further along is the same line, but for its ends."""
    slid = dict(PLACED.traces)
    slid["under neck"] = tuple((1000.0 + 37 * step, 900.0 + 37 * step) for step in range(9))
    other = {**slid, "under neck": tuple((1010.0 + 37 * step, 910.0 + 37 * step) for step in range(9))}
    found = placing_error([[replace(PLACED, traces=slid), replace(PLACED, traces=other)]])
    assert found.sd["under neck"] < DEFAULT_PLACING.sd["under neck"]


def test_the_mean_of_four_placings_has_half_the_error() -> None:
    chance = np.random.default_rng(3)
    at = herd.pixels(HORSE, SHOT)
    rounds = [herd.placed(at + chance.normal(0, 5, at.shape), "right") for _ in range(4)]
    mean = mean_placing(rounds)
    assert mean.points["poll"][0] == pytest.approx(np.mean([one.points["poll"][0] for one in rounds]))
    assert set(mean.traces) == set(TRACES)
    assert of_mean(DEFAULT_PLACING, 4).sd["poll"] == DEFAULT_PLACING.sd["poll"] / 2
    once, four = measure_posture(mean, SIZES), measure_posture(mean, SIZES, of_mean(DEFAULT_PLACING, 4))
    for name in ("neck depth 50", "nose to vertical"):
        errors = [one.measures[name].quantity.error for one in (four, once)]
        assert 0.5 <= errors[0] / errors[1] < 0.85


def test_placings_that_tell_nothing_are_refused() -> None:
    with pytest.raises(TooFewPlacings, match="placed twice"):
        placing_error([[PLACED], [PLACED]])
    with pytest.raises(DifferentPictures):
        placing_error([[PLACED, replace(PLACED, side="left")]])


STICK = {name: PLACED.points[name] for name in ("stick low", "stick high")}
WITHERS, FRONT, BEHIND = (PLACED.points[name] for name in ("withers", "ground front", "ground behind"))


@pytest.mark.parametrize(
    ("placed", "known", "fault", "words"),
    [
        (moved(PLACED, withers=None), SIZES, MissingLandmark, "lacks withers.*place it"),
        (moved(PLACED, withers=None, ground_front=None), SIZES, MissingLandmark, "withers and ground front.*them"),
        (moved(PLACED, croup=None), SIZES, MissingLandmark, "croup, of which a size is told"),
        (moved(PLACED, tail=(5, 5)), SIZES, UnknownLandmark, "'tail'.*nose, forehead"),
        (replace(PLACED, traces={"mane": ((1, 1), (2, 2), (3, 3))}), SIZES, UnknownLandmark, "'mane'.*upper neck"),
        (moved(PLACED, nose=(4001, 5)), SIZES, OutsidePicture, r"Nose at \(4001, 5\).*4000 by 3000"),
        (moved(PLACED, nose=(float("nan"), 5)), SIZES, OutsidePicture, "nan"),
        (moved(PLACED, nose=PLACED.points["forehead"]), SIZES, SamePlace, "same spot"),
        (moved(PLACED, ground_front=BEHIND), SIZES, SamePlace, "ground"),
        (replace(PLACED, traces={"under neck": ((1, 1), (9, 9))}), SIZES, LineTooShort, "2 different points"),
        (replace(PLACED, traces={"under neck": ((1, 1), (9, 9), (9, 9))}), SIZES, LineTooShort, "2 different"),
        (moved(PLACED, stick_low=PLACED.points["stick high"]), SIZES, ScaleTooShort, "0.0 pixels"),
        (moved(PLACED, stick_low=None), SIZES, ScaleWithoutLength, "not both of its ends"),
        (PLACED, replace(SIZES, stick_cm=None), ScaleWithoutLength, "length is not given"),
        (moved(PLACED, ground_front=(BEHIND[0] + 300, BEHIND[1])), SIZES, GroundTooShort, "times as long"),
        (moved(PLACED, ground_front=(FRONT[0], 400)), SIZES, GroundTooSteep, "turn the picture upright"),
        (moved(PLACED, withers=(WITHERS[0], 2990)), SIZES, BelowGround, "Withers is below"),
        (moved(PLACED, poll=(PLACED.points["poll"][0], 2990)), SIZES, BelowGround, "Poll"),
        (replace(PLACED, side="left"), SIZES, WrongWayRound, "left side of a horse ground front is to the left"),
        (moved(PLACED, croup=(WITHERS[0] + 9, 900)), SIZES, WrongWayRound, "withers is to the right of croup"),
        (replace(PLACED, width_px=0), SIZES, BadPicture, "0 by 3000"),
        (replace(PLACED, side="top"), SIZES, BadPicture, "left or right"),
        (PLACED, replace(SIZES, withers_height_cm=15.7), BadTold, "withers height of 15.7 cm is outside 60 to 220"),
        (PLACED, replace(SIZES, focal_px=26), BadTold, "focal length of 26 pixels"),
        (PLACED, replace(SIZES, camera_distance_cm=8), BadTold, "distance of 8 cm"),
    ],
)
def test_a_slip_gets_a_sentence(
    placed: PlacedLandmarks, known: KnownSizes, fault: type[HaywispError], words: str
) -> None:
    with pytest.raises(fault, match=words):
        measure_posture(placed, known)


def test_three_landmarks_are_enough_to_start_and_the_rest_is_said() -> None:
    bare = PlacedLandmarks("right", 4000, 3000, {name: PLACED.points[name] for name in (*STANDING, "poll")})
    found = measure_posture(bare)
    assert set(found.measures) == {"neck to horizontal", "poll over withers"}
    assert found.left_out["length over height"] == ("point of shoulder", "point of buttock")
    assert found.left_out["neck depth 25"] == ("upper neck", "under neck")
    assert found.height_cm is None
    assert found.curves == {}


def test_crest_and_back_points_stand_for_lines_that_were_not_traced() -> None:
    lines = {name: line for name, line in PLACED.traces.items() if name in ("under neck", "neck vertebrae")}
    traced, pointed = measure_posture(PLACED, SIZES), measure_posture(replace(PLACED, traces=lines), SIZES)
    assert pointed.left_out == {}
    for at in (25, 50, 75):
        depths = [one.measures[f"neck depth {at}"].quantity.value for one in (traced, pointed)]
        assert depths[0] == pytest.approx(depths[1], abs=0.004)


def test_centimetres_only_with_a_scale() -> None:
    """In cm each length is its share of the withers' height, and that is near to what was told."""
    no_stick = moved(PLACED, stick_low=None, stick_high=None)
    assert not [name for name in measure_posture(no_stick).measures if "cm" in name]
    found = measure_posture(PLACED, SIZES)
    assert found.height_cm is not None
    height = found.height_cm.quantity
    assert (height.value, height.unit) == (pytest.approx(HORSE.height_cm, abs=2), "cm")
    in_cm, share = found.measures["length over height in cm"].quantity, found.measures["length over height"].quantity
    assert in_cm.value == pytest.approx(share.value * height.value, rel=1e-3)
    assert in_cm.unit == "cm"


def test_every_figure_has_its_error_interval_method_and_source() -> None:
    found = measure_posture(PLACED, SIZES)
    for one in (*found.measures.values(), *found.stance.values()):
        assert one.quantity.error is not None
        assert one.quantity.error > 0
        assert one.high - one.low == pytest.approx(2 * 1.96 * one.quantity.error)
        assert one.quantity.method
        assert "photograph" in one.quantity.source
        assert "design defaults" in one.quantity.source
    assert len(found.curves["upper neck"]) == 9
    assert found.points["withers"].up == pytest.approx(1)
    assert found.points["withers"].up_error < found.points["poll"].up_error


def test_a_mirrored_picture_is_the_other_side_of_the_same_posture() -> None:
    def flip(at: tuple[float, float]) -> tuple[float, float]:
        return PLACED.width_px - at[0], at[1]

    other = replace(
        PLACED,
        side="left",
        points={name: flip(at) for name, at in PLACED.points.items()},
        traces={name: tuple(map(flip, line)) for name, line in PLACED.traces.items()},
    )
    right, left = measure_posture(PLACED, SIZES), measure_posture(other, SIZES)
    assert left.tilt.value == pytest.approx(-right.tilt.value)
    for name, one in right.measures.items():
        assert left.measures[name].quantity.value == pytest.approx(one.quantity.value)


def test_feet_that_stand_apart_are_flagged() -> None:
    assert not [flag for flag in measure_posture(PLACED, SIZES).flags if flag.kind == "stance"]
    x, y = PLACED.points["far hind hoof"]
    stepped = measure_posture(moved(PLACED, far_hind_hoof=(x + 150, y)), SIZES)
    flags = [flag for flag in stepped.flags if flag.kind == "stance"]
    assert [flag.what for flag in flags] == ["hind feet apart"]
    assert flags[0].value < flags[0].low


def test_sizes_that_contradict_the_picture_are_flagged() -> None:
    """A stick of 120 cm told for one of 100, or a height in the wrong column."""
    assert "sizes disagree" not in {flag.kind for flag in measure_posture(PLACED, SIZES).flags}
    wrong = (replace(SIZES, stick_cm=140.0), replace(SIZES, croup_height_cm=SIZES.croup_height_cm - 12))
    for known in wrong:
        assert "sizes disagree" in {flag.kind for flag in measure_posture(PLACED, known).flags}


@pytest.mark.parametrize("seed", range(12))
def test_landmarks_set_anywhere_give_figures_or_a_sentence(seed: int) -> None:
    chance = np.random.default_rng(seed)
    points = {
        name: (float(chance.uniform(0, 4000)), float(chance.uniform(0, 3000))) if chance.random() < 0.08 else at
        for name, at in PLACED.points.items()
        if name in (*STANDING, "croup", "point of shoulder", "point of buttock") or chance.random() > 0.15
    }
    points = points if {"stick low", "stick high"} <= points.keys() else {**points, **STICK}
    try:
        found = measure_posture(replace(PLACED, points=points), SIZES)
    except HaywispError as fault:
        assert str(fault).endswith(".")
    else:
        assert all(np.isfinite([one.low, one.high]).all() for one in found.measures.values())


def test_the_room_is_opened_without_numpy() -> None:
    code = "import haywisp.measure.posture, sys; assert 'numpy' not in sys.modules"
    assert subprocess.run([sys.executable, "-c", code], timeout=60, check=False).returncode == 0
