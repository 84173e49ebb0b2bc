"""A pinhole camera beside a horse: from pixels to the horse's own upright planes.

Arrays may have any leading axes; the one before the last runs over points. Pixels are counted from the picture's
middle, x forward along the horse (pictures of its left side are mirrored first), y downwards.
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.floating[Any]]

#: Positions in the last axis of a pose: angles in radians, and logarithms of centimetres and of pixels.
YAW, ROLL, PITCH, LOG_DISTANCE, LOG_FOCAL = range(5)
POSE = 5


def on_horse(pixels: Array, nearer_cm: Array, pose: Array) -> Array:
    """Where the rays through ``pixels`` (…, K, 2) meet planes along the horse: (…, K, 2) forward and up, in cm.

    ``nearer_cm`` (…, K) is each plane's distance from the horse's middle plane towards the camera. The origin is where
    the camera's axis meets the middle plane. Yaw is positive with the head nearer to the camera, roll where level
    ground falls forwards in the picture, pitch where the camera looks down.
    """
    yaw, roll, pitch = (pose[..., one, None] for one in (YAW, ROLL, PITCH))
    distance, focal = np.exp(pose[..., LOG_DISTANCE, None]), np.exp(pose[..., LOG_FOCAL, None])
    x, y = pixels[..., 0] / focal, pixels[..., 1] / focal
    across = x * np.cos(roll) + y * np.sin(roll)
    down = y * np.cos(roll) - x * np.sin(roll)
    # The camera's axes are made level: what is left is a turn about the upright.
    level_down = down * np.cos(pitch) + np.sin(pitch)
    away = np.cos(pitch) - down * np.sin(pitch)
    reach = distance * np.cos(pitch)
    along = (reach * np.cos(yaw) - nearer_cm) / (across * np.sin(yaw) + away * np.cos(yaw))
    forward = along * (across * np.cos(yaw) - away * np.sin(yaw)) + reach * np.sin(yaw)
    up = distance * np.sin(pitch) - along * level_down
    return np.stack([forward, up], axis=-1)
