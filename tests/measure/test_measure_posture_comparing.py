"""Two pictures of one horse: laid over each other, told apart by their error, or refused with the reason as data."""

from dataclasses import replace

import cv2
import numpy as np
import posture_herd as herd
import pytest

from haywisp.measure.posture import KnownSizes, Posture, compare, measure_posture, second_to_first
from haywisp.measure.posture.landmarks import place, stretch

HORSE = herd.horse(np.random.default_rng(4), spread=0.3)
SQUARE = herd.Shot()


def picture(shot: herd.Shot = SQUARE, horse: herd.Horse = HORSE, told: bool = True) -> Posture:
    """What a picture of a horse tells, without any error of placing."""
    placed = herd.placed(herd.pixels(horse, shot), shot.side)
    if told:
        return measure_posture(placed, herd.sizes(horse, shot))
    points = {name: at for name, at in placed.points.items() if not name.startswith("stick")}
    return measure_posture(replace(placed, points=points), KnownSizes())


def neck_raised(degrees: float) -> herd.Horse:
    """The same horse with head and neck turned about the withers."""
    turn = np.deg2rad(degrees)
    rows = [place(name) for name in ("nose", "forehead", "poll", "crest 25", "crest 50", "crest 75")]
    for line in ("upper neck", "under neck", "neck vertebrae"):
        rows += range(*stretch(line).indices(1000))
    points = HORSE.points.copy()
    from_withers = points[rows, :2] - (0, 1)
    points[rows, :2] = from_withers @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) + (0, 1)
    return herd.Horse(points, HORSE.height_cm)


def test_the_same_posture_from_elsewhere_is_not_shown_to_have_changed() -> None:
    found = compare(picture(), picture(herd.Shot(yaw=-3, tilt=4, distance_cm=700, focal_px=3700)))
    assert found.refusals == ()
    assert {one.verdict for one in found.differences} == {"not shown to have changed"}


def test_a_raised_neck_is_larger_than_error_and_the_trunk_is_not() -> None:
    """8° more: the neck's own angle and the nose's follow, the angle between them and the trunk don't."""
    found = {one.name: one for one in compare(picture(), picture(horse=neck_raised(8))).differences}
    neck = found["neck to horizontal"]
    assert neck.change.value == pytest.approx(8, abs=0.3)
    assert neck.low > 0
    assert neck.change.value == pytest.approx(neck.second.value - neck.first.value)
    assert found["nose to vertical"].change.value == pytest.approx(8, abs=0.3)
    assert {name for name, one in found.items() if one.verdict == "larger than error"} == {
        *("neck to horizontal", "nose to vertical", "nose to ground", "poll over withers")
    }


def test_errors_add_in_quadrature_and_the_horses_own_sway_with_them() -> None:
    still, swaying = (
        {one.name: one for one in compare(picture(), picture(horse=neck_raised(8)), sway).differences}
        for sway in ({}, {"neck to horizontal": 4.0})
    )
    one = still["neck to horizontal"]
    assert one.change.error == pytest.approx(np.hypot(one.first.error, one.second.error))
    other = swaying["neck to horizontal"]
    assert other.change.error == pytest.approx(np.sqrt(one.change.error**2 + 2 * 4.0**2))
    assert other.verdict == "not shown to have changed"
    assert (other.low + other.high) / 2 == pytest.approx(other.change.value)


def stepped(by: float) -> herd.Horse:
    points = HORSE.points.copy()
    points[place("near fore hoof"), 0] += by
    return herd.Horse(points, HORSE.height_cm)


@pytest.mark.parametrize(
    ("second", "kinds"),
    [
        (herd.Shot(yaw=18), {"yaw too large", "yaw differs"}),
        (herd.Shot(tilt=14), {"tilt too large"}),
        (herd.Shot(side="left"), {"other side"}),
        (herd.Shot(yaw=3, tilt=-6), set()),
    ],
)
def test_pictures_taken_too_differently_are_refused(second: herd.Shot, kinds: set[str]) -> None:
    found = compare(picture(), picture(second))
    assert {one.kind for one in found.refusals} == kinds
    assert (found.differences == ()) == bool(kinds)
    assert (found.overlay is None) == bool(kinds)


def test_yaws_of_opposite_sign_are_refused_though_each_is_small_enough() -> None:
    first, second = (picture(herd.Shot(yaw=yaw)) for yaw in (7.5, -7.5))
    refusals = compare(first, second).refusals
    assert [one.kind for one in refusals] == ["yaw differs"]
    assert refusals[0].first > 4
    assert refusals[0].second < -4


def test_another_stance_is_refused_with_the_foot() -> None:
    refusals = compare(picture(), picture(horse=stepped(0.12))).refusals
    assert {(one.kind, one.what) for one in refusals} == {
        ("stance differs", "near forefoot under"),
        ("stance differs", "forefeet apart"),
    }
    assert all(abs(one.second - one.first) == pytest.approx(0.12, abs=0.01) for one in refusals)
    assert compare(picture(), picture(horse=stepped(0.04))).refusals == ()


def test_a_picture_that_tells_nothing_of_its_yaw_is_compared_with_a_flag_and_a_wider_error() -> None:
    known, unknown = compare(picture(), picture()), compare(picture(told=False), picture(told=False))
    assert known.flags == ()
    assert {flag.kind for flag in unknown.flags} == {"yaw in doubt"}
    errors = [{d.name: d.change.error for d in one.differences}["croup over withers"] for one in (known, unknown)]
    assert errors[1] > 2 * errors[0]


def test_the_overlay_lays_withers_on_withers_and_ground_on_ground() -> None:
    found = compare(picture(), picture(herd.Shot(tilt=4, distance_cm=900))).overlay
    assert found is not None
    assert found.first["upper neck"][-1].up == pytest.approx(1, abs=0.01)
    assert found.second["upper neck"][-1].up == pytest.approx(1, abs=0.01)
    for one, other in zip(found.first["back line"], found.second["back line"], strict=True):
        assert (one.forward, one.up) == pytest.approx((other.forward, other.up), abs=0.01)


def test_the_similarity_is_opencvs() -> None:
    """A picture turned, shrunk and shifted by a similarity: OpenCV's estimate from all landmarks is the same."""
    first = herd.placed(herd.pixels(HORSE, SQUARE), "right")
    turn = np.array([[0.7, -0.05, 400.0], [0.05, 0.7, 300.0]])
    points = {name: tuple(map(float, turn @ [*at, 1.0])) for name, at in first.points.items()}
    found = np.array(second_to_first(first, replace(first, points=points)))
    names = list(points)
    theirs, _ = cv2.estimateAffinePartial2D(
        np.array([points[name] for name in names]), np.array([first.points[name] for name in names])
    )
    assert found == pytest.approx(theirs, abs=1e-3)
