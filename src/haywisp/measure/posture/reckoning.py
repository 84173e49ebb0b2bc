"""Measures of many pictures at once with their errors: those of placing, of sizes told, and of what the yaw may be."""

from dataclasses import dataclass

import numpy as np

from haywisp.measure.posture.camera import POSE, ROLL, YAW, Array, on_horse
from haywisp.measure.posture.kinds import MEASURES, STANCE, columns
from haywisp.measure.posture.landmarks import ORDER
from haywisp.measure.posture.pose import YAWS, Evidence, fit
from haywisp.measure.posture.shape import everything

#: Pictures are not compared beyond this yaw.
MOST_YAW = np.deg2rad(10.0)
STEP = 1e-3
#: Points that any measure is reckoned from; the others are only drawn.
USED = {
    *(need for kind in MEASURES.values() for need in kind.needs),
    *(foot for row in STANCE.values() for foot in row[:2]),
}
#: Pictures worked on at once, so that the grid's arrays stay small.
AT_ONCE = 50


@dataclass(frozen=True, slots=True)
class Reckoned:
    """Of N pictures: measures (N, C) as in :func:`~haywisp.measure.posture.kinds.columns`, yaw and tilt, each with SD.

    Yaw and tilt are in radians. ``yaw`` is signed, ``turned`` without sign; ``too_far`` is the probability of more than
    :data:`MOST_YAW`; ``misfit`` is that of :class:`~haywisp.measure.posture.pose.Fit`.
    """

    value: Array
    sd: Array
    yaw: Array
    yaw_sd: Array
    turned: Array
    turned_sd: Array
    too_far: Array
    tilt: Array
    tilt_sd: Array
    misfit: Array


def reckon(evidence: Evidence, start: Array, curves: bool = True) -> Reckoned:
    """All measures of all pictures, each yaw of the grid counted by its probability.

    The error is that of first-order propagation of every error at the middle pose (central differences), through the
    points, the pose and the yaw's probability, together with the spread over yaws that the picture can't tell apart.
    """
    parts = [
        _reckon(_part(evidence, slice(at, at + AT_ONCE)), start[at : at + AT_ONCE], curves)
        for at in range(0, len(start), AT_ONCE)
    ]
    return Reckoned(*(np.concatenate([getattr(part, name) for part in parts]) for name in Reckoned.__slots__))


def _part(evidence: Evidence, rows: slice) -> Evidence:
    return Evidence(
        evidence.pixels[rows], evidence.pixel_sd[rows], evidence.nearer[rows], evidence.nearer_sd[rows],
        evidence.stick_depth_sd, evidence.told[rows], evidence.told_sd[rows], evidence.rows,
    )  # fmt: skip


def _reckon(evidence: Evidence, start: Array, curves: bool) -> Reckoned:
    found = fit(evidence, start)
    points = on_horse(evidence.pixels[:, None], evidence.nearer[:, None], found.poses)
    grid = np.concatenate([everything(points, curves), found.poses[..., ROLL : ROLL + 1]], axis=-1)
    value, between, around = _over_yaws(grid, found.chance)
    lean = np.einsum("ng,ngc,ngr->ncr", found.chance, around, found.left)
    through = np.concatenate(
        [_by_error(evidence, found.middle, found.shift, curves), found.shift[:, ROLL - 1, :, None]], axis=-1
    )
    by_yaw = -(lean @ found.pull).swapaxes(-1, -2)
    # Errors that move the measure and the yaw found at once may add up or cancel; what the yaw keeps open is added.
    variance = ((through + by_yaw) ** 2).sum(1) + np.maximum(between - (by_yaw**2).sum(1), 0.0)
    yaws = np.broadcast_to(YAWS[:, None], (*found.chance.shape, 1))
    yaw, yaw_variance, _ = _over_yaws(yaws, found.chance)
    turned, turned_variance, _ = _over_yaws(np.abs(yaws), found.chance)
    too_far = (found.chance * (np.abs(YAWS) > MOST_YAW)).sum(-1)
    return Reckoned(
        value[:, :-1], np.sqrt(variance[:, :-1]), yaw[:, 0], np.sqrt(yaw_variance[:, 0]), turned[:, 0],
        np.sqrt(turned_variance[:, 0]), too_far, value[:, -1], np.sqrt(variance[:, -1]),
        found.misfit,
    )  # fmt: skip


def _over_yaws(values: Array, chance: Array) -> tuple[Array, Array, Array]:
    """Mean and variance over the grid, (N, G, C) to (N, C) each, and what is about the mean (N, G, C).

    A measure that can't be had at unlikely yaws is taken over the others; one that can't be had at most is NaN.
    """
    had = ~np.isnan(values)
    share = np.einsum("ng,ngc->nc", chance, had)
    mean = np.einsum("ng,ngc->nc", chance, np.where(had, values, 0.0)) / np.where(share > 0.5, share, np.nan)
    around = np.where(had, values - mean[:, None], 0.0)
    return mean, np.einsum("ng,ngc->nc", chance, around**2), around


def _by_error(evidence: Evidence, pose: Array, shift: Array, curves: bool) -> Array:
    """How all columns move with an SD of each error (N, 3·K + 10, C): on the points and, through the fit, the pose."""
    count = len(pose)
    points = on_horse(evidence.pixels, evidence.nearer, pose)
    by_place = _by_place(points, curves)
    by_error = _points_by_error(evidence, pose)
    direct = np.einsum("nkac,nkae->nkec", by_place, by_error).reshape(count, 3 * len(ORDER), -1)
    by_pose = []
    for one in range(YAW + 1, POSE):
        step = np.zeros(POSE)
        step[one] = STEP
        ahead, behind = (
            everything(on_horse(evidence.pixels, evidence.nearer, pose + s * step), curves) for s in (1, -1)
        )
        by_pose.append((ahead - behind) / (2 * STEP))
    through = np.einsum("pnc,npe->nec", np.array(by_pose), shift)
    through[:, : 3 * len(ORDER)] += direct
    return np.asarray(through)


def _by_place(points: Array, curves: bool) -> Array:
    """Derivatives of all columns by each point's place (N, K, 2, C); nought for absent points."""
    size = 0.01
    slopes = np.zeros((len(points), len(ORDER), 2, len(columns(curves))))
    for row, name in enumerate(ORDER):
        if curves or name in USED:
            for axis in (0, 1):
                step = np.zeros_like(points)
                step[:, row, axis] = size
                ahead, behind = everything(points + step, curves), everything(points - step, curves)
                slopes[:, row, axis] = (ahead - behind) / (2 * size)
    absent = np.isnan(points[..., 0])
    return np.asarray(np.where(absent[:, :, None, None], 0.0, slopes))


def _points_by_error(evidence: Evidence, pose: Array) -> Array:
    """How each point's place moves with an SD of its x, y and nearness (N, K, 2, 3); nought for absent points."""
    found = []
    for axis in range(3):
        step = np.zeros(2) if axis == 2 else np.eye(2)[axis] * 0.01
        near = 0.01 if axis == 2 else 0.0
        ahead, behind = (on_horse(evidence.pixels + s * step, evidence.nearer + s * near, pose) for s in (1, -1))
        sd = evidence.nearer_sd if axis == 2 else evidence.pixel_sd
        found.append((ahead - behind) / 0.02 * sd[..., None])
    slopes = np.stack(found, axis=-1)
    return np.asarray(np.where(np.isnan(slopes), 0.0, slopes))
