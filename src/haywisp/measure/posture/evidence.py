"""From what a person placed and told to the arrays that the camera is fitted to, with how well each is known."""

from collections.abc import Mapping, Sequence

import numpy as np

from haywisp.measure.posture.camera import Array
from haywisp.measure.posture.landmarks import INSTEAD, LANDMARKS, ORDER, TRACE_POINTS, TRACES, landmark, place, stretch
from haywisp.measure.posture.pose import (
    CROUP_HEIGHT,
    DISTANCE,
    FOCAL,
    HEIGHT,
    LEAN,
    LENGTH,
    PITCH,
    SLOPE,
    STICK,
    TOLD,
    Evidence,
)
from haywisp.measure.posture.types import KnownSizes, PlacedLandmarks

# Design defaults, no source: how well each figure is known when a person tells it (SD).
HEIGHT_SD_CM = 0.7
LENGTH_SD_CM = 1.5
STICK_SD_CM = 0.2
STICK_DEPTH_SD_CM = 10.0
LEAN_SD_DEGREES = 0.7
PITCH_SD_DEGREES = 2.0
DISTANCE_SD = 0.05
FOCAL_SD = 0.03
#: Where they are not told: a picture from about 7 m, through anything from a telephone's wide lens to a moderate tele.
USUAL_DISTANCE_CM, USUAL_DISTANCE_SD = 700.0, 0.35
USUAL_FOCAL_WIDTHS, USUAL_FOCAL_SD = 1.0, 0.5
#: A horse's height where nothing tells it, only to turn proportions into depths.
USUAL_HEIGHT_CM = 155.0


def evidence(
    pictures: Sequence[tuple[PlacedLandmarks, KnownSizes]], placing_sd: Mapping[str, float]
) -> tuple[Evidence, Array]:
    """The evidence of N pictures of which the same things are known, and a rough pose of each (N, 5)."""
    pixels = np.array([sheet(placed) for placed, _ in pictures])
    rows, told, told_sd = _told(pictures)
    front, behind, withers = (pixels[:, place(one)] for one in ("ground front", "ground behind", "withers"))
    ground, there = front - behind, withers - behind
    tall = np.abs(ground[:, 0] * there[:, 1] - ground[:, 1] * there[:, 0]) / np.hypot(ground[:, 0], ground[:, 1])
    height_cm = _heights_cm(pixels, told, tall, rows)
    sd = np.array([placing_sd[name] for name in ORDER])
    nearer, nearer_sd = (
        np.array([getattr(landmark(name), field) for name in ORDER]) * height_cm[:, None]
        for field in ("nearer", "nearer_sd")
    )
    for end in ("stick low", "stick high"):
        nearer[:, place(end)] = [known.stick_nearer_cm for _, known in pictures]
    start = np.zeros((len(pictures), 5))
    start[:, 1] = np.arctan2(ground[:, 1], ground[:, 0])
    start[:, 3:] = told[:, (DISTANCE, FOCAL)]
    if set(rows) & {STICK, LENGTH, HEIGHT, CROUP_HEIGHT}:
        start[:, 3] = start[:, 4] + np.log(height_cm / tall)
    found = Evidence(pixels, sd * tall[:, None], nearer, nearer_sd, STICK_DEPTH_SD_CM, told, told_sd, rows)
    return found, start


def sheet(placed: PlacedLandmarks) -> Array:
    """All points of a picture (K, 2) from its middle, the horse facing right; lines evenly spaced, absent ones NaN."""
    points = np.full((len(ORDER), 2), np.nan)
    for name in LANDMARKS:
        if name in placed.points:
            points[place(name)] = placed.points[name]
    for name in TRACES:
        line = line_of(placed, name)
        if len(line) > 1:
            points[stretch(name)] = evenly(np.array(line, dtype=float), TRACE_POINTS)
    points -= (placed.width_px / 2, placed.height_px / 2)
    if placed.side == "left":
        points[:, 0] *= -1
    return points


def line_of(placed: PlacedLandmarks, name: str) -> tuple[tuple[float, float], ...]:
    """A traced line, or the landmarks that stand for it; empty where one of them is absent."""
    if name in placed.traces:
        return tuple(placed.traces[name])
    names = INSTEAD.get(name, ())
    return tuple(placed.points[one] for one in names) if all(one in placed.points for one in names) else ()


def evenly(line: Array, count: int) -> Array:
    """``count`` points evenly along a line (P, 2), its ends included; one that has so many is kept as it is."""
    if len(line) == count:
        return line
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    at = np.linspace(0.0, walked[-1], count)
    return np.stack([np.interp(at, walked, line[:, axis]) for axis in (0, 1)], axis=-1)


def _told(pictures: Sequence[tuple[PlacedLandmarks, KnownSizes]]) -> tuple[tuple[int, ...], Array, Array]:
    """Which figures are told, and each with its SD (N, 9)."""
    told, told_sd = np.full((2, len(pictures), TOLD), np.nan)
    used: set[int] = set()
    for row, (placed, known) in enumerate(pictures):
        for column, (value, sd) in _figures(placed, known).items():
            told[row, column], told_sd[row, column] = value, sd
            used.add(column)
    return tuple(sorted(used)), told, told_sd


def _figures(placed: PlacedLandmarks, known: KnownSizes) -> dict[int, tuple[float, float]]:
    there = placed.points.keys()
    focal = USUAL_FOCAL_WIDTHS * max(placed.width_px, placed.height_px)
    found = {
        SLOPE: (0.0, 0.0),
        PITCH: (0.0, np.deg2rad(PITCH_SD_DEGREES)),
        DISTANCE: (np.log(USUAL_DISTANCE_CM), USUAL_DISTANCE_SD),
        FOCAL: (np.log(focal), USUAL_FOCAL_SD),
    }
    if known.camera_distance_cm is not None:
        found[DISTANCE] = (np.log(known.camera_distance_cm), DISTANCE_SD)
    if known.focal_px is not None:
        found[FOCAL] = (np.log(known.focal_px), FOCAL_SD)
    if known.stick_cm is not None:
        found[STICK] = (known.stick_cm, STICK_SD_CM)
    if known.stick_upright and {"stick low", "stick high"} <= there:
        found[LEAN] = (0.0, np.deg2rad(LEAN_SD_DEGREES))
    if known.body_length_cm is not None and {"point of shoulder", "point of buttock"} <= there:
        found[LENGTH] = (known.body_length_cm, LENGTH_SD_CM)
    if known.withers_height_cm is not None:
        found[HEIGHT] = (known.withers_height_cm, HEIGHT_SD_CM)
    if known.croup_height_cm is not None and "croup" in there:
        found[CROUP_HEIGHT] = (known.croup_height_cm, HEIGHT_SD_CM)
    return found


def _heights_cm(pixels: Array, told: Array, tall: Array, rows: Sequence[int]) -> Array:
    """Withers height roughly: as told, or by whatever else has a known size."""
    if HEIGHT in rows:
        return np.asarray(told[:, HEIGHT])

    def apart(first: str, second: str) -> Array:
        between = pixels[:, place(first)] - pixels[:, place(second)]
        return np.asarray(np.hypot(between[:, 0], between[:, 1]))

    if CROUP_HEIGHT in rows:
        return np.asarray(told[:, CROUP_HEIGHT])
    if STICK in rows:
        return np.asarray(told[:, STICK] / apart("stick low", "stick high") * tall)
    if LENGTH in rows:
        return np.asarray(told[:, LENGTH] / apart("point of shoulder", "point of buttock") * tall)
    return np.full(len(pixels), USUAL_HEIGHT_CM)
