"""Forms for horses, owners, yards and visits: what they keep, and what they say when they can't."""

import re

import httpx
import pytest
from web_practice import NOW, a_horse

from haywisp.usecases import App
from haywisp.usecases.horses import horse_page, list_horses
from haywisp.usecases.people import edit_horse, people


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
        ({"microchip": "1234"}, "microchip number"),
        ({"ueln": "GB1234"}, "life number"),
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


def test_a_refused_horse_keeps_no_owner_and_no_yard(app: App, client: httpx.Client) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm", "born": "1066"}
    shown = client.post("/horses", data=form).text
    assert 'value="Ann Example"' in shown and 'value="Example Farm"' in shown
    assert people(app).owners == () and people(app).yards == ()

    client.post("/horses", data=form | {"born": "about 2020"})
    assert [owner.name for owner in people(app).owners] == ["Ann Example"]


NEW = {"name": "Thistle", "owner_name": "ann  example", "yard_name": "Example Farm"}


def test_an_owner_and_a_yard_of_a_known_name_are_offered(app: App, client: httpx.Client) -> None:
    a_horse(app)
    known = people(app)

    answer = client.post("/horses", data=NEW)

    assert answer.status_code == 422
    assert "There is an owner called “ann example” already: Ann Example." in " ".join(answer.text.split())
    assert [row.name for row in list_horses(app)] == ["Bramble"]
    assert f'name="owner_same" value="{known.owners[0].id}" checked' in answer.text
    fields = hidden(answer.text) | {"owner_same": known.owners[0].id, "yard_same": known.yards[0].id}
    assert client.post("/horses", data=NEW | fields).status_code == 303
    assert len(people(app).owners) == len(people(app).yards) == 1
    assert [row.owner.name for row in list_horses(app)] == ["Ann Example", "Ann Example"]


def test_another_owner_and_yard_of_the_same_name(app: App, client: httpx.Client) -> None:
    a_horse(app)
    fields = hidden(client.post("/horses", data=NEW).text) | {"owner_same": "new", "yard_same": "new"}
    client.post("/horses", data=NEW | fields)
    assert len(people(app).owners) == len(people(app).yards) == 2


def test_what_was_answered_for_one_name_does_not_hold_for_the_next(app: App, client: httpx.Client) -> None:
    a_horse(app)
    known = people(app)
    fields = hidden(client.post("/horses", data=NEW).text)
    fields |= {"owner_same": known.owners[0].id, "yard_same": known.yards[0].id}
    client.post("/horses", data=NEW | fields | {"owner_name": "Bea Example"})
    assert [row.owner.name for row in list_horses(app)] == ["Ann Example", "Bea Example"]


def test_a_horse_of_a_known_name_is_offered_first(app: App, client: httpx.Client) -> None:
    horse_id = a_horse(app)
    form = {"name": "bramble", "owner_name": "Bea Example", "yard_name": "Far Farm"}
    shown = client.post("/horses", data=form).text
    assert f'href="/horses/{horse_id}">Go to Bramble (Ann Example)</a>' in shown
    assert len(people(app).owners) == 1

    client.post("/horses", data=form | hidden(shown) | {"horse_same": "new"})
    assert [row.owner.name for row in list_horses(app)] == ["Ann Example", "Bea Example"]


def test_saving_a_horse_as_it_is_asks_nothing(app: App, client: httpx.Client) -> None:
    a_horse(app)
    horse_id = a_horse(app)
    known = horse_page(app, horse_id)
    form = {"name": "Bramble", "owner_id": known.owner.id, "yard_id": known.yard.id}
    assert client.post(f"/horses/{horse_id}", data=form).status_code == 303


@pytest.mark.parametrize("kind", ["owner", "yard"])
def test_a_known_name_on_the_page_of_people(app: App, client: httpx.Client, kind: str) -> None:
    def kept() -> int:
        return len(people(app).owners) + len(people(app).yards)

    client.post(f"/{kind}s", data={"name": "Example"})
    shown = client.post(f"/{kind}s", data={"name": "example "})
    assert shown.status_code == 422 and f"{kind} called “example” already" in shown.text
    assert kept() == 1

    client.post(f"/{kind}s", data={"name": "example", "another": "yes"})
    assert kept() == 2


@pytest.mark.parametrize("typed", ["15.2hh", "15.2 hands", "15 hands 2", "157.5"])
def test_a_height_is_shown_both_ways(app: App, client: httpx.Client, typed: str) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm", "height_cm": typed}
    page = client.get(client.post("/horses", data=form).headers["location"]).text
    assert "157.5 cm (15.2 hh)" in page


def test_only_what_lasts_is_asked_of_the_horse(app: App, client: httpx.Client) -> None:
    page = client.get("/horses/new").text
    flags = app.tables().flags
    for flag, row in flags.items():
        assert (f'name="flags" value="{flag}"' in page) is row.lasting


def test_a_flag_of_old_is_not_lost_by_a_change(app: App, client: httpx.Client) -> None:
    known = horse_page(app, a_horse(app))
    edit_horse(app, known.horse.id, flags=["fever"])
    page = client.get(f"/horses/{known.horse.id}/edit").text
    assert 'name="flags" value="fever" checked' in page


def hidden(page: str) -> dict[str, str]:
    """The hidden fields of a form."""
    return dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', page))


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


def test_what_the_owner_tells_is_kept_and_shown(app: App, client: httpx.Client) -> None:
    form = {"name": "Bramble", "owner_name": "Ann Example", "yard_name": "Example Farm"}
    told = {
        "ueln": "250001 00155928m",
        "microchip": "276 098 101 234 567",
        "medicines": "nothing since May",
        "vet": "Hill",
    }
    client.post("/horses", data=form | told)
    (row,) = list_horses(app)

    horse = horse_page(app, row.id).horse
    assert (horse.ueln, horse.microchip) == ("25000100155928M", "276098101234567")
    shown = client.get(f"/horses/{row.id}").text
    assert "250001 00155928M" in shown and "276 098 101 234 567" in shown and "nothing since May" in shown
    assert 'value="276098101234567"' in client.get(f"/horses/{row.id}/edit").text
