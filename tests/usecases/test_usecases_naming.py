"""What a person types for a horse, a visit or an entry."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from fakes import NOW, FakeStore, fake_app, with_visit

from haywisp.usecases import App, NotFound, Refused
from haywisp.usecases.naming import horse_named, numbered, owner_named, visit_named
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.visits import open_visit


def named_app(*ids: str) -> App:
    return replace(fake_app(), new_id=iter(ids).__next__)


def test_a_name_goes_before_the_start_of_an_id_and_that_before_the_start_of_a_name() -> None:
    app = named_app("owner-1", "yard-1", "cafe-1111", "cafe-2222", "beef-3333")
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Farm")
    for name in ("Beef", "Beefy", "Cafe"):
        add_horse(app, name, owner.id, yard.id)

    assert horse_named(app, "beef").name == "Beef"
    assert horse_named(app, "beef-").name == "Cafe"
    assert horse_named(app, "cafe").name == "Cafe"
    assert horse_named(app, "cafe-2").name == "Beefy"
    assert horse_named(app, "beefy").id == "cafe-2222"
    with pytest.raises(Refused, match=r"“cafe-” could be Beef \(cafe-111\), Beefy \(cafe-222\)"):
        horse_named(app, "cafe-")
    with pytest.raises(NotFound, match="no horse “dun”"):
        horse_named(app, "dun")
    with pytest.raises(NotFound, match="no horse “”"):
        horse_named(app, "")
    assert owner_named(app, "ann").id == "owner-1"


def test_a_horses_name_is_its_newest_visit_that_is_not_ahead() -> None:
    store = FakeStore()
    app = fake_app(store)
    first = store.rows.visits[with_visit(app, date(2031, 1, 1))]
    second = open_visit(app, first.horse_id, NOW.date())
    open_visit(app, first.horse_id, NOW.date() + timedelta(days=7))

    assert visit_named(app, "bramble").id == second.id
    assert visit_named(app, "bram").id == second.id
    assert visit_named(app, first.id).id == first.id


def test_a_horse_without_a_visit_says_so() -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Farm")
    add_horse(app, "Clover", owner.id, yard.id)

    with pytest.raises(NotFound, match="Clover has no visit yet"):
        visit_named(app, "Clover")


def test_numbers_count_from_one() -> None:
    ids = ["aaaa1", "aaaa2", "bbbb1"]

    assert [numbered("entry", text, ids) for text in ("1", "3", "bbbb", "aaaa2")] == [
        "aaaa1",
        "bbbb1",
        "bbbb1",
        "aaaa2",
    ]
    for text in ("0", "4", "-1", "zz", ""):
        with pytest.raises(NotFound, match="has 3"):
            numbered("entry", text, ids)
    with pytest.raises(Refused, match="start of 2 ids"):
        numbered("entry", "aaaa", ids)
