"""Where the camera stood: fitted to level ground and to whatever is of a known size, for many pictures at once.

For each yaw of a grid the other four figures of the pose are fitted by least squares, weighted by the errors of
landmarks and sizes; how well each fits, with how square pictures are expected to be, is the yaw's probability. So a yaw
whose sign or size the picture doesn't tell stays as wide as it is instead of being guessed.
"""

from dataclasses import dataclass

import numpy as np

from haywisp.measure.posture.camera import POSE, YAW, Array, on_horse
from haywisp.measure.posture.landmarks import ORDER, place

#: Landmarks that the camera is fitted to, and their positions among those.
FITTED = (
    *("withers", "croup", "point of shoulder", "point of buttock"),
    *("ground front", "ground behind", "stick low", "stick high"),
)
WITHERS, CROUP, SHOULDER, BUTTOCK, FRONT, BEHIND, LOW, HIGH = range(len(FITTED))
FITTED_ROWS = np.array([place(name) for name in FITTED])
#: What is told about a picture: a column each.
SLOPE, STICK, LEAN, LENGTH, HEIGHT, CROUP_HEIGHT, PITCH, DISTANCE, FOCAL = range(9)
TOLD = 9

#: Expected yaw of a picture that was meant to be square on, as the SD of a normal distribution: a design default.
YAW_SD = np.deg2rad(8.0)
YAWS = np.deg2rad(np.arange(-26.0, 26.01, 1.0))
FIRST_STEPS, STEPS = 6, 3
STEP = 1e-4


@dataclass(frozen=True, slots=True)
class Evidence:
    """Landmarks and what was told, for N pictures: pixels (N, K, 2), how much nearer (N, K), told (N, 9), each with SD.

    K runs over :data:`~haywisp.measure.posture.landmarks.ORDER`; absent points are NaN. ``rows`` are the columns of
    ``told`` that are used, ``stick_depth_sd`` is in cm.
    """

    pixels: Array
    pixel_sd: Array
    nearer: Array
    nearer_sd: Array
    stick_depth_sd: float
    told: Array
    told_sd: Array
    rows: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Fit:
    """Yaw's probability (N, G) over the grid, the pose (N, G, 5) at each, and the middle pose (N, 5).

    ``shift`` (N, 4, 3·K + 10) says how the middle pose, but its yaw, moves with each error of the evidence, an SD each:
    of pixels and nearness point by point, of the stick's depth, of what was told. ``left`` (N, G, rows) is what each
    yaw leaves unexplained, and ``pull`` (N, rows, 3·K + 10), times it, how an error lowers that yaw's log probability.
    ``misfit`` (N,) is the least sum of weighted squares: about χ² with as many degrees as there are rows less 4.
    """

    chance: Array
    poses: Array
    middle: Array
    shift: Array
    left: Array
    pull: Array
    misfit: Array


def predicted(pose: Array, pixels: Array, nearer: Array) -> Array:
    """What the fitted points (…, 8, 2) say about each figure that may be told: (…, 9)."""
    horse = on_horse(pixels, nearer, pose)
    forward, up = horse[..., 0], horse[..., 1]
    rise = up[..., FRONT] - up[..., BEHIND]
    slope = np.arctan2(rise, forward[..., FRONT] - forward[..., BEHIND])
    ground = up[..., FRONT, None] + np.tan(slope)[..., None] * (forward - forward[..., FRONT, None])
    height = up - ground
    stick = horse[..., HIGH, :] - horse[..., LOW, :]
    trunk = horse[..., SHOULDER, :] - horse[..., BUTTOCK, :]
    deep = nearer[..., SHOULDER] - nearer[..., BUTTOCK]
    figures = [
        slope,
        np.hypot(stick[..., 0], stick[..., 1]),
        np.arctan2(stick[..., 0], stick[..., 1]),
        np.sqrt(trunk[..., 0] ** 2 + trunk[..., 1] ** 2 + deep**2),
        height[..., WITHERS],
        height[..., CROUP],
    ]
    told = [np.broadcast_to(pose[..., one], slope.shape) for one in range(POSE - 3, POSE)]
    return np.stack([*figures, *told], axis=-1)


def fit(evidence: Evidence, start: Array) -> Fit:
    """The camera's pose, from a rough first one (N, 5)."""
    rows = np.array(evidence.rows)
    pixels, nearer = evidence.pixels[:, FITTED_ROWS], evidence.nearer[:, FITTED_ROWS]
    told = evidence.told[:, rows]
    weight = np.eye(len(rows)) / np.maximum(evidence.told_sd[:, rows], 1e-3)[:, :, None] ** 2
    rough = _fitted(start[:, None], pixels, nearer, told, weight, rows, FIRST_STEPS)[0][:, 0]
    errors = _by_error(rough, evidence, rows)
    weight = np.linalg.inv(errors @ errors.swapaxes(-1, -2))
    first = np.repeat(rough[:, None], len(YAWS), axis=1)
    first[..., YAW] = YAWS
    poses, left, curvature = _fitted(first, pixels, nearer, told, weight, rows, STEPS)
    misfit = np.einsum("ngi,nij,ngj->ng", left, weight, left)
    score = -misfit / 2 - curvature / 2 - (YAWS / YAW_SD) ** 2 / 2
    chance = np.exp(score - score.max(axis=1, keepdims=True))
    chance /= chance.sum(axis=1, keepdims=True)
    middle = np.einsum("ng,ngp->np", chance, poses)[:, None]
    middle = _fitted(middle, pixels, nearer, told, weight, rows, STEPS)[0][:, 0]
    errors = _by_error(middle, evidence, rows)
    slopes = _slopes(middle[:, None], pixels, nearer, rows)[:, 0]
    normal = slopes.swapaxes(-1, -2) @ weight
    shift = -np.linalg.solve(normal @ slopes, normal @ errors)
    least = (misfit + (YAWS / YAW_SD) ** 2).min(axis=1)
    return Fit(chance, poses, middle, shift, left, weight @ errors, least)


def _fitted(
    pose: Array, pixels: Array, nearer: Array, told: Array, weight: Array, rows: Array, steps: int
) -> tuple[Array, Array, Array]:
    """Gauss–Newton at a fixed yaw: poses (N, G, 5), what is left (N, G, rows) and log det of the curvature."""
    for _ in range(steps):
        left = predicted(pose, pixels[:, None], nearer[:, None])[..., rows] - told[:, None]
        slopes = _slopes(pose, pixels, nearer, rows)
        normal = slopes.swapaxes(-1, -2) @ weight[:, None]
        move = np.linalg.solve(normal @ slopes, (normal @ left[..., None]))[..., 0]
        pose = np.concatenate([pose[..., :1], pose[..., 1:] - np.clip(move, -1.0, 1.0)], axis=-1)
    left = predicted(pose, pixels[:, None], nearer[:, None])[..., rows] - told[:, None]
    return pose, left, np.linalg.slogdet(normal @ slopes)[1]


def _slopes(pose: Array, pixels: Array, nearer: Array, rows: Array) -> Array:
    """Derivatives of the figures by roll, pitch, log distance and log focal length: (N, G, rows, 4)."""
    columns = []
    for one in range(1, POSE):
        step = np.zeros(POSE)
        step[one] = STEP
        ahead, behind = (predicted(pose + s * step, pixels[:, None], nearer[:, None])[..., rows] for s in (1, -1))
        columns.append((ahead - behind) / (2 * STEP))
    return np.stack(columns, axis=-1)


def _by_error(pose: Array, evidence: Evidence, rows: Array) -> Array:
    """How the misfit moves with an SD of each error: (N, rows, 3·K + 10)."""
    count = len(pose)
    by_point = np.zeros((count, len(rows), len(ORDER), 3))
    by_told = np.zeros((count, len(rows), 1 + TOLD))
    pixels, nearer = evidence.pixels[:, FITTED_ROWS], evidence.nearer[:, FITTED_ROWS]

    def moved(position: int | list[int], axis: int, step: float) -> Array:
        """Derivative of the figures by one point's x, y or nearness."""
        sides = []
        for sign in (1.0, -1.0):
            there, near = pixels.copy(), nearer.copy()
            if axis < 2:
                there[:, position, axis] += sign * step
            else:
                near[:, position] += sign * step
            sides.append(predicted(pose, there, near)[..., rows])
        return np.asarray((sides[0] - sides[1]) / (2 * step))

    for position, row in enumerate(FITTED_ROWS):
        for axis in range(3):
            sd = evidence.pixel_sd[:, row] if axis < 2 else evidence.nearer_sd[:, row]
            change = moved(position, axis, 0.01) * sd[:, None]
            by_point[:, :, row, axis] = np.where(np.isnan(change), 0.0, change)
    if STICK in evidence.rows:
        by_told[:, :, 0] = moved([LOW, HIGH], 2, 0.01) * evidence.stick_depth_sd
    for at, row in enumerate(rows):
        by_told[:, at, 1 + row] = -evidence.told_sd[:, row]
    return np.concatenate([by_point.reshape(count, len(rows), -1), by_told], axis=-1)
