"""What goes into posture from a photograph and what comes out of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from haywisp.measure.types import Quantity

Side = Literal["left", "right"]
Pixel = tuple[float, float]

#: A value is told from nought, or from another, at this many standard errors: 95 % of a normal distribution.
Z95 = 1.96


@dataclass(frozen=True, slots=True)
class PlacedLandmarks:
    """Landmarks and traced lines on one side view, in pixels from the upper left corner, y downwards.

    ``side`` is the side of the horse that is seen: on the left side the head is at the left of the picture.
    Names are those of :data:`~haywisp.measure.posture.landmarks.LANDMARKS` and ``TRACES``; absent ones are left out.
    """

    side: Side
    width_px: int
    height_px: int
    points: Mapping[str, Pixel]
    traces: Mapping[str, tuple[Pixel, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class KnownSizes:
    """What is known besides the picture: sizes of horse and stick, and how the picture was taken.

    ``stick_nearer_cm`` is how much nearer to the camera the stick stood than the horse's middle. ``stick_upright`` says
    that it was set upright by a level or a plumb line. ``focal_px`` is the lens's focal length in pixels of the
    picture.
    """

    withers_height_cm: float | None = None
    croup_height_cm: float | None = None
    body_length_cm: float | None = None
    stick_cm: float | None = None
    stick_upright: bool = False
    stick_nearer_cm: float = 0.0
    camera_distance_cm: float | None = None
    focal_px: float | None = None


@dataclass(frozen=True, slots=True)
class PlacingError:
    """How far the same landmark falls from itself when it is placed again: SD of each coordinate over withers height.

    ``source`` says whether they are design defaults or this practitioner's own.
    """

    sd: Mapping[str, float]
    source: str


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of posture with its 95 % interval (in the quantity's own unit)."""

    name: str
    quantity: Quantity
    low: float
    high: float


#: Shown to be within the largest yaw at which pictures are compared, more likely beyond it than not, or neither.
Squareness = Literal["square", "turned", "in doubt"]


@dataclass(frozen=True, slots=True)
class Yaw:
    """How far the camera stood from square to the horse.

    ``amount`` is the angle without its sign, ``signed`` with it (positive: the head is nearer to the camera than the
    tail). ``chance_too_far`` is the probability of more than the largest angle at which pictures are compared.
    """

    amount: Quantity
    signed: Quantity
    chance_too_far: float
    squareness: Squareness


FlagKind = Literal["yaw too large", "yaw in doubt", "tilt too large", "sizes disagree", "stance"]


@dataclass(frozen=True, slots=True)
class Flag:
    """Something about the picture or the stance that makes its measures less sure: the figure and its limits.

    ``what`` names the part of the stance. Yaw in doubt: ``value`` is how likely, in per cent, it is too large.
    Sizes disagree: ``value`` is χ² of what was told against the picture.
    """

    kind: FlagKind
    value: float
    low: float
    high: float
    unit: str
    what: str = ""


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """A point of a curve, forward of and above the ground below the withers, over withers height, with its errors."""

    forward: float
    up: float
    forward_error: float
    up_error: float


@dataclass(frozen=True, slots=True)
class Posture:
    """What one picture tells: measures, curves, camera and stance, and what was left out for want of which landmarks.

    ``height_cm`` is None where nothing of a known size is in the picture; times it, curves are in cm. A measure
    that was left out with no landmark to blame needs a line that reaches further.
    """

    placed: PlacedLandmarks
    measures: Mapping[str, Measure]
    curves: Mapping[str, tuple[CurvePoint, ...]]
    points: Mapping[str, CurvePoint]
    height_cm: Measure | None
    tilt: Quantity
    yaw: Yaw
    stance: Mapping[str, Measure]
    flags: tuple[Flag, ...]
    left_out: Mapping[str, tuple[str, ...]]


Verdict = Literal["larger than error", "not shown to have changed"]
RefusalKind = Literal["other side", "yaw too large", "tilt too large", "yaw differs", "stance differs"]


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why two pictures are not compared: what of each, and the limit (``what`` names the part of the stance)."""

    kind: RefusalKind
    first: float
    second: float
    limit: float
    unit: str
    what: str = ""


@dataclass(frozen=True, slots=True)
class Difference:
    """Second less first of one measure, with its 95 % interval and whether that is larger than the error."""

    name: str
    first: Quantity
    second: Quantity
    change: Quantity
    low: float
    high: float
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Overlay:
    """Both pictures in one frame, to be drawn over each other.

    ``first`` and ``second`` are curves in units of withers height with the withers on one another and level ground at
    nought. ``second_to_first`` maps pixels of the second picture onto the first, ``x' = a·x + b·y + c`` and
    ``y' = d·x + e·y + f`` as ``((a, b, c), (d, e, f))``: a similarity that lays withers on withers, ground on ground.
    """

    first: Mapping[str, tuple[CurvePoint, ...]]
    second: Mapping[str, tuple[CurvePoint, ...]]
    second_to_first: tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two pictures of one horse against one another; neither differences nor overlay where there is a refusal.

    ``flags`` are those of both pictures.
    """

    differences: tuple[Difference, ...]
    overlay: Overlay | None
    refusals: tuple[Refusal, ...]
    flags: tuple[Flag, ...]
