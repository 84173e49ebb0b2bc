"""Forms for horses, owners, yards and visits: what they keep, and what they say when they can't."""

import httpx
import pytest
from web_practice import NOW, a_horse

from haywisp.usecases import App
from haywisp.usecases.horses import horse_page, list_horses
from haywisp.usecases.people import people


def test_a_horse_with_a_new_owner_and_a_new_yard(app: App, client: httpx.Client) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm", "born": "2020", "breed": "cob"}

    answer = client.post("/horses", data=form)

    (row,) = list_horses(app)
    assert (answer.status_code, answer.headers["location"]) == (303, f"/horses/{row.id}")
    assert (row.name, row.owner.name, row.yard.name, row.breed) == ("Bramble", "Ann Example", "Example Farm", "cob")


def test_a_horse_of_a_known_owner(app: App, client: httpx.Client) -> None:
    a_horse(app)
    known = people(app)

    client.post("/horses", data={"name": "Thistle", "owner_id": known.owners[0].id, "yard_id": known.yards[0].id})

    assert [row.name for row in list_horses(app)] == ["Bramble", "Thistle"]
    assert len(people(app).owners) == 1


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"name": " "}, "needs a name"),
        ({"owner_name": ""}, "Choose the owner"),
        ({"yard_name": ""}, "Choose the yard"),
        ({"born": "1066"}, "year of birth"),
        ({"height_cm": "tall"}, "in centimetres"),
    ],
)
def test_a_refused_horse_keeps_what_was_typed(
    app: App, client: httpx.Client, changed: dict[str, str], words: str
) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm", "notes": "bites"} | changed

    answer = client.post("/horses", data=form)

    assert answer.status_code == 422
    assert words in answer.text
    assert ">bites</textarea>" in answer.text
    assert list_horses(app) == ()


def test_sending_a_refused_horse_again_adds_its_owner_once(app: App, client: httpx.Client) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm", "born": "1066"}
    client.post("/horses", data=form)
    owner, yard = people(app).owners[0].id, people(app).yards[0].id

    shown = client.post("/horses", data=form | {"owner_id": owner, "owner_name": "", "yard_id": yard, "yard_name": ""})

    assert f'value="{owner}" selected' in shown.text
    assert len(people(app).owners) == 1


def test_a_horse_can_be_changed(app: App, client: httpx.Client) -> None:
    horse_id = a_horse(app)
    known = horse_page(app, horse_id)
    form = {"name": "Bramble II", "owner_id": known.owner.id, "yard_id": known.yard.id, "height_cm": "148,5"}

    assert client.post(f"/horses/{horse_id}", data=form).status_code == 303

    assert horse_page(app, horse_id).horse.name == "Bramble II"
    assert 'value="148.5"' in client.get(f"/horses/{horse_id}/edit").text


def test_changing_a_horse_that_is_not_there(client: httpx.Client) -> None:
    assert client.post("/horses/nobody", data={"name": "Bramble"}).status_code == 404


def test_owners_and_yards_are_added(app: App, client: httpx.Client) -> None:
    client.post("/owners", data={"name": "Ann Example", "phone": "0123", "email": "ann@example.org"})
    client.post("/yards", data={"name": "Far Farm", "address": "Long Lane", "isolation": "yes"})

    known = people(app)
    assert [(one.name, one.phone) for one in known.owners] == [("Ann Example", "0123")]
    assert [(one.name, one.isolation) for one in known.yards] == [("Far Farm", True)]


def test_a_refused_owner_keeps_what_was_typed(app: App, client: httpx.Client) -> None:
    answer = client.post("/owners", data={"name": "Ann Example", "email": "nowhere"})
    assert answer.status_code == 422
    assert "can&#39;t be an e-mail address" in answer.text
    assert 'value="Ann Example"' in answer.text
    assert people(app).owners == ()


def test_a_refused_yard_opens_its_form_again(client: httpx.Client) -> None:
    answer = client.post("/yards", data={"name": "", "address": "Long Lane"})
    assert answer.status_code == 422
    assert "The yard needs a name" in answer.text
    assert "Long Lane</textarea>" in answer.text


def test_a_visit_is_opened(app: App, client: httpx.Client) -> None:
    horse_id = a_horse(app)
    answer = client.post(f"/horses/{horse_id}/visits", data={"day": NOW.date().isoformat(), "minutes": "45"})
    (visit,) = horse_page(app, horse_id).visits
    assert answer.headers["location"] == f"/visits/{visit.id}"
    assert (visit.day, visit.minutes) == (NOW.date(), 45)


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ({"day": "someday", "minutes": "45"}, "is no day"),
        ({"day": "2031-03-14", "minutes": "long"}, "whole number"),
        ({"day": "2031-03-14", "minutes": "1"}, "1 minutes"),
        ({}, "whole number"),
    ],
)
def test_a_visit_that_can_not_be_opened(app: App, client: httpx.Client, form: dict[str, str], words: str) -> None:
    horse_id = a_horse(app)
    answer = client.post(f"/horses/{horse_id}/visits", data=form)
    assert answer.status_code == 422
    assert words in answer.text
    assert horse_page(app, horse_id).visits == ()
