"""Measures of posture from points in the horse's own upright planes, for many pictures at once.

Points are (…, K, 2), forward and up, in any unit, rows as in :data:`~haywisp.measure.posture.landmarks.ORDER`; a
missing point is NaN and makes those measures NaN that need it.
"""

import numpy as np

from haywisp.measure.posture.camera import Array
from haywisp.measure.posture.kinds import LENGTHS, NAMES, STANCE, STATIONS
from haywisp.measure.posture.landmarks import LANDMARKS, ORDER, place, stretch


def levelled(points: Array) -> Array:
    """Points over withers height: the ground line at nought, the withers at (0, 1)."""
    front, behind = points[..., place("ground front"), :], points[..., place("ground behind"), :]
    along = front - behind
    along = along / np.hypot(along[..., 0], along[..., 1])[..., None]
    across = np.stack([-along[..., 1], along[..., 0]], axis=-1)
    there = points - behind[..., None, :]
    turned = np.stack([_dot(there, along[..., None, :]), _dot(there, across[..., None, :])], axis=-1)
    withers = turned[..., place("withers"), :]
    turned[..., 0] -= withers[..., 0, None]
    return np.asarray(turned / withers[..., 1, None, None])


def withers_height(points: Array) -> Array:
    """Height of the withers above the ground line, in the points' own unit."""
    front, behind = points[..., place("ground front"), :], points[..., place("ground behind"), :]
    along, there = front - behind, points[..., place("withers"), :] - behind
    across = along[..., 0] * there[..., 1] - along[..., 1] * there[..., 0]
    return np.asarray(across / np.hypot(along[..., 0], along[..., 1]))


def measures(points: Array) -> Array:
    """The measures of :data:`~haywisp.measure.posture.kinds.MEASURES`, angles in degrees, and the withers' height."""
    return np.concatenate([_measures(levelled(points)), withers_height(points)[..., None]], axis=-1)


def everything(points: Array, curves: bool = True) -> Array:
    """Measures, withers height, stance, lengths in the points' own unit and, last, all levelled points, in one row.

    The columns are those of :func:`~haywisp.measure.posture.kinds.columns`.
    """
    level, height = levelled(points), withers_height(points)[..., None]
    found = _measures(level)
    flat = [level.reshape(*level.shape[:-2], 2 * len(ORDER))] if curves else []
    lengths = found[..., [NAMES.index(name) for name in LENGTHS]] * height
    return np.concatenate([found, height, _stance(level), lengths, *flat], axis=-1)


def _measures(level: Array) -> Array:
    at = {name: level[..., place(name), :] for name in LANDMARKS}
    neck, nose = at["poll"] - at["withers"], at["nose"] - at["forehead"]
    to_vertical = _degrees(nose[..., 0], -nose[..., 1])
    trunk = at["point of shoulder"] - at["point of buttock"]
    found = {
        "neck to horizontal": _degrees(neck[..., 1], neck[..., 0]),
        "head to neck": _between(-neck, nose),
        "nose to vertical": to_vertical,
        "nose to ground": 90.0 - to_vertical,
        "poll over withers": at["poll"][..., 1],
        "croup over withers": at["croup"][..., 1],
        "withers less croup": 1.0 - at["croup"][..., 1],
        "length over height": np.hypot(trunk[..., 0], trunk[..., 1]),
        **_depths(level, at["poll"], at["withers"]),
    }
    return np.stack([found[name] for name in NAMES], axis=-1)


def _stance(level: Array) -> Array:
    return np.stack([level[..., place(a), 0] - level[..., place(b), 0] for a, b, _ in STANCE.values()], axis=-1)


def _dot(first: Array, second: Array) -> Array:
    return np.asarray(first[..., 0] * second[..., 0] + first[..., 1] * second[..., 1])


def _degrees(up: Array, along: Array) -> Array:
    return np.rad2deg(np.arctan2(up, along))


def _between(first: Array, second: Array) -> Array:
    """The angle between two directions, 0 to 180°."""
    across = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return np.abs(_degrees(across, _dot(first, second)))


def _depths(level: Array, poll: Array, withers: Array) -> dict[str, Array]:
    """Neck depths at each station, and above and below the vertebrae."""
    chord = withers - poll
    along = chord / np.hypot(chord[..., 0], chord[..., 1])[..., None]
    down = np.stack([-along[..., 1], along[..., 0]], axis=-1)
    feet = poll[..., None, :] + chord[..., None, :] * (np.array(STATIONS) / 100)[:, None]
    lines = np.stack([level[..., stretch(name), :] for name in ("upper neck", "under neck", "neck vertebrae")], axis=-3)
    crossed = crossing(
        lines[..., None, :, :, :], feet[..., None, :], along[..., None, None, :], down[..., None, None, :]
    )
    found: dict[str, Array] = {}
    for at, station in enumerate(STATIONS):
        upper, under, middle = (crossed[..., at, line] for line in range(3))
        found[f"neck depth {station}"] = under - upper
        found[f"neck above vertebrae {station}"] = middle - upper
        found[f"neck below vertebrae {station}"] = under - middle
    return found


def crossing(line: Array, foot: Array, along: Array, down: Array) -> Array:
    """How far down from ``foot``, square to ``along``, a line (…, P, 2) is crossed: the crossing nearest to the foot.

    NaN where it is not crossed.
    """
    there = line - foot[..., None, :]
    forth, depth = _dot(there, along[..., None, :]), _dot(there, down[..., None, :])
    a, b = forth[..., :-1], forth[..., 1:]
    span = np.where(a == b, 1.0, a - b)
    share = np.where(a == b, 0.5, a / span)
    found = depth[..., :-1] + share * (depth[..., 1:] - depth[..., :-1])
    found = np.where(a * b <= 0, found, np.nan)
    nearest = np.argmin(np.where(np.isnan(found), np.inf, np.abs(found)), axis=-1)
    return np.take_along_axis(found, nearest[..., None], axis=-1)[..., 0]
