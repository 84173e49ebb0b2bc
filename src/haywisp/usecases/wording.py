"""Words that the pages share besides the report's: statuses, headings, labels of options, facts."""

from collections.abc import Mapping

from haywisp.findings.types import Fact
from haywisp.knowledge.types import Tables
from haywisp.record.types import OVERRIDE, VET_AGREES, VET_SAYS_WAIT
from haywisp.report.wording import entry_sentence, structure_name

PARTS: Mapping[str, str] = {
    "bout": "Work done",
    "finding": "Finding",
    "response": "Answer of the horse",
    "action": "For after",
    "note": "Note",
    "flag": "Red flag",
    "reading": "Reading",
}
STATUSES: Mapping[str, str] = {
    "proposed": "to be reviewed",
    "accepted": "accepted",
    "corrected": "corrected",
    "rejected": "left out",
}
VISIT_STATUSES: Mapping[str, str] = {
    "planned": "planned",
    "heard": "to be reviewed",
    "reviewed": "reviewed",
}
VERDICTS: Mapping[str, str] = {
    "work": "Nothing recorded speaks against the work",
    "within-limits": "Work within limits",
    "vet-first": "Vet first",
}
GROUPS: Mapping[str, str] = {
    "head-and-neck": "Head and neck",
    "forehand": "Forehand",
    "trunk": "Trunk",
    "hindquarters": "Hindquarters",
    "regions": "Regions",
}
SIDES: Mapping[str, str] = {"left": "Left", "right": "Right", "both": "Both sides", "": "Not said, or on the midline"}
PRESSURES: Mapping[str, str] = {"light": "Light", "moderate": "Moderate", "firm": "Firm", "": "Not said"}

#: What the questions before touching stand under.
FLAG_GROUPS: Mapping[str, str] = {
    "illness": "Well or ill",
    "readings": "Measured at rest",
    "lameness": "Lame, hurt or in pain",
    "skin": "Skin and wounds",
    "vet": "Vet, medicines and the law",
    "yard": "The yard",
    "breeding": "In foal",
    "today": "Today",
    "handling": "Handling",
}

#: What a field of an entry is called beside its value.
FIELDS: Mapping[str, str] = {
    "technique": "Technique",
    "structures": "Where",
    "structure": "Where",
    "side": "Side",
    "passes": "Passes",
    "pressure": "Pressure",
    "aspect": "What was felt",
    "value": "Found",
    "sign": "What the horse showed",
    "kind": "For after",
    "text": "Note",
    "flag": "Red flag",
    "cautions": "What was set aside",
}
NOTE_KINDS: Mapping[str, str] = {
    VET_AGREES: "The vet answered: bodywork may go on",
    VET_SAYS_WAIT: "The vet answered: bodywork has to wait",
    OVERRIDE: "Work without waiting for the vet, who should come first",
}


def sentence_case(text: str) -> str:
    """The text with a capital first letter; the rest as it is."""
    return text[:1].upper() + text[1:]


def humanised(identifier: str) -> str:
    """An id as words, for what no table names."""
    return identifier.replace("-", " ").replace("_", " ")


def label(rows: Mapping[str, object], identifier: str) -> str:
    """The name of a row of the tables with a capital; the id as words when the tables no longer have it."""
    return sentence_case(str(getattr(rows.get(identifier), "name", humanised(identifier))))


def structure_label(structure: str, tables: Tables) -> str:
    return sentence_case(structure_name(structure, tables))


def flag_label(flag: str, tables: Tables) -> str:
    return label(tables.flags, flag)


def fact_sentence(fact: Fact, tables: Tables) -> str:
    """One fact as the gate and the patterns read it, in words."""
    if fact.kind == "finding":
        body = {"structure": fact.structure, "side": fact.side, "aspect": fact.aspect, "value": fact.value}
        return entry_sentence("finding", body, tables)
    if fact.kind == "action":
        return entry_sentence("action", {"kind": fact.id}, tables)
    if fact.kind == "sign":
        return entry_sentence("response", {"sign": fact.id}, tables)
    return flag_label(fact.id, tables)
