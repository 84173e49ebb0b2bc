"""What was agreed before a visit, and what is missing or over for its day: plain data, never a verdict on the law.

Whether a vet has to agree, and to what, is different from place to place and changes. Haywisp knows no law: a practice
writes down what holds where it works, from where it has it and when it was looked up.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from haywisp.practice.errors import BadAgreement
from haywisp.practice.types import HOW_GIVEN, SCOPES, Agreed, Gap, PlaceRule

CAUTION = (
    "The law of the place and the vet come before everything that is written here: what a practice noted may be out of "
    "date. Where it isn't certain that the work is allowed, ask the vet or the authority first."
)
# A rule that was looked up longer ago is asked about again; own choice, no source: published lists date fast.
RULE_HOLDS = timedelta(days=365)
LONGEST = 400
LONGEST_RULE = 4000

WHOSE = {"consent": "The owner's consent", "agreement": "The vet's agreement"}
THINGS = {
    "massage": "massage",
    "stretches": "stretches",
    "warmth-and-cold": "warmth and cold",
    "photographs": "photographs",
    "recordings": "sound recordings",
    "sharing-with-vet": "sharing the record with the vet",
    "sharing-with-others": "sharing the record with others",
}


def agreed(one: Agreed) -> Agreed:
    """The same without stray blanks; raises :class:`haywisp.practice.BadAgreement` for what can't have been agreed."""
    who, how = " ".join(one.who.split()), " ".join(one.how.split())
    if not who:
        raise BadAgreement("who agreed is missing: write the name")
    if len(who) > LONGEST:
        raise BadAgreement(f"the name is {len(who)} characters long; {LONGEST} is the most")
    if how not in HOW_GIVEN:
        raise BadAgreement(f"“{how[:40]}” is no way to agree; choose one of {', '.join(HOW_GIVEN)}")
    if not one.scope:
        raise BadAgreement("what was agreed to is missing: name one thing or more")
    _refuse_unknown(one.scope)
    if one.until is not None and one.until < one.day:
        raise BadAgreement(f"it ends on {one.until}, before the day that it was given ({one.day})")
    return replace(one, who=who, how=how)


def place_rule(rule: PlaceRule) -> PlaceRule:
    """The same without stray blanks; raises :class:`haywisp.practice.BadAgreement` where text or source is missing."""
    place, source, text = " ".join(rule.place.split()), " ".join(rule.source.split()), rule.text.strip()
    if not place:
        raise BadAgreement("the place that the rule holds for is missing")
    if not text:
        raise BadAgreement(f"what holds in {place} is missing: write it down in your own words")
    if not source:
        raise BadAgreement(f"the source of what holds in {place} is missing: who says so, and where it can be read")
    for name, said, most in (("place", place, LONGEST), ("source", source, LONGEST), ("rule", text, LONGEST_RULE)):
        if len(said) > most:
            raise BadAgreement(f"the {name} is {len(said)} characters long; {most} is the most")
    _refuse_unknown(rule.covers)
    return replace(rule, place=place, source=source, text=text)


def gaps(
    day: date,
    wanted: Iterable[str],
    consents: Sequence[Agreed],
    agreements: Sequence[Agreed] = (),
    rule: PlaceRule | None = None,
) -> tuple[Gap, ...]:
    """What is missing or over on ``day`` for the things ``wanted`` (of :data:`haywisp.practice.types.SCOPES`).

    ``consents`` are the owner's and ``agreements`` the vet's, of this horse; one of a later day than ``day`` counts for
    nothing yet. ``rule`` is what the practice wrote down for the place, None where it has nothing. Nothing missing is
    not leave to work: :data:`CAUTION` holds all the same.
    """
    asked = set(wanted)
    _refuse_unknown(asked)
    things = [thing for thing in SCOPES if thing in asked]
    found = [gap for thing in things if (gap := _gap("consent", thing, day, consents)) is not None]
    if rule is None:
        found.append(Gap("rule-missing", "", "What holds here for the vet's agreement isn't written down."))
    else:
        found += _of_rule(day, rule)
        if rule.wants_vet:
            hands_on = [thing for thing in things if thing in rule.covers]
            found += [gap for thing in hands_on if (gap := _gap("agreement", thing, day, agreements)) is not None]
    return tuple(found)


def _refuse_unknown(things: Iterable[str]) -> None:
    unknown = sorted(set(things) - set(SCOPES))
    if unknown:
        raise BadAgreement(f"“{unknown[0][:40]}” can't be agreed to here; choose from {', '.join(SCOPES)}")


def _of_rule(day: date, rule: PlaceRule) -> list[Gap]:
    found = []
    if day - rule.looked_up > RULE_HOLDS:
        told = f"What holds in {rule.place} was looked up on {rule.looked_up}: look it up again ({rule.source})."
        found.append(Gap("rule-old", "", told, rule.looked_up))
    if rule.wants_vet is None:
        told = f"Whether a vet has to agree in {rule.place} isn't written down: ask before you work."
        found.append(Gap("rule-unclear", "", told))
    return found


def _gap(kind: str, thing: str, day: date, given: Sequence[Agreed]) -> Gap | None:
    """What is wrong with the agreement to one thing; the one that holds longest is the one to tell of."""
    whose, what = WHOSE[kind], THINGS[thing]
    about = [one for one in given if thing in one.scope and one.day <= day]
    if any(one.until is None or one.until >= day for one in about):
        return None
    ends = max((one.until for one in about if one.until is not None), default=None)
    if ends is None:
        return Gap(f"{kind}-missing", thing, f"{whose} to {what} is missing.")
    return Gap(f"{kind}-over", thing, f"{whose} to {what} was over on {ends}.", ends)
