"""Lists: their order, their pages, their search, and that none of them asks once a row."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store_samples import HORSE, OWNER, QUESTION, VISIT, YARD, add_visits, fill, statements, version

from haywisp.record.types import Horse
from haywisp.store import Store
from haywisp.store.keys import KEY_LENGTH, name_key


def stable(store: Store, *names: str) -> None:
    """Horses with these names, ids in the order given."""
    with store.unit() as unit:
        unit.add_owner(OWNER)
        unit.add_yard(YARD)
        for number, name in enumerate(names):
            unit.add_horse(Horse(f"h{number}", name, OWNER.id, YARD.id))


def names(horses: object) -> list[str]:
    return [horse.name for horse in horses]  # type: ignore[attr-defined]


def test_horses_are_sorted_without_regard_to_case_and_accents(store: Store) -> None:
    stable(store, "zebedee", "Émile", "ash", "Edda", "Ash", "Ōtepoti")
    with store.unit() as unit:
        assert names(unit.horses()) == ["ash", "Ash", "Edda", "Émile", "Ōtepoti", "zebedee"]


def test_pages_join_to_the_whole_list_even_where_names_repeat(store: Store) -> None:
    stable(store, *(["Bella"] * 5), *(["bella"] * 4), "Ash", "Cob")
    seen: list[str] = []
    with store.unit() as unit:
        while page := unit.horses(after=seen[-1] if seen else "", limit=3):
            assert len(page) <= 3
            seen += [horse.id for horse in page]
        assert seen == [horse.id for horse in unit.horses()]
    assert len(set(seen)) == 11


def test_pages_of_a_search(store: Store) -> None:
    stable(store, "Bella", "Ash", "Bellamy", "Isabella")
    with store.unit() as unit:
        first = unit.horses("BELLA", limit=2)
        assert names(first) == ["Bella", "Bellamy"]
        assert names(unit.horses("BELLA", after=first[-1].id, limit=2)) == ["Isabella"]
        assert unit.horses("bella", limit=0) == []


def test_horses_are_counted_in_one_statement_that_reads_none(store: Store) -> None:
    with store.unit() as unit:
        assert unit.count_horses() == 0
    stable(store, "Bella", "Ash", "Bella")
    with store.unit() as unit, statements() as asked:
        assert unit.count_horses() == 3
    assert ["count(*)" in text.lower() for text in asked] == [True]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("ZOË", ["Zoë's Girl"]),
        ("zoe", ["Zoë's Girl"]),
        ("girl zo", ["Zoë's Girl"]),
        ("100%", ["100% Cob"]),
        ("0%c", []),
        ("_", ["snow_white"]),
        ("\\", ["back\\slash"]),
        ("'; drop", []),
        ("  ", ["100% Cob", "back\\slash", "snow_white", "Zoë's Girl"]),
        ("ida", ["100% Cob", "back\\slash", "snow_white", "Zoë's Girl"]),
        ("meadow cob", ["100% Cob"]),
        ("cob elsewhere", []),
    ],
)
def test_search_in_names_of_horse_owner_and_yard(store: Store, text: str, found: list[str]) -> None:
    stable(store, "Zoë's Girl", "100% Cob", "snow_white", "back\\slash")
    with store.unit() as unit:
        assert names(unit.horses(text)) == found


def test_a_search_for_a_damaged_text_finds_nothing_and_says_nothing(store: Store) -> None:
    stable(store, "Ash")
    with store.unit() as unit:
        assert unit.horses("a\0s") == []
        assert unit.horses("\ud800") == []
        assert unit.horses(after="\0\ud800") == []
        assert names(unit.horses("ash " * 5000)) == ["Ash"]


@pytest.mark.parametrize("odd", ["\0", "\ud800", "x" * 100_000, "", "' OR 1=1 --"])
def test_an_odd_id_is_simply_not_there(store: Store, odd: str) -> None:
    fill(store)
    with store.unit() as unit:
        assert [unit.horse(odd), unit.visit(odd), unit.narration_of(odd), unit.question(odd)] == [None] * 4
        assert [*unit.entries_of(odd), *unit.thread(odd), *unit.visits_of(odd), *unit.questions_of(odd)] == []
        assert unit.last_visit_days([odd]) == unit.open_questions([odd]) == {}


def test_a_very_long_name_is_kept_and_found(store: Store) -> None:
    stable(store, "Q" * 20_000, "𝔔" * 20_000)
    with store.unit() as unit:
        assert {len(horse.name) for horse in unit.horses("qqq")} == {20_000}
        assert len(unit.horses("q" * 500)) == 2


@given(st.text())
def test_a_key_is_its_own_key_and_short(text: str) -> None:
    key = name_key(text)
    assert len(key) <= KEY_LENGTH
    assert name_key(text.upper().casefold()) == name_key(text.casefold().upper())
    assert key == key.strip()


def test_visits_of_a_horse_are_newest_first(store: Store) -> None:
    fill(store)
    others = [replace(VISIT, id=f"v{day}", day=date(2031, 4, day), number=day) for day in (3, 1, 2)]
    same_day = replace(VISIT, id="again", number=9)
    with store.unit() as unit:
        for visit in (*others, same_day):
            unit.add_visit(visit)
        assert [visit.id for visit in unit.visits_of(HORSE.id)] == ["again", "visit-1", "v3", "v2", "v1"]


def test_visits_between_days_include_both_ends_oldest_first(store: Store) -> None:
    add_visits(store, horses=2, each=4)
    with store.unit() as unit:
        between = unit.visits_between(date(2031, 5, 6), date(2031, 5, 7))
        assert [(visit.day.day, visit.horse_id) for visit in between] == [
            (6, "h-0"),
            (6, "h-1"),
            (7, "h-0"),
            (7, "h-1"),
        ]


def test_visits_by_status_are_newest_first_and_limited(store: Store) -> None:
    add_visits(store, horses=1, each=4)
    with store.unit() as unit:
        assert [visit.number for visit in unit.visits_by_status("reviewed", limit=3)] == [4, 3, 2]
        assert unit.visits_by_status("heard") == []


def test_last_days_leave_planned_visits_out(store: Store) -> None:
    add_visits(store, horses=2, each=3)
    with store.unit() as unit:
        unit.add_visit(replace(VISIT, id="planned", horse_id="h-0", day=date(2032, 1, 1), status="planned"))
        assert unit.last_visit_days(["h-0", "h-1", "none"]) == {"h-0": date(2031, 5, 7), "h-1": date(2031, 5, 7)}
        assert unit.last_visit_days([]) == {}


def test_entries_are_in_time_order_and_by_visit(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.add_visit(replace(VISIT, id="visit-0", number=2))
        unit.append(
            [
                replace(version(1, "late"), time_s=90.0, end_s=95.0),
                replace(version(1, "early"), time_s=5.0, end_s=6.0),
                replace(version(1, "elsewhere"), visit_id="visit-0", time_s=500.0, end_s=500.0),
            ]
        )
        assert [one.thread for one in unit.entries_of_many([VISIT.id, "visit-0"])] == ["elsewhere", "early", "late"]


def test_lists_over_many_visits_take_few_statements(store: Store) -> None:
    visit_ids = add_visits(store, horses=60, each=20)
    with store.unit() as unit:
        unit.append([replace(version(1, f"t-{visit}"), visit_id=visit) for visit in visit_ids])
        unit.add_questions([replace(QUESTION, id=f"q-{visit}", visit_id=visit) for visit in visit_ids])
    with store.unit() as unit, statements() as seen:
        assert len(unit.entries_of_many(visit_ids)) == 1200
        assert len(unit.open_questions(visit_ids)) == 1200
        assert len(unit.last_visit_days([f"h-{number}" for number in range(60)])) == 60
        assert len(unit.horses(limit=100)) == 60
        assert len(unit.visits_between(date.min, date.max)) == 1200
    # 1200 ids go in two portions of at most 1000.
    assert len(seen) == 2 + 2 + 1 + 1 + 1
