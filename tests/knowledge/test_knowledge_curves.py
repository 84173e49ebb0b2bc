"""Curves through points: they pass through them, make no loops, and turn sharply only at corners."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point as Dot
from shapely.geometry import Polygon

from haywisp.knowledge.curves import area, crossing, flat, smooth, within

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
BOW = ((0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0))
COORDINATE = st.integers(-100, 100).map(float)
POINTS = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=12, unique=True)


def test_a_curve_passes_through_its_points_in_their_order() -> None:
    bends = smooth(SQUARE)
    assert [bend.start for bend in bends] == list(SQUARE)
    assert bends[-1].end == SQUARE[0]


def test_with_every_point_a_corner_it_is_the_polygon() -> None:
    around = list(flat(smooth(SQUARE, [True] * 4)))
    assert area(around) == pytest.approx(100)
    assert all(x in (0, 10) or y in (0, 10) for x, y in around)


def test_through_points_of_a_circle_it_is_nearly_the_circle() -> None:
    points = [(math.cos(turn * math.pi / 6), math.sin(turn * math.pi / 6)) for turn in range(12)]
    radii = [math.hypot(x, y) for x, y in flat(smooth(points))]
    assert min(radii) > 0.995
    assert max(radii) < 1.005


def test_an_open_curve_of_points_in_line_is_straight() -> None:
    bends = smooth([(0.0, 0.0), (1.0, 2.0), (4.0, 8.0)], closed=False)
    assert len(bends) == 2
    for x, y in flat(bends):
        assert y == pytest.approx(2 * x)


@given(POINTS)
def test_between_two_points_the_curve_never_crosses_itself(points: list[tuple[float, float]]) -> None:
    """Yuksel, Schaefer & Keyser 2011, Computer-Aided Design 43:747-755 (from memory): no loop within a segment."""
    for bend in smooth(points, closed=False):
        piece = [bend.at(step / 24) for step in range(25)]
        assert crossing([*piece, *piece[-2:0:-1]]) is None or crossing(piece) is None


@given(POINTS)
def test_area_and_crossing_agree_with_shapely(points: list[tuple[float, float]]) -> None:
    polygon = Polygon(points)
    if polygon.is_valid:
        assert crossing(points) is None
        assert area(points) == pytest.approx(polygon.area, abs=1e-6)


@given(POINTS, st.tuples(COORDINATE, COORDINATE))
def test_within_agrees_with_shapely(points: list[tuple[float, float]], spot: tuple[float, float]) -> None:
    polygon = Polygon(points)
    if polygon.is_valid and polygon.boundary.distance(Dot(spot)) > 1e-6:
        assert within(spot, points) == polygon.contains(Dot(spot))


def test_a_bow_tie_crosses_itself() -> None:
    assert crossing(BOW) is not None
    assert not Polygon(BOW).is_valid
