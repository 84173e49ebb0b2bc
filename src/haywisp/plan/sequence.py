"""In which order the blocks come: as few walks round the horse as can be, then the shortest way along it."""

from collections.abc import Mapping, Sequence

from haywisp.plan.choices import Block
from haywisp.plan.units import HEAD

EXACT = 16  # blocks up to which the order is exact
WALK = 1000  # one walk weighs more than any way along the horse
HEAD_FIRST = 100  # no session begins at the head where it can begin elsewhere; common practice, no source
START = "withers"
FIRST_SIDE = "left"  # of equal ways: horses are used to be handled from the left; common practice

# Where a region lies from the poll (0) to the tail (20): the order along the body, not a measure.
POSITIONS: Mapping[str, int] = {
    "poll": 0,
    "jaw": 1,
    "neck": 3,
    "withers": 6,
    "shoulder": 7,
    "chest": 7,
    "forelimb": 8,
    "girth": 9,
    "topline": 10,
    "ribcage": 11,
    "back": 11,
    "belly": 12,
    "loin": 13,
    "sacroiliac": 15,
    "croup": 16,
    "stifle": 16,
    "hindquarters": 17,
    "hamstrings": 18,
    "gaskin": 18,
    "hindlimb": 19,
    "tail": 20,
}


def sequence(blocks: Sequence[Block], *, head_last: bool) -> tuple[int, ...]:
    """Indices of the blocks in order, starting near the withers; with ``head_last`` poll and jaw come after all others.

    Exact (Held and Karp's dynamic programme) up to 16 blocks; beyond, exact on each side of the horse in turn.
    """
    if len(blocks) <= EXACT:
        return _exact(blocks, range(len(blocks)), head_last, position(START))
    order: list[int] = []
    for last in (False, True) if head_last else (False,):
        for side in ("left", "right") if not last else ("right", "left"):
            here = [
                number
                for number, block in enumerate(blocks)
                if block.stand == side and (not head_last or (block.region in HEAD) == last)
            ]
            for start in range(0, len(here), EXACT):
                at = position(blocks[order[-1]].region) if order else position(START)
                order += _exact(blocks, here[start : start + EXACT], False, at)
    return tuple(order)


def position(region: str) -> int:
    """The place of a region along the horse; one that isn't known lies in the middle."""
    return POSITIONS.get(region, 10)


def walks(sides: Sequence[str | None]) -> int:
    """How often one walks round the horse for this order of sides; midline and both at once are reached from either."""
    told = [side for side in sides if side in ("left", "right")]
    return sum(one != other for one, other in zip(told, told[1:], strict=False))


def _exact(blocks: Sequence[Block], numbers: Sequence[int], head_last: bool, start: int) -> tuple[int, ...]:
    """Held and Karp over sets of blocks, whole layers at a time; equal ways go to the lower index."""
    import numpy as np

    count = len(numbers)
    if count == 0:
        return ()
    chosen = [blocks[number] for number in numbers]
    step = np.array([[_step(one, other) for other in chosen] for one in chosen])
    best = np.full((1 << count, count), np.iinfo(np.int64).max // 2, dtype=np.int64)
    before = np.full((1 << count, count), -1, dtype=np.int8)
    heads = sum(1 << bit for bit, block in enumerate(chosen) if block.region in HEAD) if head_last else 0
    others = ((1 << count) - 1) & ~heads
    for bit, block in enumerate(chosen):
        if not (1 << bit) & heads or others == 0:
            way = 2 * abs(position(block.region) - start) + HEAD_FIRST * (block.region in HEAD)
            best[1 << bit, bit] = way + (block.stand != FIRST_SIDE)
    masks = np.arange(1 << count)
    sizes = np.array([mask.bit_count() for mask in range(1 << count)])
    for size in range(1, count):
        layer = masks[sizes == size]
        for bit in range(count):
            free = layer[(layer >> bit) & 1 == 0]
            if (1 << bit) & heads:
                free = free[(free & others) == others]
            if free.size:
                ways = best[free] + step[:, bit]
                best[free | 1 << bit, bit] = ways.min(axis=1)
                before[free | 1 << bit, bit] = ways.argmin(axis=1)
    mask, bit = (1 << count) - 1, int(best[-1].argmin())
    order = []
    while bit >= 0:
        order.append(numbers[bit])
        mask, bit = mask & ~(1 << bit), int(before[mask, bit])
    return tuple(reversed(order))


def _step(one: Block, other: Block) -> int:
    return WALK * (one.stand != other.stand) + 2 * abs(position(one.region) - position(other.region))
