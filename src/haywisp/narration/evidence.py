"""What speaks for and against an entry: named features from 0 to 1, taken from the scene once everything was heard.

A feature says how something was heard (named, inferred, beside a cue), never what is right. What the features are
worth together is fitted (:mod:`haywisp.narration.calibrated`).
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

from haywisp.narration.clauses import DONE
from haywisp.narration.drafts import OPPOSITE, STRETCHES, Draft
from haywisp.narration.hearing import Hearing
from haywisp.narration.noting import Noted
from haywisp.narration.types import Action, Finding, Response

Evidence = dict[str, float]
WORDS = ("hedges", "conditions", "animals", "hearers", "speakers", "past", "future", "comparing", "pointing")
LONG_CLAUSE = 30
BEFORE_S, AFTER_S = 25.0, 15.0
WORKS_S = 2.0
SHORT_S, BRIEF_S, LONG_S = 4.0, 10.0, 60.0
AGAIN_S = 120.0
CLOSE_S = 6.0
SAME_BREATH_S = 1.0
BESIDE_S = 2.0
PLAIN_LENGTH = 0.35


def around(hearing: Hearing, first: int, last: int) -> Evidence:
    """How the clause of some tokens is meant, and what its words and those of its neighbours are like."""
    scene = hearing.scene
    number = hearing.number_at(first)
    clause = scene.clauses[number]
    found: Evidence = {f"mode {clause.mode}": 1.0} if clause.mode != DONE else {}
    for name, other in (("", number), ("before ", number - 1), ("after ", number + 1)):
        if not 0 <= other < len(scene.clauses):
            continue
        near = scene.clauses[other]
        if hearing.strange[near.last] > hearing.strange[near.first]:
            found[f"{name}strange words"] = 1.0
        misheard = [one.confidence for one in hearing.doubted_in(near.first, near.last)]
        if misheard:
            found[f"{name}perhaps misheard"] = min(1.0, 2 * max(misheard))
        for cue in scene.mentions.within("mode", near.first, near.last):
            found[f"{name}cue"] = 1.0
            if not name:
                found[f"cue {cue.id}"] = 1.0
        if scene.tokens[near.last - 1].asks:
            found[f"{name}asks"] = 1.0
    texts = {token.text for token in scene.tokens[clause.first : clause.last]}
    for words in WORDS:
        if texts & scene.lexicon.lists[f"doubt-{words}"]:
            found[f"words {words}"] = 1.0
    led = [token.text for token in scene.tokens[max(clause.first, first - 4) : first]]
    found["led by animal"] = float(bool(set(led) & scene.lexicon.lists["doubt-animals"]))
    found["led by hearer"] = float(bool(set(led) & scene.lexicon.lists["doubt-hearers"]))
    found["led by condition"] = float(bool(set(led) & scene.lexicon.lists["doubt-conditions"]))
    found["clause length"] = min(1.0, (clause.last - clause.first) / LONG_CLAUSE)
    found["clause fresh"] = float(clause.fresh)
    found["repaired"] = 1.0 - scene.repaired(clause.first, clause.last)
    found["repaired here"] = 1.0 - scene.repaired(first, last)
    found["place"] = first / max(1, len(scene.tokens))
    found["after work"] = float(first > hearing.last_work)
    for kind in ("technique", "sign", "aspect", "action", "correction", "explained"):
        there = [m for m in scene.mentions.within(kind, clause.first, clause.last) if not m.first <= first < m.last]
        if there:
            found[f"{kind} beside"] = 1.0
    return {name: value for name, value in found.items() if value}


def of_bout(hearing: Hearing, number: int) -> Evidence:
    """How a bout was heard."""
    scene, draft = hearing.scene, hearing.drafts[number]
    found = around(hearing, draft.first, max(draft.last, draft.first + 1))
    found |= _technique(hearing, draft)
    found |= _structures(hearing, draft)
    found |= _side(hearing, number)
    end = draft.end if draft.end is not None else draft.start
    lasted = end - draft.start
    low, high = hearing.token_at(draft.start), hearing.token_at(end)
    silent = sum(t.pause for t in scene.tokens[low : high + 1] if t.pause >= WORKS_S)
    counted = any(draft.start - SAME_BREATH_S <= count.start <= end for count in scene.counts)
    at_onset = [t.pause for t in scene.tokens[draft.first : draft.last]]
    found |= {
        "lasts under 4 s": float(lasted < SHORT_S),
        "lasts under 10 s": float(lasted < BRIEF_S),
        "lasts long": float(lasted > LONG_S),
        "silence": min(1.0, silent / max(lasted, 1.0)),
        "silence at onset": float(max(at_onset, default=0.0) >= WORKS_S),
        "counted": float(counted),
        "passes told": float(draft.passes is not None),
        "pressure told": float(draft.pressure is not None),
        "found in it": float(bool(scene.mentions.within("aspect", low, high + 1))),
        "answered in it": float(bool(scene.mentions.within("sign", low, high + 1))),
        "corrected": float(bool(scene.mentions.within("correction", draft.first, high + 1))),
        f"is {draft.technique}": 1.0,
    }
    if number:
        before = hearing.drafts[number - 1]
        alike = before.technique == draft.technique
        there = bool(set(before.structures) & set(draft.structures))
        found |= {
            "technique as before": float(alike),
            "place as before": float(there),
            "all as before": float(alike and there and before.side == draft.side),
            "soon after another": float(draft.start - before.start < CLOSE_S),
        }
    else:
        found["first bout"] = 1.0
    named, placed = found.get("technique named"), found.get("structures here")
    found |= {
        "technique and structures named": float(bool(named and placed)),
        "named and worked": float(bool(named and placed and (silent or counted))),
        "weak and nothing done": float(not named and not silent and not counted),
        "inferred and nothing done": float(not placed and not silent and not counted),
        "named with its side": float(bool(named and placed and draft.side_said)),
        "bare repeat named": float(bool(draft.doubts) and bool(found.get("same said"))),
    }
    return {name: value for name, value in found.items() if value}


def _technique(hearing: Hearing, draft: Draft) -> Evidence:
    """How the technique was named."""
    scene = hearing.scene
    named = [m for m in scene.mentions.within("technique", draft.first, draft.last) if m.id == draft.technique]
    others = [m for m in scene.mentions.within("technique", draft.first, draft.last) if m.id != draft.technique]
    found: Evidence = {
        "technique inferred": float("technique" in draft.doubts),
        "technique repaired": 1.0 - draft.repaired,
    }
    if named:
        found["technique named"] = 1.0
        found["technique in one word"] = float(max(m.length for m in named) == 1)
    else:
        for kind in ("weak", "rough", "tool"):
            if scene.mentions.within(kind, draft.first, draft.last):
                found[f"technique {kind}"] = 1.0
    found["other technique beside"] = float(bool(others))
    for kind in ("same", "tool", "pressure"):
        found[f"{kind} said"] = float(bool(scene.mentions.within(kind, draft.first, draft.last)))
    return found


def _structures(hearing: Hearing, draft: Draft) -> Evidence:
    """How the structures were named: in the same breath, before or after it, or not at all."""
    scene = hearing.scene
    low = hearing.token_at(draft.start - BEFORE_S)
    high = hearing.token_at(draft.start + AFTER_S) + 1
    found: Evidence = {
        "structures inferred": float("structures" in draft.doubts),
        "structures named": float(draft.named),
        "several structures": float(len(draft.structures) > 1),
        "only regions": float(all(scene.region(s) == s for s in draft.structures)),
    }
    here = [m for s in draft.structures for m in hearing.named(s, draft.first, draft.last)]
    if here:
        found["structures here"] = 1.0
        found["structures ambiguous"] = float(any(m.kind == "ambiguous" for m in here))
        least = min(scene.repaired(m.first, m.last) for m in here)
        found["structures repaired"] = 1.0 - least
    elif any(hearing.named(s, low, draft.first) for s in draft.structures):
        found["structures before"] = 1.0
    elif any(hearing.named(s, draft.last, high) for s in draft.structures):
        found["structures after"] = 1.0
    else:
        found["structures not near"] = 1.0
    others = [
        m
        for m in scene.mentions.within("structure", draft.first, draft.last)
        if not set(hearing.names(m)) & set(draft.structures)
    ]
    found["other structure beside"] = float(bool(others))
    return found


def _side(hearing: Hearing, number: int) -> Evidence:
    """How the side was told."""
    scene, draft = hearing.scene, hearing.drafts[number]
    paired = any(scene.paired(s) and s not in scene.lexicon.central for s in draft.structures)
    near = scene.mentions.within("side", max(0, draft.first - 8), draft.last + 8)
    first = hearing.first_of_side.get(OPPOSITE.get(draft.side or "", ""), number)
    return {
        "side said": float(draft.side_said),
        "side missing": float(draft.side is None and paired),
        "side of a midline": float(not paired),
        "side both": float(draft.side == "both"),
        "side near": float(bool(near)),
        "sides near differ": float(len({m.id for m in near if m.id in OPPOSITE}) > 1),
        "other side near": float(any(m.id in OPPOSITE and m.id != draft.side for m in near)),
        "second side": float(first < number),
        "side just changed": float(number > 0 and hearing.drafts[number - 1].side != draft.side),
        "mirrored": float(draft.model is not None),
    }


def of_finding(hearing: Hearing, findings: Sequence[Noted]) -> list[Evidence]:
    """How each finding was heard."""
    earlier: dict[tuple[str, str], set[str]] = {}
    times = sorted(noted.what.time for noted in findings)
    found = []
    for noted in findings:
        finding = noted.what
        assert isinstance(finding, Finding)
        values = earlier.setdefault((finding.structure, finding.aspect), set())
        beside = bisect_right(times, finding.time + BESIDE_S) - bisect_left(times, finding.time - BESIDE_S)
        near = bisect_right(times, finding.time + CLOSE_S) - bisect_left(times, finding.time - CLOSE_S)
        again = {
            "others beside": float(beside > 1),
            "others near": min(1.0, (near - 1) / 3),
            "found before": float(finding.value in values),
            "found otherwise before": float(bool(values - {finding.value})),
        }
        values.add(finding.value)
        found.append({n: v for n, v in (_finding(hearing, noted) | again).items() if v})
    return found


def _finding(hearing: Hearing, noted: Noted) -> Evidence:
    finding = noted.what
    assert isinstance(finding, Finding)
    scene = hearing.scene
    clause = hearing.clause_at(noted.place)
    mentions = scene.mentions.within("aspect", noted.place, noted.place + 1)
    said = [scene.lexicon.said[m.id] for m in mentions]
    last = max((m.last for m in mentions), default=noted.place + 1)
    found = around(hearing, noted.place, last)
    usual = scene.lexicon.tables.aspects[finding.aspect].usual
    draft = hearing.draft_at(finding.time)
    found |= {
        "named": float(noted.named),
        "weak words": float(any(one.strength == 0 for one in said)),
        "one word": float(last - noted.place == 1),
        "usual": float(finding.value == usual),
        "denied": float(any(one.value != finding.value for one in said)),
        "comparison": float(not said),
        f"is {finding.aspect}": 1.0,
        f"is {finding.aspect} {finding.value}": 1.0,
        "side missing": float(finding.side is None and scene.paired(finding.structure)),
        "side said": float(bool(scene.mentions.within("side", clause.first, clause.last))),
        "region": float(scene.region(finding.structure) == finding.structure),
    }
    here = hearing.named(finding.structure, clause.first, clause.last)
    other = [
        m
        for m in scene.mentions.within("structure", clause.first, clause.last)
        if finding.structure not in hearing.names(m)
    ]
    found |= {
        "structure here": float(bool(here)),
        "structure ambiguous": float(any(m.kind == "ambiguous" for m in here)),
        "structure repaired": 1.0 - min([scene.repaired(m.first, m.last) for m in here], default=1.0),
        "structure far": min(1.0, min([abs(m.first - noted.place) for m in here], default=0) / 12),
        "other structure beside": float(bool(other)),
    }
    if draft is None:
        found["before any bout"] = 1.0
    else:
        end = draft.end if draft.end is not None else finding.time
        under = finding.structure in draft.structures
        found |= {"under the hands": float(under), "hands move a limb": float(draft.technique in STRETCHES)}
        # How the hands stand tells more of what was not named beside the finding.
        kind = "named" if noted.named else "unnamed"
        found |= {
            f"{kind}, hands off": float(end < finding.time - SAME_BREATH_S),
            f"{kind}, of several under the hands": float(under and len(draft.structures) > 1),
            f"{kind}, side as the hands": float(finding.side == draft.side),
            f"{kind}, place of the bout inferred": float("structures" in draft.doubts),
            f"{kind}, bout inferred": float("technique" in draft.doubts),
            f"{kind}, late in the bout": float(finding.time - draft.start > LONG_S / 2),
        }
    plain = noted.named and not other and not found.get("cue") and not found.get("asks")
    found |= {
        "plainly named": float(plain),
        "plainly named with its side": float(plain and bool(found.get("side said"))),
        "plain and short": float(plain and found["clause length"] < PLAIN_LENGTH),
        "under the hands in short": float(
            bool(found.get("under the hands")) and not other and found["clause length"] < PLAIN_LENGTH
        ),
        "strong words named": float(noted.named and not found["weak words"]),
    }
    return found


def of_response(hearing: Hearing, responses: Sequence[Noted]) -> list[Evidence]:
    """How each answer of the horse was heard."""
    scene = hearing.scene
    lately: dict[str, float] = {}
    last_time = -AGAIN_S
    every = []
    for noted in responses:
        response = noted.what
        assert isinstance(response, Response)
        mentions = scene.mentions.within("sign", noted.place, noted.place + 1)
        last = max((m.last for m in mentions), default=noted.place + 1)
        found = around(hearing, noted.place, last)
        draft = hearing.draft_at(response.time)
        clause = hearing.clause_at(noted.place)
        off = draft is not None and draft.end is not None and draft.end < response.time - SAME_BREATH_S
        found |= {
            f"is {response.sign}": 1.0,
            "terse": float(not mentions),
            "one word": float(last - noted.place == 1),
            "alone": float(clause.last - clause.first <= last - noted.place + 2),
            "shown before": float(response.sign in lately),
            "shown lately": float(response.time - lately.get(response.sign, -AGAIN_S) < AGAIN_S / 2),
            "others near": float(response.time - last_time < CLOSE_S),
            "before any bout": float(draft is None),
            "hands off": float(off),
            "soon after onset": float(draft is not None and response.time - draft.start < CLOSE_S),
            "silence after": float(scene.tokens[min(last, len(scene.tokens)) - 1].pause >= WORKS_S),
        }
        lately[response.sign] = last_time = response.time
        every.append({name: value for name, value in found.items() if value})
    return every


def of_action(hearing: Hearing, action: Action, others: Iterable[Action]) -> Evidence:
    """How a decision was heard."""
    scene = hearing.scene
    place = hearing.place_of(action.span)
    strong = [m for m in scene.mentions.within("action", place, place + 2) if m.id == action.kind]
    after = [m for m in scene.mentions.within("after", place, place + 2) if m.id == action.kind]
    last = max((m.last for m in [*strong, *after]), default=place + 1)
    found = around(hearing, place, last)
    near = sum(1 for other in others if other is not action and abs(other.time - action.time) < BEFORE_S)
    said = sum(1 for kind in ("action", "after") for m in scene.mentions.all(kind) if m.id == action.kind)
    found |= {
        f"is {action.kind}": 1.0,
        "strong": float(bool(strong)),
        "after-type": float(bool(after) and not strong),
        "short phrase": float(last - place <= 2),
        "others near": min(1.0, near / 3),
        "said once": float(said == 1),
        "asked for": float(bool(scene.mentions.within("asks", max(0, place - 12), place + 1))),
    }
    return {name: value for name, value in found.items() if value}
