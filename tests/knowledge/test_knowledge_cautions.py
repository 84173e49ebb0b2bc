"""The screening gate's rules, patterns and exercises against the positions they were taken from."""

import pytest

from haywisp.knowledge import Trigger, load_tables
from haywisp.knowledge.rules import FLAG_GROUPS

# Taught positions: course pages (secondary) where the row says so; the rest common teaching, from memory.
ABSOLUTE = [
    "fever",
    "acute-lameness",
    "colic",
    "diarrhoea",
    "exhaustion",
    "tying-up",
    "laminitis",
    "neurological-signs",
    "heart-signs",
    "fracture",
    "acute-injury",
    "infectious-disease",
    "skin-disease",
    "heat-with-swelling",
    "capillary-refill-slow",
    "gut-sounds-absent",
    "infection-contact",
    "sedated",
    "lame-and-hot",
    "lame-and-swollen",
]
VET_FIRST = ["unexplained-lameness", "tumour", "recent-surgery", "joint-injection", "painkillers", "vet-asked-for"]
LIMITS = ["isolation", "pregnant-early", "pregnant-late", "vaccinated-recently", "ppid", "first-visit", "lump", "spasm"]


@pytest.mark.parametrize("rule", ABSOLUTE)
def test_never_overridden(rule: str) -> None:
    row = load_tables().cautions[rule]
    assert (row.verdict, row.absolute) == ("vet-first", True)


@pytest.mark.parametrize("rule", VET_FIRST)
def test_the_vets_word_first(rule: str) -> None:
    row = load_tables().cautions[rule]
    assert (row.verdict, row.absolute) == ("vet-first", False)


@pytest.mark.parametrize("rule", LIMITS)
def test_work_within_limits(rule: str) -> None:
    assert load_tables().cautions[rule].verdict == "within-limits"


def test_heat_and_swelling_must_be_together() -> None:
    row = load_tables().cautions["heat-with-swelling"]
    assert row.all_triggers
    assert row.triggers == (
        Trigger("finding", aspect="warmth", value="warm"),
        Trigger("finding", aspect="swelling", value="present"),
    )


@pytest.mark.parametrize("rule", ["open-wound", "skin-rub", "swelling", "lump"])
def test_the_place_itself_is_left_alone(rule: str) -> None:
    assert load_tables().cautions[rule].site == "found"


@pytest.mark.parametrize("rule", ["tenderness", "spasm", "heat"])
def test_a_sore_place_is_worked_lightly(rule: str) -> None:
    row = load_tables().cautions[rule]
    assert (row.site, row.pressure_cap) == ("found-cap", "light")


def test_a_first_visit_is_moderate_at_most() -> None:
    row = load_tables().cautions["first-visit"]
    assert (row.site, row.pressure_cap) == ("none", "moderate")


@pytest.mark.parametrize(
    ("rule", "figure"),
    [
        ("fever", "39 °C / 102 °F"),
        ("acute-injury", "72 h"),
        ("vaccinated-recently", "72 h"),
        ("hard-feed-recently", "two hours"),
    ],
)
def test_the_source_keeps_the_published_figure(rule: str, figure: str) -> None:
    assert figure in load_tables().cautions[rule].source


def test_every_lasting_flag_is_one_that_stays_with_the_horse() -> None:
    lasting = {row.id for row in load_tables().flags.values() if row.lasting}
    assert lasting == {"tumour", "ppid", "head-shy", "hard-to-handle", "known-condition"}


def test_flags_stand_in_the_order_of_asking() -> None:
    groups = [FLAG_GROUPS.index(row.group) for row in load_tables().flags.values()]
    assert groups == sorted(groups)


# What only a vet or the law can lift: the vet's own wait, and an agreement that the law wants.
def test_a_vets_wait_and_the_laws_agreement_are_not_the_practitioners_to_lift() -> None:
    assert {row.id for row in load_tables().cautions.values() if row.vet_alone} == {
        "vet-says-wait",
        "vet-agreement-missing",
    }


# Ranges of eight clinic and owner pages (secondary): the question has the figures that its source has.
@pytest.mark.parametrize(
    ("flag", "figures"),
    [
        ("temperature-out-of-range", ("37.2", "38.6")),
        ("heart-rate-out-of-range", ("28", "44")),
        ("respiration-out-of-range", ("8", "16")),
    ],
)
def test_a_question_about_a_reading_has_its_figures(flag: str, figures: tuple[str, str]) -> None:
    row = load_tables().flags[flag]
    assert all(figure in row.asks and figure in row.source for figure in figures)


def test_every_kind_of_call_has_a_pattern() -> None:
    patterns = load_tables().patterns
    assert len(patterns) >= 12
    assert {row.call for row in patterns.values()} == {"", "vet", "saddler", "dentist", "farrier"}


def test_every_pattern_can_be_spoken_against() -> None:
    for row in load_tables().patterns.values():
        assert min(evidence.weight for evidence in row.evidence) < 0, row.id


@pytest.mark.parametrize("word", ["diagnos", "arthritis", "spavin", "kissing", "navicular", "disease"])
def test_no_pattern_names_an_illness(word: str) -> None:
    for row in load_tables().patterns.values():
        assert word not in f"{row.name} {row.says} {row.check_next}".lower(), row.id


# Stubbs et al. 2011, Equine Vet J (abstract): three flexions, one extension and three side bends, five times each,
# five days a week.
def test_the_stretches_are_those_of_the_study_with_its_dose() -> None:
    study = [row for row in load_tables().exercises.values() if "Stubbs et al. 2011" in row.source]
    assert [row.id for row in study] == [
        "chin-to-chest",
        "chin-between-knees",
        "chin-between-fetlocks",
        "neck-extension",
        "chin-to-girth",
        "chin-to-flank",
        "chin-to-hock",
    ]
    assert {(row.repetitions, row.days_per_week, row.action) for row in study} == {(5, 5, "baited-stretches")}


# de Oliveira et al. 2015, JEVS (abstract): three days a week.
def test_gymnastic_exercises_have_the_dose_of_the_study() -> None:
    study = [row for row in load_tables().exercises.values() if "de Oliveira et al. 2015" in row.source]
    assert len(study) >= 4
    assert {row.days_per_week for row in study} == {3}
