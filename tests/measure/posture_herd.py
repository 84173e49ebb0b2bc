"""Invented horses in three dimensions, photographed by OpenCV's pinhole camera: the truth to hold posture against.

A horse is drawn up in units of its withers height: X forward, Y up, Z towards the camera, the ground below the withers
at nought. How horses vary and how far landmarks and tape figures go wrong is taken from the design defaults.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from haywisp.measure.posture import evidence as told
from haywisp.measure.posture.landmarks import LANDMARKS, ORDER, TRACE_POINTS, TRACES, landmark, place, stretch
from haywisp.measure.posture.types import KnownSizes, PlacedLandmarks

Array = NDArray[np.float64]
WIDTH, HEIGHT = 4000, 3000


@dataclass(frozen=True)
class Horse:
    """Points (K, 3) over withers height, and that height."""

    points: Array
    height_cm: float


@dataclass(frozen=True)
class Shot:
    """How a picture was taken; degrees and centimetres, pixels for the focal length."""

    yaw: float = 0.0
    tilt: float = 0.0
    pitch: float = 0.0
    distance_cm: float = 800.0
    focal_px: float = 4000.0
    aim: tuple[float, float] = (0.1, 0.65)
    side: str = "right"


def horse(chance: np.random.Generator, spread: float = 1.0, *, straight: bool = False) -> Horse:
    """A horse that no other is quite like; ``straight``: its head, neck and trunk are in their usual planes.

    ``spread`` 0 gives the middle one.
    """

    def about(middle: float, sd: float) -> float:
        return middle + spread * sd * chance.standard_normal()

    height_cm = about(157.0, 8.0)
    neck_angle = np.deg2rad(38.0 + spread * chance.uniform(-22, 22))
    nose_angle = np.deg2rad(25.0 + spread * chance.uniform(-35, 30))
    length = about(0.62, 0.025)
    along, down = (
        np.array([np.cos(neck_angle), np.sin(neck_angle)]),
        np.array([np.sin(neck_angle), -np.cos(neck_angle)]),
    )
    withers = np.array([0.0, 1.0])
    poll = withers + length * along
    forehead = poll + 0.12 * np.array([np.sin(nose_angle + 0.3), -np.cos(nose_angle + 0.3)])
    flat = {
        "withers": withers,
        "poll": poll,
        "forehead": forehead,
        "nose": forehead + about(0.26, 0.01) * np.array([np.sin(nose_angle), -np.cos(nose_angle)]),
        "point of shoulder": (about(0.17, 0.015), about(0.66, 0.015)),
        "elbow": (about(0.06, 0.01), about(0.55, 0.01)),
        "back": (about(-0.26, 0.02), about(0.93, 0.012)),
        "loin": (about(-0.5, 0.015), about(0.965, 0.012)),
        "croup": (about(-0.62, 0.015), about(0.99, 0.02)),
        "dock": (about(-0.82, 0.015), about(0.89, 0.02)),
        "point of buttock": (about(-0.85, 0.02), about(0.74, 0.02)),
        "point of hip": (about(-0.52, 0.015), about(0.9, 0.015)),
        "stifle": (about(-0.5, 0.02), about(0.58, 0.015)),
        "near fore hoof": (about(0.05, 0.02), 0.0),
        "far fore hoof": (about(0.05, 0.02), 0.0),
        "near hind hoof": (about(-0.78, 0.03), 0.0),
        "far hind hoof": (about(-0.78, 0.03), 0.0),
        "ground front": (0.5, 0.0),
        "ground behind": (-1.0, 0.0),
        "stick low": (0.75, 0.0),
        "stick high": (0.75, 100.0 / height_cm),
    }
    share = np.linspace(0, 1, TRACE_POINTS)
    arch, deep = about(0.03, 0.015), about(1.0, 0.06)
    below = {
        "upper neck": -4 * arch * share * (1 - share),
        "under neck": deep * (0.23 + 0.27 * share**1.3),
        "neck vertebrae": 0.08 + 0.22 * share,
    }
    points = np.full((len(ORDER), 3), np.nan)
    for name, depth in below.items():
        points[stretch(name), :2] = withers + length * (1 - share)[:, None] * along + depth[:, None] * down
    for at in (25, 50, 75):
        points[place(f"crest {at}"), :2] = points[stretch("upper neck")][(TRACE_POINTS - 1) * at // 100, :2]
    for name, where in flat.items():
        points[place(name), :2] = where
    back = np.array([flat[name] for name in ("withers", "back", "loin", "croup", "dock")])
    points[stretch("back line"), :2] = told.evenly(back, TRACE_POINTS)
    aside = 0.0 if straight else 1.0
    nearer = {name: about(landmark(name).nearer, aside * landmark(name).nearer_sd) for name in (*LANDMARKS, *TRACES)}
    points[:, 2] = [nearer[name] for name in ORDER]
    return Horse(points, height_cm)


def pixels(seen: Horse, shot: Shot) -> Array:
    """Where OpenCV's pinhole camera sees the horse's points (K, 2), counted from the picture's upper left corner."""
    mirror = -1.0 if shot.side == "left" else 1.0
    flip = np.array([mirror, 1.0, 1.0])
    yaw, pitch, roll = np.deg2rad([mirror * shot.yaw, shot.pitch, shot.tilt])
    target = np.array([shot.aim[0], shot.aim[1], 0.0]) * seen.height_cm * flip
    to_camera = np.array([np.sin(yaw) * np.cos(pitch), np.sin(pitch), np.cos(yaw) * np.cos(pitch)])
    camera = target + shot.distance_cm * to_camera
    ahead = -to_camera
    right = np.cross(ahead, [0.0, 1.0, 0.0])
    right /= np.linalg.norm(right)
    down = np.cross(ahead, right)
    level = np.array([right, down, ahead])
    turn = np.array([[np.cos(roll), -np.sin(roll), 0.0], [np.sin(roll), np.cos(roll), 0.0], [0.0, 0.0, 1.0]])
    rotation = turn @ level
    lens = np.array([[shot.focal_px, 0, WIDTH / 2], [0, shot.focal_px, HEIGHT / 2], [0, 0, 1.0]])
    world = seen.points * seen.height_cm * flip
    seen_at, _ = cv2.projectPoints(world, cv2.Rodrigues(rotation)[0], -rotation @ camera, lens, np.zeros(5))
    return np.asarray(seen_at[:, 0])


def placed(at: Array, side: str) -> PlacedLandmarks:
    """Points of a picture as a person places them."""
    points = {name: (float(at[place(name), 0]), float(at[place(name), 1])) for name in LANDMARKS}
    traces = {name: tuple((float(x), float(y)) for x, y in at[stretch(name)]) for name in TRACES}
    return PlacedLandmarks(side, WIDTH, HEIGHT, points, traces)  # type: ignore[arg-type]


def sizes(seen: Horse, shot: Shot) -> KnownSizes:
    """Everything that may be told of a picture, without error."""
    trunk = (seen.points[place("point of shoulder")] - seen.points[place("point of buttock")]) * seen.height_cm
    return KnownSizes(
        seen.height_cm, float(seen.points[place("croup"), 1]) * seen.height_cm, float(np.linalg.norm(trunk)),
        100.0, True, 0.0, shot.distance_cm, shot.focal_px,
    )  # fmt: skip


def told_with_error(known: KnownSizes, chance: np.random.Generator) -> KnownSizes:
    """The same figures as a person tells them."""
    z = chance.standard_normal(6)
    return replace(
        known,
        withers_height_cm=known.withers_height_cm + told.HEIGHT_SD_CM * z[0],
        croup_height_cm=known.croup_height_cm + told.HEIGHT_SD_CM * z[1],
        body_length_cm=known.body_length_cm + told.LENGTH_SD_CM * z[2],
        stick_cm=known.stick_cm + told.STICK_SD_CM * z[3],
        camera_distance_cm=known.camera_distance_cm * np.exp(told.DISTANCE_SD * z[4]),
        focal_px=known.focal_px * np.exp(told.FOCAL_SD * z[5]),
    )  # type: ignore[operator]


@dataclass(frozen=True)
class Trial:
    """A horse, how it was taken, what was placed and what was told."""

    horse: Horse
    shot: Shot
    placed: PlacedLandmarks
    known: KnownSizes


def trials(
    count: int, chance: np.random.Generator, most_yaw: float = 15.0, horses: Sequence[Horse] = ()
) -> Iterator[Trial]:
    """Pictures with tilt within 5°, yaw within ``most_yaw`` to either side, and errors of the default sizes."""
    sd = np.array([landmark(name).placing_sd for name in ORDER])
    for at in range(count):
        one = horses[at] if horses else horse(chance)
        shot = Shot(
            chance.uniform(-most_yaw, most_yaw), chance.uniform(-5, 5), chance.normal(0, told.PITCH_SD_DEGREES),
            chance.uniform(600, 1000), chance.uniform(3600, 4600), (chance.normal(0.1, 0.1), chance.normal(0.65, 0.08)),
            str(chance.choice(["left", "right"])),
        )  # fmt: skip
        leaning = one.points.copy()
        lean = np.deg2rad(told.LEAN_SD_DEGREES) * chance.standard_normal()
        leaning[place("stick high"), 0] += lean * 100 / one.height_cm
        stick = [place("stick low"), place("stick high")]
        leaning[stick, 2] += told.STICK_DEPTH_SD_CM * chance.standard_normal() / one.height_cm
        at = pixels(Horse(leaning, one.height_cm), shot)
        tall = shot.focal_px * one.height_cm / shot.distance_cm
        at = at + chance.standard_normal(at.shape) * (sd * tall)[:, None]
        yield Trial(one, shot, placed(at, shot.side), told_with_error(sizes(one, shot), chance))
