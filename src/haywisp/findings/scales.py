"""From totals of published pain and lameness scales to the red flags that they raise: to refer, never to diagnose."""

from haywisp.findings.errors import BadScore

AAEP_MOST = 5  # 0 none to 5 hardly bears weight or can't move; several pages (secondary)
RIDDEN_MOST = 24  # behaviours, each there or not; Dyson 2018
GRIMACE_MOST = 12  # six signs of 0, 1 or 2; Dalla Costa 2014, the total from memory
# Eight or more of the behaviours: Dyson 2018 (Animals 2020, 10, 1044). Studies of event horses took seven.
RIDDEN_REFERS = 8
# No source: that any grade without a reason is referred, and that lame at the walk is urgent, are design choices.
AAEP_REFERS, AAEP_URGENT = 1, 4
# No source: the paper gives no total from which to act, so any sign of pain in the face asks.
GRIMACE_ASKS = 1


def flags_of_scales(
    *, aaep: int | None = None, explained: bool = False, ridden: int | None = None, grimace: int | None = None
) -> tuple[str, ...]:
    """The flags that the totals raise; None for a scale that wasn't used.

    ``aaep`` is the lameness grade 0 to 5, ``explained`` whether a vet has found its reason (an urgent grade stays
    urgent), ``ridden`` how many of the 24 behaviours of the Ridden Horse Pain Ethogram were seen, and ``grimace`` the
    total 0 to 12 of the Horse Grimace Scale. Raises :class:`haywisp.findings.BadScore`.
    """
    lame = _score("The lameness grade", aaep, AAEP_MOST)
    behaviours = _score("The count of ridden behaviours", ridden, RIDDEN_MOST)
    face = _score("The total of the grimace scale", grimace, GRIMACE_MOST)
    raised = {
        "acute-lameness": lame >= AAEP_URGENT,
        "unexplained-lameness": lame >= AAEP_REFERS and not explained,
        "known-condition": lame >= AAEP_REFERS and explained,
        "ridden-pain-signs": behaviours >= RIDDEN_REFERS,
        "grimace-signs": face >= GRIMACE_ASKS,
    }
    return tuple(flag for flag, so in raised.items() if so)


def _score(scale: str, value: int | None, most: int) -> int:
    if value is None:
        return 0
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= most:
        raise BadScore(scale, value, most)
    return value
