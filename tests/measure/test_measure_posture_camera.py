"""Posture against OpenCV's pinhole camera: invented horses in three dimensions, photographed askew.

Errors of placing, tape and set-up are drawn from the design defaults, so what is held here is that the reckoning
carries them rightly; whether a person's errors are of that size is another question.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import cv2
import numpy as np
import posture_herd as herd
import pytest
from scipy.stats import chi2

from haywisp.measure.posture import DEFAULT_PLACING, KnownSizes, measure_posture
from haywisp.measure.posture.camera import on_horse
from haywisp.measure.posture.evidence import evidence
from haywisp.measure.posture.kinds import MEASURES, NAMES, STANCE, WITHERS_HEIGHT, columns
from haywisp.measure.posture.landmarks import ORDER
from haywisp.measure.posture.measuring import CHANCE_IN_DOUBT, most_misfit
from haywisp.measure.posture.reckoning import Reckoned, reckon
from haywisp.measure.posture.shape import everything

COUNT = 2000
ANGLES = [name for name, kind in MEASURES.items() if kind.unit == "°"]
TAPE = {"stick_cm": None, "stick_upright": False, "camera_distance_cm": None, "focal_px": None}


def test_a_square_camera_by_hand() -> None:
    """At 800 cm with 4000 pixels of focal length 5 pixels are 1 cm; 80 cm nearer, a tenth less."""
    pose = np.array([0.0, 0.0, 0.0, np.log(800.0), np.log(4000.0)])
    at = np.array([[500.0, -250.0], [500.0, -250.0]])
    assert on_horse(at, np.array([0.0, 80.0]), pose) == pytest.approx(np.array([[100.0, 50.0], [90.0, 45.0]]))


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_camera_is_the_inverse_of_opencvs(side: str) -> None:
    """Any horse seen from anywhere is put back to where it was, when the pose is known."""
    chance = np.random.default_rng(8)
    for _ in range(20):
        one = herd.horse(chance)
        shot = herd.Shot(*chance.uniform(-20, 20, 3), chance.uniform(400, 1200), chance.uniform(2000, 9000), side=side)
        at = herd.pixels(one, shot) - (herd.WIDTH / 2, herd.HEIGHT / 2)
        sign = 1 if side == "right" else -1
        angles = np.deg2rad([shot.yaw, sign * shot.tilt, shot.pitch])
        pose = np.array([*angles, np.log(shot.distance_cm), np.log(shot.focal_px)])
        back = on_horse(at * (sign, 1), one.points[:, 2] * one.height_cm, pose) / one.height_cm + shot.aim
        assert back == pytest.approx(one.points[:, :2], abs=1e-9)


def exact(most_yaw: float, count: int, seed: int, **without: object) -> tuple[Reckoned, np.ndarray]:
    """Pictures without any error of a straight horse, and the true measures."""
    chance = np.random.default_rng(seed)
    pictures, truth = [], []
    for at in range(count):
        one = herd.horse(chance, straight=True)
        shot = herd.Shot(
            chance.uniform(-most_yaw, most_yaw), chance.uniform(-5, 5), chance.uniform(-2, 2),
            chance.uniform(600, 1000), chance.uniform(3600, 4600), side="left" if at % 2 else "right",
        )  # fmt: skip
        placed = herd.placed(herd.pixels(one, shot), shot.side)
        pictures.append((placed, replace(herd.sizes(one, shot), **without)))
        truth.append(everything(one.points[:, :2] * one.height_cm, curves=False))
    return reckon(*evidence(pictures, DEFAULT_PLACING.sd), curves=False), np.array(truth)


@pytest.mark.parametrize("without", [{}, TAPE, {**TAPE, "body_length_cm": None}], ids=["all", "tape", "heights"])
def test_angles_within_one_degree_up_to_five_of_yaw(without: dict[str, object]) -> None:
    """Landmarks and sizes exact, tilt to ±5°, yaw to ±5°, pitch to ±2°, from 6 to 10 m."""
    found, truth = exact(5.0, 200, 12, **without)
    off = np.abs(found.value - truth)[:, [NAMES.index(name) for name in ANGLES]]
    assert off.max() < 1.0


def test_what_is_told_mends_what_yaw_spoils() -> None:
    """At up to 10° of yaw with nothing told the angles are off by 2° and more; with heights told by less than 1°."""
    columns_ = [NAMES.index(name) for name in ANGLES]
    nothing, truth = exact(10.0, 100, 13, **TAPE, withers_height_cm=None, croup_height_cm=None, body_length_cm=None)
    told, _ = exact(10.0, 100, 13)
    assert np.abs(nothing.value - truth)[:, columns_].max() > 2.0
    assert np.abs(told.value - truth)[:, columns_].max() < 1.0


@cache
def herd_of_trials() -> tuple[list[herd.Trial], np.ndarray]:
    """The trials, and the true measures of each."""
    trials = list(herd.trials(COUNT, np.random.default_rng(20)))
    truth = [everything(trial.horse.points[:, :2] * trial.horse.height_cm, curves=False) for trial in trials]
    return trials, np.array(truth)


@cache
def reckoned() -> Reckoned:
    """All trials with everything told."""
    return reckon(*evidence([(one.placed, one.known) for one in herd_of_trials()[0]], DEFAULT_PLACING.sd), curves=False)


def held(found: Reckoned, truth: np.ndarray) -> dict[str, float]:
    """How often the 95 % interval of each measure holds the truth."""
    inside = np.abs(found.value - truth) < 1.96 * found.sd
    return dict(zip(columns(curves=False), inside.mean(axis=0), strict=True))


def test_the_interval_holds_the_truth_in_95_of_100() -> None:
    """2,000 pictures, tilt to ±5°, yaw to ±15°, all errors of the default sizes, everything told: 93 to 97 %."""
    shares = held(reckoned(), herd_of_trials()[1])
    assert {*NAMES, *STANCE, WITHERS_HEIGHT} <= shares.keys()
    assert {name: share for name, share in shares.items() if not 0.93 <= share <= 0.97} == {}


def test_yaw_and_tilt_have_the_error_that_they_say() -> None:
    trials, _ = herd_of_trials()
    found = reckoned()
    yaw = np.deg2rad([one.shot.yaw for one in trials])
    tilt = np.deg2rad([one.shot.tilt * (1 if one.shot.side == "right" else -1) for one in trials])
    for value, sd, true in ((found.yaw, found.yaw_sd, yaw), (found.tilt, found.tilt_sd, tilt)):
        assert 0.93 <= np.mean(np.abs(value - true) < 1.96 * sd) <= 0.97


def test_what_is_told_fits_the_picture_as_well_as_its_errors_say() -> None:
    """Nine figures told less four fitted: χ² with five degrees, mean 5 and 1 in 1,000 above 20.5 (scipy)."""
    misfit = reckoned().misfit
    assert np.mean(misfit) == pytest.approx(5, abs=0.35)
    assert np.mean(misfit > most_misfit(5)) <= 0.004
    for degrees_left in (1, 2, 5, 9):
        assert most_misfit(degrees_left) == pytest.approx(chi2.ppf(0.999, degrees_left), rel=0.05)


def flagged(found: Reckoned, low: float, high: float) -> float:
    """How many of the pictures with a true yaw between the two are flagged."""
    yaw = np.array([abs(one.shot.yaw) for one in herd_of_trials()[0]])[: len(found.too_far)]
    return float(np.mean(found.too_far[(yaw > low) & (yaw <= high)] > CHANCE_IN_DOUBT))


def test_yaw_beyond_ten_degrees_is_flagged() -> None:
    """Everything told: 95 % at least of those beyond 10°, and of those within 5° 6 % at most by mistake."""
    assert flagged(reckoned(), 10, 15) >= 0.95
    assert flagged(reckoned(), 0, 5) <= 0.06


def test_with_less_told_the_flag_is_raised_sooner_and_not_later() -> None:
    """Withers height and body length alone tell yaw badly: as many beyond 10° are found, at the price of false ones."""
    trials = herd_of_trials()[0][:400]
    pictures = [(one.placed, replace(one.known, **TAPE, croup_height_cm=None)) for one in trials]
    found = reckon(*evidence(pictures, DEFAULT_PLACING.sd), curves=False)
    assert flagged(found, 10, 15) >= 0.90
    assert flagged(found, 0, 5) > 0.4


def test_nothing_told_is_nothing_known_of_yaw() -> None:
    """Then the yaw is as wide as it is expected to be, the picture is flagged, and the interval still holds."""
    trials, truth = herd_of_trials()
    bare = KnownSizes()
    found = reckon(*evidence([(one.placed, bare) for one in trials[:300]], DEFAULT_PLACING.sd), curves=False)
    assert np.rad2deg(found.yaw_sd) == pytest.approx(8.0, abs=0.2)
    assert flagged(found, 0, 15) == 1.0
    shares = held(found, truth[:300])
    assert min(shares[name] for name in NAMES) > 0.90


def again() -> Iterator[tuple[herd.Trial, herd.Trial]]:
    """The same horses in the same posture, photographed twice."""
    chance = np.random.default_rng(21)
    horses = [herd.horse(chance) for _ in range(300)]
    yield from zip(*(herd.trials(300, chance, 8.0, horses) for _ in range(2)), strict=True)


def test_a_posture_that_did_not_change_is_seldom_said_to_have_changed() -> None:
    """Second less first against the joint error: at most 8 % outside for any measure, where 5 % are meant to be."""
    pairs = list(again())
    first, second = (
        reckon(*evidence([(pair[at].placed, pair[at].known) for pair in pairs], DEFAULT_PLACING.sd), curves=False)
        for at in (0, 1)
    )
    outside = np.abs(second.value - first.value) > 1.96 * np.hypot(first.sd, second.sd)
    shares = dict(zip(columns(curves=False), outside.mean(axis=0), strict=True))
    assert max(shares[name] for name in NAMES) <= 0.08


def test_one_picture_alone_says_the_same_as_among_many() -> None:
    trials, _ = herd_of_trials()
    for at in (0, 1):
        found = measure_posture(trials[at].placed, trials[at].known)
        for name in NAMES:
            column = columns(curves=False).index(name)
            assert found.measures[name].quantity.value == pytest.approx(reckoned().value[at, column])
            assert found.measures[name].quantity.error == pytest.approx(reckoned().sd[at, column])
        assert found.yaw.signed.value == pytest.approx(np.rad2deg(reckoned().yaw[at]))


def test_points_and_curves_hold_the_truth_within_their_error() -> None:
    """All landmarks and lines of 150 pictures, forward and up: 93 to 97 % in all.

    The stick is left out, which leans, and so are the withers and the ground's height, which the frame is laid on.
    """
    trials = herd_of_trials()[0][:150]
    first = len(columns(curves=False))
    found = reckon(*evidence([(one.placed, one.known) for one in trials], DEFAULT_PLACING.sd))
    truth = np.array([everything(one.horse.points[:, :2] * one.horse.height_cm)[first:] for one in trials])
    off, sd = np.abs(found.value[:, first:] - truth), found.sd[:, first:]
    laid = sd.max(axis=0) < 1e-6
    assert laid.sum() == 4
    left = ~laid & ~np.repeat([name.startswith("stick") for name in ORDER], 2)
    assert 0.93 <= np.mean(off[:, left] < 1.96 * sd[:, left]) <= 0.97


def test_opencv_sees_the_horse_within_the_picture() -> None:
    """The trials are pictures that could be taken: OpenCV's camera puts every landmark into the frame."""
    assert cv2.__version__
    for trial in herd_of_trials()[0][:200]:
        for x, y in trial.placed.points.values():
            assert 0 <= x <= herd.WIDTH
            assert 0 <= y <= herd.HEIGHT
