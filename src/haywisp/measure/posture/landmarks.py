"""The landmarks and traced lines of a standing horse's side view, and how far each lies towards the camera."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Landmark:
    """A place on the horse or beside it.

    ``nearer`` is how much nearer to the camera it lies than the horse's middle plane and ``nearer_sd`` how much horses
    vary in that; ``placing_sd`` is how far it falls from itself when it is placed again (each coordinate). All are over
    withers height and from memory of horses' proportions: design defaults, no source.
    """

    title: str
    nearer: float
    nearer_sd: float
    placing_sd: float


LANDMARKS: Mapping[str, Landmark] = {
    "nose": Landmark("front of the nose, level with the nostril's upper rim", 0.0, 0.02, 0.004),
    "forehead": Landmark("ridge of the nose below the eyes", 0.0, 0.02, 0.004),
    "poll": Landmark("highest point between the ears", 0.0, 0.015, 0.005),
    "crest 25": Landmark("upper line of the neck, a quarter of the way from poll to withers", 0.0, 0.015, 0.005),
    "crest 50": Landmark("upper line of the neck, half-way from poll to withers", 0.0, 0.015, 0.005),
    "crest 75": Landmark("upper line of the neck, three quarters of the way from poll to withers", 0.0, 0.01, 0.005),
    "withers": Landmark("highest point of the withers", 0.0, 0.01, 0.005),
    "point of shoulder": Landmark("point of the shoulder", 0.125, 0.02, 0.007),
    "elbow": Landmark("point of the elbow", 0.11, 0.02, 0.007),
    "back": Landmark("lowest point of the back", 0.0, 0.01, 0.005),
    "loin": Landmark("lumbosacral point, the dip before the croup", 0.0, 0.01, 0.006),
    "croup": Landmark("highest point of the croup", 0.0, 0.01, 0.005),
    "dock": Landmark("root of the tail", 0.0, 0.01, 0.005),
    "point of buttock": Landmark("point of the buttock", 0.08, 0.015, 0.005),
    "point of hip": Landmark("point of the hip", 0.15, 0.02, 0.006),
    "stifle": Landmark("front of the stifle", 0.16, 0.02, 0.008),
    "near fore hoof": Landmark("middle of the ground line of the forehoof nearer to the camera", 0.08, 0.02, 0.004),
    "far fore hoof": Landmark("middle of the ground line of the forehoof further from the camera", -0.08, 0.02, 0.005),
    "near hind hoof": Landmark("middle of the ground line of the hind hoof nearer to the camera", 0.08, 0.02, 0.004),
    "far hind hoof": Landmark("middle of the ground line of the hind hoof further from the camera", -0.08, 0.02, 0.005),
    "ground front": Landmark(
        "ground in line with the hooves nearer to the camera, before the horse", 0.08, 0.025, 0.003
    ),
    "ground behind": Landmark(
        "ground in line with the hooves nearer to the camera, behind the horse", 0.08, 0.025, 0.003
    ),
    "stick low": Landmark("lower end of the scale stick", 0.0, 0.0, 0.002),
    "stick high": Landmark("upper end of the scale stick", 0.0, 0.0, 0.002),
}

TRACES: Mapping[str, Landmark] = {
    "upper neck": Landmark("upper line of the neck from poll to withers", 0.0, 0.015, 0.005),
    "under neck": Landmark("under line of the neck from throat to breast", 0.0, 0.015, 0.006),
    "neck vertebrae": Landmark(
        "line of the neck's vertebrae as felt, from the atlas to before the shoulder", 0.045, 0.015, 0.010
    ),
    "back line": Landmark("upper line from withers to dock", 0.0, 0.01, 0.005),
}
#: Which landmarks stand for a line that was not traced, in order.
INSTEAD: Mapping[str, tuple[str, ...]] = {
    "upper neck": ("poll", "crest 25", "crest 50", "crest 75", "withers"),
    "back line": ("withers", "back", "loin", "croup", "dock"),
}
#: A traced line is kept as this many points, evenly along it unless it was placed as so many.
TRACE_POINTS = 9

#: Without these nothing is measured.
NEEDED = ("withers", "ground front", "ground behind")
#: Pairs that may lie on the same spot.
MAY_COINCIDE = frozenset(
    frozenset({ground, other})
    for ground in ("ground front", "ground behind")
    for other in ("near fore hoof", "near hind hoof", "stick low")
)

ORDER: tuple[str, ...] = (*LANDMARKS, *(name for name in TRACES for _ in range(TRACE_POINTS)))


def place(name: str) -> int:
    """The row of a landmark in arrays of points."""
    return ORDER.index(name)


def stretch(name: str) -> slice:
    """The rows of a traced line in arrays of points."""
    first = ORDER.index(name)
    return slice(first, first + TRACE_POINTS)


def landmark(name: str) -> Landmark:
    """The landmark or traced line of a name."""
    return LANDMARKS[name] if name in LANDMARKS else TRACES[name]
