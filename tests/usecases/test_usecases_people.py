"""Owners, yards and horses: kept as given, refused with a sentence when they can't be."""

import pytest
from fakes import FakeStore, fake_app

from haywisp.usecases import NotFound, Refused
from haywisp.usecases.errors import AlreadyKept
from haywisp.usecases.people import Whose, add_horse, add_owner, add_yard, edit_horse, keep_horse, people


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
        ({"height_cm": "15.2"}, "Then write 15.2 hh"),
        ({"height_cm": "15.4 hh"}, "hands and inches"),
        ({"height_cm": "25 hands"}, "from 50 to 220"),
        ({"height_cm": "nan"}, "centimetres"),
        ({"born": "about 1066"}, "from 1966 to 2031, with “about” before it"),
        ({"born": "٢٠٢٠"}, "year of birth"),
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


@pytest.mark.parametrize(
    ("typed", "cm"), [("15.2hh", 157.5), ("14 hands 2", 147.3), ("157", 157), ("157,5 cm", 157.5), ("1.57 m", 157)]
)
def test_a_height_in_any_measure(typed: str, cm: float) -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")
    assert add_horse(app, "Bramble", owner.id, yard.id, height_cm=typed).height_cm == cm


@pytest.mark.parametrize("typed", ["about 2012", "c. 2012", "approx. 2012", "~2012", "2012?", "Circa 2012"])
def test_a_birth_that_is_about_known(typed: str) -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")
    horse = add_horse(app, "Bramble", owner.id, yard.id, born=typed, notes="bites")
    assert (horse.born, horse.notes) == (2012, "bites\nBorn about 2012.")
    assert edit_horse(app, horse.id, born=typed).notes == horse.notes


def test_nothing_of_a_refused_horse_is_kept() -> None:
    store = FakeStore()
    app = fake_app(store)
    with pytest.raises(NotFound, match="no yard “nowhere”"):
        keep_horse(app, "Bramble", Whose(name="Ann Example"), Whose("nowhere"), {})
    assert store.rows.owners == store.rows.horses == {}


def test_names_that_are_kept_already_are_told_all_at_once() -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example", phone="0123"), add_yard(app, "Example Farm")
    horse = add_horse(app, "Bramble", owner.id, yard.id)

    with pytest.raises(AlreadyKept, match="Ann Example \\(0123\\)") as refused:
        keep_horse(app, " BRAMBLE", Whose(name="ann example"), Whose(name="example  farm"), {})

    assert [(one.what, one.found[0].id) for one in refused.value.namesakes] == [
        ("horse", horse.id),
        ("owner", owner.id),
        ("yard", yard.id),
    ]


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
