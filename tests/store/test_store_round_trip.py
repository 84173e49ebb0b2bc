"""What is kept comes back as it was, on both databases."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from store_samples import ENTRY, HORSE, NARRATION, NOW, OWNER, QUESTION, VISIT, YARD, fill

from haywisp.practice.types import Owner
from haywisp.store import Store, Unstorable

# One database for all examples: each example uses an id of its own.
on_one_store = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture], derandomize=True
)
kept_text = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]))
plain_values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**31), 2**31 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | kept_text,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(kept_text, inner, max_size=3),
    max_leaves=8,
)


def test_every_kind_comes_back_equal(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.add_narration(NARRATION)
        unit.append([ENTRY])
        unit.add_questions([QUESTION])
    with store.unit() as unit:
        assert unit.owner(OWNER.id) == OWNER
        assert unit.yard(YARD.id) == YARD
        assert unit.horse(HORSE.id) == HORSE
        assert unit.visit(VISIT.id) == VISIT
        assert unit.narration_of(VISIT.id) == NARRATION
        assert unit.entries_of(VISIT.id) == [ENTRY]
        assert unit.question(QUESTION.id) == QUESTION
        assert unit.owners() == [OWNER]
        assert unit.yards() == [YARD]
        assert unit.questions_of(VISIT.id) == [QUESTION]


def test_an_unknown_id_is_none_and_lists_are_empty(store: Store) -> None:
    with store.unit() as unit:
        assert [unit.owner("x"), unit.yard("x"), unit.horse("x"), unit.visit("x"), unit.question("x")] == [None] * 5
        assert unit.narration_of("x") is None
        assert [*unit.entries_of("x"), *unit.thread("x"), *unit.questions_of("x"), *unit.visits_of("x")] == []


@on_one_store
@given(text=kept_text)
def test_any_text_comes_back_as_it_was(store: Store, text: str) -> None:
    with store.unit() as unit:
        number = len(unit.owners())
        unit.add_owner(Owner(f"o{number}", text, text, text))
    with store.unit() as unit:
        assert unit.owner(f"o{number}") == Owner(f"o{number}", text, text, text)


@on_one_store
@given(body=st.dictionaries(kept_text, plain_values, max_size=4))
def test_any_body_comes_back_as_it_was(store: Store, body: dict[str, object]) -> None:
    with store.unit() as unit:
        if unit.owner(OWNER.id) is None:
            unit.add_owner(OWNER)
            unit.add_yard(YARD)
            unit.add_horse(HORSE)
            unit.add_visit(VISIT)
        number = len(unit.entries_of(VISIT.id))
        unit.append([replace(ENTRY, id=f"e{number}", thread=f"t{number}", body=body)])
    with store.unit() as unit:
        assert unit.thread(f"t{number}")[0].body == body


@on_one_store
@given(
    made_at=st.datetimes(
        datetime(1900, 1, 1),
        datetime(2200, 1, 1),
        timezones=st.sampled_from([UTC, timezone(timedelta(hours=5, minutes=45)), timezone(timedelta(hours=-11))]),
    )
)
def test_times_come_back_in_utc(store: Store, made_at: datetime) -> None:
    with store.unit() as unit:
        if unit.owner(OWNER.id) is None:
            unit.add_owner(OWNER)
            unit.add_yard(YARD)
            unit.add_horse(HORSE)
            unit.add_visit(VISIT)
        number = len(unit.entries_of(VISIT.id))
        unit.append([replace(ENTRY, id=f"e{number}", thread=f"t{number}", made_at=made_at)])
    with store.unit() as unit:
        read = unit.thread(f"t{number}")[0].made_at
    assert read == made_at
    assert read.utcoffset() == timedelta(0)


def test_days_at_the_ends_of_the_calendar(store: Store) -> None:
    fill(store)
    ends = [replace(VISIT, id=str(day), day=day) for day in (date.min, date.max)]
    with store.unit() as unit:
        for visit in ends:
            unit.add_visit(visit)
        assert list(unit.visits_between(date.min, date.min)) == ends[:1]
        assert list(unit.visits_between(date.max, date.max)) == ends[1:]


@pytest.mark.parametrize(
    ("owner", "said"),
    [
        (replace(OWNER, name="Ida\0Fell"), "The name of this owner can't be kept: character 4 is a NUL character"),
        (replace(OWNER, phone="01\ud800"), "The phone of this owner can't be kept: character 3 is half of a damaged"),
    ],
)
def test_text_that_no_database_keeps_is_refused_by_name(store: Store, owner: Owner, said: str) -> None:
    with pytest.raises(Unstorable, match=said), store.unit() as unit:
        unit.add_owner(owner)
    with store.unit() as unit:
        assert unit.owners() == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"time_s": float("nan")}, "The time s of this entry can't be kept: it isn't a finite number"),
        ({"body": {"passes": float("inf")}}, "it isn't a finite number"),
        ({"body": {"passes": 2**40}}, "the number is too large"),
        ({"body": {"deep": [{"text": "a\0"}]}}, "character 2 is a NUL"),
        ({"body": {"a\0": 1}}, "character 2 is a NUL"),
        ({"body": {3: 1}}, "the name 3 inside it isn't text"),
        ({"body": {"day": date(2031, 1, 1)}}, "a date isn't a plain value"),
        ({"made_at": datetime(2031, 1, 1)}, "the time has no time zone"),
    ],
)
def test_values_that_no_database_keeps_are_refused(store: Store, change: dict[str, object], said: str) -> None:
    fill(store)
    with pytest.raises(Unstorable, match=said), store.unit() as unit:
        unit.append([replace(ENTRY, **change)])  # type: ignore[arg-type]
    with store.unit() as unit:
        assert unit.entries_of(VISIT.id) == []


def test_tuples_in_a_body_come_back_as_lists(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.append([replace(ENTRY, body={"structures": ("neck", "poll")})])
        assert unit.entries_of(VISIT.id)[0].body == {"structures": ["neck", "poll"]}


def test_saving_puts_new_details_in_place_of_the_old(store: Store) -> None:
    fill(store)
    horse = replace(HORSE, name="Bracken", flags=(), height_cm=None)
    visit = replace(VISIT, status="reviewed", notes="")
    with store.unit() as unit:
        unit.save_horse(horse)
        unit.save_visit(visit)
    with store.unit() as unit:
        assert unit.horse(HORSE.id) == horse
        assert unit.visit(VISIT.id) == visit
        assert list(unit.horses("bracken")) == [horse]
        assert list(unit.horses("bramble")) == []


def test_the_newest_narration_of_a_visit_is_read(store: Store) -> None:
    fill(store)
    same_time = replace(NARRATION, id="b", content="second, in the same moment")
    older = replace(NARRATION, id="c", content="added last, but spoken before", added_at=NOW - timedelta(hours=1))
    with store.unit() as unit:
        for narration in (NARRATION, same_time, older):
            unit.add_narration(narration)
        assert unit.narration_of(VISIT.id) == same_time


def test_an_answer_is_kept_and_the_question_stays_as_asked(store: Store) -> None:
    fill(store)
    with store.unit() as unit:
        unit.add_questions([QUESTION, replace(QUESTION, id="question-2")])
        assert unit.open_questions([VISIT.id, "none"]) == {VISIT.id: 2}
        unit.save_answer(replace(QUESTION, answer="left", answered_at=NOW, text="another text"))
    with store.unit() as unit:
        assert unit.question(QUESTION.id) == replace(QUESTION, answer="left", answered_at=NOW)
        assert unit.open_questions([VISIT.id]) == {VISIT.id: 1}


def test_what_a_question_offers_is_kept_with_it(store: Store) -> None:
    offer = {"part": "bout", "body": {"technique": "kneading", "structures": ["neck"], "side": None}, "end_s": 20.5}
    asked = replace(QUESTION, id="question-3", thread="", field=None, offer=offer)
    fill(store)
    with store.unit() as unit:
        unit.add_questions([asked, QUESTION])
        assert unit.question(asked.id) == asked
        assert unit.question(QUESTION.id) == QUESTION
        unit.save_answer(replace(asked, answer="keep", answered_at=NOW))
        assert unit.question(asked.id) == replace(asked, answer="keep", answered_at=NOW)
