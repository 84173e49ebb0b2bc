"""The order of blocks against all permutations."""

from collections.abc import Sequence
from itertools import pairwise, permutations
from random import Random

import pytest

from haywisp.plan.choices import Block
from haywisp.plan.sequence import POSITIONS, position, sequence, walks


def block(region: str, side: str) -> Block:
    return Block(region, side, side, "effleurage", "stroking")


def length(blocks: Sequence[Block]) -> int:
    """Walks round, then not the head first, and then the way along the horse from the withers."""
    way = abs(position(blocks[0].region) - position("withers")) + 50 * (blocks[0].region in ("poll", "jaw"))
    way += sum(abs(position(one.region) - position(other.region)) for one, other in pairwise(blocks))
    return 10_000 * walks([each.stand for each in blocks]) + way


def heads_last(blocks: Sequence[Block]) -> bool:
    seen = [each.region in ("poll", "jaw") for each in blocks]
    return seen == sorted(seen)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("head_last", [False, True])
def test_the_order_is_the_shortest_of_all(seed: int, head_last: bool) -> None:
    random = Random(seed)
    places = [(region, side) for region in sorted(POSITIONS) for side in ("left", "right")]
    blocks = [block("poll", "left"), *(block(*place) for place in random.sample(places, 5))]
    order = [blocks[number] for number in sequence(blocks, head_last=head_last)]
    allowed = [each for each in permutations(blocks) if not head_last or heads_last(each)]
    assert sorted(order, key=str) == sorted(blocks, key=str)
    assert not head_last or heads_last(order)
    assert length(order) == min(length(each) for each in allowed)


def test_of_equal_ways_the_left_comes_first() -> None:
    blocks = [block("back", "right"), block("back", "left")]
    assert sequence(blocks, head_last=False) == (1, 0)


@pytest.mark.parametrize("head_last", [False, True])
def test_more_than_sixteen_blocks_take_one_walk_and_lose_none(head_last: bool) -> None:
    blocks = [block(region, side) for region in POSITIONS for side in ("left", "right")]
    order = sequence(blocks, head_last=head_last)
    assert sorted(order) == list(range(len(blocks)))
    assert walks([blocks[number].stand for number in order]) == (2 if head_last else 1)
    assert not head_last or heads_last([blocks[number] for number in order])


def test_the_midline_is_reached_without_walking() -> None:
    assert walks([None, "left", None, "left", "right", None]) == 1
    assert sequence([], head_last=True) == ()
