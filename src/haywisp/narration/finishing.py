"""The end of each bout, and the passes counted within it."""

from collections.abc import Sequence

from haywisp.narration.counting import is_held
from haywisp.narration.drafts import STRETCHES, Draft
from haywisp.narration.scene import Scene

MOMENT_S = 3.0


def finish(drafts: Sequence[Draft], scene: Scene, when: float) -> None:
    """Give every bout its end and its counted passes."""
    for number, draft in enumerate(drafts):
        following = drafts[number + 1].start if number + 1 < len(drafts) else when
        draft.end = following if draft.end is None else min(draft.end, max(following, draft.start))
        count_passes(draft, scene, following)


def momentary(drafts: Sequence[Draft]) -> list[Draft]:
    """Bouts that were announced and at once put aside for another: no work was done in them."""
    gone = []
    for draft, following in zip(drafts, drafts[1:], strict=False):
        lasted = (draft.end if draft.end is not None else draft.start) - draft.start
        if lasted < MOMENT_S and following.start - draft.start < MOMENT_S and draft.passes is None:
            gone.append(draft)
    return gone


def count_passes(draft: Draft, scene: Scene, until: float) -> None:
    """Give a bout the passes that were counted aloud within it; a counted bout ends with its count."""
    within = [c for c in scene.counts if draft.start - 1.0 <= c.start < min(until, (draft.end or until) + 4.0)]
    if not within:
        return
    best = max(within, key=lambda count: count.reached)
    if draft.technique in STRETCHES and (best.step_s < 2.0 or is_held(best.first, best.last, scene.mentions)):
        draft.passes = None
        return
    draft.passes = best.reached
    draft.end = max(draft.start, min(draft.end or until, best.end)) if draft.technique not in STRETCHES else draft.end
