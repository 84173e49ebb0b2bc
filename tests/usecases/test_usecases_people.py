"""Owners, yards and horses: kept as given, refused with a sentence when they can't be."""

import pytest
from fakes import FakeStore, fake_app

from haywisp.usecases import NotFound, Refused
from haywisp.usecases.people import add_horse, add_owner, add_yard, edit_horse, people


def test_a_horse_is_kept_with_its_details() -> None:
    store = FakeStore()
    app = fake_app(store)
    owner, yard = add_owner(app, "  Ann   Example ", email="ann@example.org"), add_yard(app, "Example Farm")

    horse = add_horse(app, "Bramble", owner.id, yard.id, born="2019", height_cm="152,5", work=" hacking ")

    assert owner.name == "Ann Example"
    assert (horse.born, horse.height_cm, horse.work) == (2019, 152.5, "hacking")
    assert store.rows.horses == {horse.id: horse}


@pytest.mark.parametrize(
    ("details", "says"),
    [
        ({"born": "1900"}, "year of birth"),
        ({"born": "soon"}, "year of birth"),
        ({"height_cm": "15.2"}, "centimetres"),
        ({"height_cm": "nan"}, "centimetres"),
        ({"flags": ["no-such-flag"]}, "no-such-flag"),
        ({"colour": "bay"}, "colour"),
        ({"notes": "x" * 5000}, "5000 characters"),
    ],
)
def test_details_that_cannot_be_are_refused_and_nothing_is_kept(details: dict[str, object], says: str) -> None:
    store = FakeStore()
    app = fake_app(store)
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")

    with pytest.raises(Refused, match=says):
        add_horse(app, "Bramble", owner.id, yard.id, **details)

    assert store.rows.horses == {}


def test_a_horse_needs_a_name_an_owner_and_a_yard() -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")

    with pytest.raises(Refused, match="needs a name"):
        add_horse(app, "  ", owner.id, yard.id)
    with pytest.raises(NotFound, match="no owner “nobody”"):
        add_horse(app, "Bramble", "nobody", yard.id)
    with pytest.raises(NotFound, match="no yard “nowhere”"):
        add_horse(app, "Bramble", owner.id, "nowhere")


def test_an_edit_changes_only_what_is_given() -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")
    other = add_yard(app, "Elsewhere", isolation=True)
    flag = people(app).flags[0].value
    horse = add_horse(app, "Bramble", owner.id, yard.id, breed="Connemara")

    edited = edit_horse(app, horse.id, yard_id=other.id, flags=[flag, flag])

    assert (edited.name, edited.breed, edited.yard_id, edited.flags) == ("Bramble", "Connemara", other.id, (flag,))


def test_an_email_that_cannot_be_one_is_refused() -> None:
    with pytest.raises(Refused, match="e-mail"):
        add_owner(fake_app(), "Ann Example", email="ann at example")


def test_people_are_listed_by_name() -> None:
    app = fake_app()
    for name in ("zoe", "Ann", "Bea"):
        add_owner(app, name)

    assert [owner.name for owner in people(app).owners] == ["Ann", "Bea", "zoe"]
