"""The packaged demo practice: what it holds, and that all of it is marked as invented."""

from collections import Counter
from datetime import date

import pytest

from haywisp.demo import DemoPractice, load
from haywisp.knowledge import load_tables
from haywisp.narration.reading import read_bytes

STORIES = {
    "tamarind": 6,
    "drumlin": 5,
    "foxglove": 6,
    "bathsheba": 4,
    "pipkin": 4,
    "quarto": 3,
    "merrow": 5,
    "juniper": 3,
    "saffron": 2,
    "gannet": 2,
}


@pytest.fixture(scope="module")
def practice() -> DemoPractice:
    return load()


def test_it_holds_three_yards_six_owners_ten_horses_and_forty_visits(practice: DemoPractice) -> None:
    counts = [len(part) for part in (practice.yards, practice.owners, practice.horses, practice.visits)]
    assert counts == [3, 6, 10, 40]


def test_one_yard_is_an_isolation_yard_and_has_a_horse(practice: DemoPractice) -> None:
    isolation = [yard.id for yard in practice.yards if yard.isolation]
    assert isolation == ["marl-pits"]
    assert [horse.name for horse in practice.horses if horse.yard in isolation] == ["Gannet"]


def test_each_horse_has_the_visits_of_its_story(practice: DemoPractice) -> None:
    assert Counter(visit.horse for visit in practice.visits) == STORIES


def test_every_owner_has_a_horse(practice: DemoPractice) -> None:
    assert {horse.owner for horse in practice.horses} == {owner.id for owner in practice.owners}


def test_the_year_ends_today_with_the_latest_three_unreviewed(practice: DemoPractice) -> None:
    offsets = [visit.day_offset for visit in practice.visits]
    assert offsets == sorted(offsets)
    assert offsets[0] >= -365
    assert [visit.narration_file for visit in practice.visits if not visit.reviewed] == [
        "38-merrow.words.json",
        "39-foxglove.vtt",
        "40-tamarind.srt",
    ]


def test_today_has_one_visit_heard_and_one_only_booked(practice: DemoPractice) -> None:
    assert [visit.horse for visit in practice.visits if visit.day_offset == 0] == ["tamarind"]
    assert [(row.horse, row.day_offset) for row in practice.bookings] == [("drumlin", 0)]


def test_days_count_from_the_day_the_demo_is_made(practice: DemoPractice) -> None:
    assert practice.visits[-2].day(date(2024, 3, 1)) == date(2024, 2, 27)
    assert practice.bookings[0].day(date(2024, 3, 1)) == date(2024, 3, 1)


def test_everything_is_marked_invented(practice: DemoPractice) -> None:
    rows = (*practice.yards, *practice.owners, *practice.horses, *practice.visits, *practice.bookings)
    assert practice.invented
    assert [row.id for row in rows if not row.invented] == []


def test_no_owner_can_be_reached(practice: DemoPractice) -> None:
    """``.invalid`` is reserved for names that must never resolve (RFC 2606, from memory)."""
    assert all(owner.email == "" or owner.email.endswith(".invalid") for owner in practice.owners)
    assert all(owner.phone.startswith("00000") for owner in practice.owners)


def test_no_narration_is_shared(practice: DemoPractice) -> None:
    assert len({visit.content() for visit in practice.visits}) == 40


def test_the_four_formats_are_mixed(practice: DemoPractice) -> None:
    endings = Counter(visit.narration_file.partition(".")[2] for visit in practice.visits)
    assert set(endings) == {"vtt", "srt", "txt", "words.json"}
    assert min(endings.values()) >= 8


def test_every_narration_is_read_without_anything_to_mend(practice: DemoPractice) -> None:
    for visit in practice.visits:
        transcript = read_bytes(visit.content(), visit.narration_file)
        assert transcript.problems == (), visit.narration_file
        assert len(transcript.words) >= 80, visit.narration_file
        starts = [word.start for word in transcript.words]
        assert starts == sorted(starts), visit.narration_file


def test_a_narration_fits_in_the_time_booked(practice: DemoPractice) -> None:
    for visit in practice.visits:
        last = read_bytes(visit.content(), visit.narration_file).words[-1]
        assert last.end <= visit.minutes * 60, visit.narration_file


def test_two_narrations_are_long_and_some_short(practice: DemoPractice) -> None:
    words = [len(read_bytes(visit.content(), visit.narration_file).words) for visit in practice.visits]
    assert sum(count >= 1200 for count in words) == 2
    assert sum(count <= 140 for count in words) >= 3


def test_the_horses_flags_are_those_that_the_gate_knows(practice: DemoPractice) -> None:
    cautions = load_tables().cautions.values()
    known = {trigger.id for caution in cautions for trigger in caution.triggers if trigger.kind == "flag"}
    assert {flag for horse in practice.horses for flag in horse.flags} <= known


def test_red_flags_and_vets_answers_of_the_practice_are_known() -> None:
    visits = load().visits
    flags = {flag for visit in visits for flag in visit.not_so}
    assert flags
    assert flags <= load_tables().flags.keys()
    assert sum(bool(visit.vet_said) for visit in visits) >= 2
