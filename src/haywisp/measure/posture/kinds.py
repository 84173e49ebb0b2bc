"""The measures of posture: their units, how each is reckoned and which landmarks it needs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from haywisp.measure.posture.landmarks import ORDER

#: Where the neck's depth is measured, in per cent of the way from poll to withers.
STATIONS = (25, 50, 75)


@dataclass(frozen=True, slots=True)
class Kind:
    """A measure: its unit, how it is reckoned, and the landmarks or lines that it needs."""

    unit: str
    method: str
    needs: tuple[str, ...]


_LEVEL = ("withers", "ground front", "ground behind")
_BY = "/ height of the withers"


def _depths() -> Iterator[tuple[str, Kind]]:
    for name, method, lines in (
        ("neck depth", "upper to under line of the neck", ("upper neck", "under neck")),
        ("neck above vertebrae", "upper line of the neck to its vertebrae", ("upper neck", "neck vertebrae")),
        ("neck below vertebrae", "vertebrae to under line of the neck", ("neck vertebrae", "under neck")),
    ):
        for at in STATIONS:
            where = f"{at} % from poll to withers, square to the line between them"
            yield f"{name} {at}", Kind("1", f"{method}, {where}, {_BY}", ("poll", *_LEVEL, *lines))


MEASURES: Mapping[str, Kind] = {
    "neck to horizontal": Kind(
        "°", "line from withers to poll above the ground line; positive with the poll higher", ("poll", *_LEVEL)
    ),
    "head to neck": Kind(
        "°",
        "nose line against the line from poll to withers; smaller with the nose drawn in",
        ("nose", "forehead", "poll", *_LEVEL),
    ),
    "nose to vertical": Kind(
        "°",
        "nose line against the vertical; positive with the nose in front of it, negative behind",
        ("nose", "forehead", *_LEVEL),
    ),
    "nose to ground": Kind(
        "°", "nose line against the ground line, 90° less nose to vertical", ("nose", "forehead", *_LEVEL)
    ),
    "poll over withers": Kind("1", f"height of the poll {_BY}", ("poll", *_LEVEL)),
    "croup over withers": Kind("1", f"height of the croup {_BY}", ("croup", *_LEVEL)),
    "withers less croup": Kind("1", f"(height of the withers − height of the croup) {_BY}", ("croup", *_LEVEL)),
    "length over height": Kind(
        "1", f"point of shoulder to point of buttock {_BY}", ("point of shoulder", "point of buttock", *_LEVEL)
    ),
    **dict(_depths()),
}
NAMES = tuple(MEASURES)
#: Those that are lengths over withers height, given in cm as well where the scale is known.
LENGTHS = tuple(
    name for name in NAMES if name.startswith(("length", "neck depth", "neck above", "neck below", "withers"))
)
WITHERS_HEIGHT = "withers height"

#: Horizontal places of feet: the first landmark before the second, over withers height.
STANCE: Mapping[str, tuple[str, str, str]] = {
    "near forefoot under": ("near fore hoof", "elbow", f"middle of the near forefoot before the elbow {_BY}"),
    "near hind foot under": (
        "near hind hoof",
        "point of buttock",
        f"middle of the near hind foot before the point of the buttock {_BY}",
    ),
    "forefeet apart": ("near fore hoof", "far fore hoof", f"near forefoot before the far one {_BY}"),
    "hind feet apart": ("near hind hoof", "far hind hoof", f"near hind foot before the far one {_BY}"),
}


def columns(curves: bool) -> tuple[str, ...]:
    """What stands in a row of measures, in its order; the columns of points, which come last, have no names."""
    cm = (f"{name} in cm" for name in LENGTHS)
    return (*NAMES, WITHERS_HEIGHT, *STANCE, *cm, *[""] * (2 * len(ORDER) * curves))
