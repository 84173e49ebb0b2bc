"""How large a picture is kept and shown, from the size that it has."""

from haywisp.measure.photographs.errors import TooSmall
from haywisp.measure.photographs.limits import KEPT_LONGEST_PX, LEAST_SIDE_PX, PREVIEW_LONGEST_PX

Size = tuple[int, int]


def kept_size(size: Size, name: str) -> Size:
    """Width and height that are kept of a picture; :class:`TooSmall` where no landmark could be placed in it."""
    kept = fitted(size, KEPT_LONGEST_PX)
    if min(kept) < LEAST_SIDE_PX:
        raise TooSmall(name, size, kept)
    return kept


def preview_size(kept: Size) -> Size:
    """Width and height of the small picture."""
    return fitted(kept, PREVIEW_LONGEST_PX)


def fitted(size: Size, longest: int) -> Size:
    """A size scaled down, never up, until its longer side is at most ``longest``."""
    scale = min(1.0, longest / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))
