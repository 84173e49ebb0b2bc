"""A visit as a file: what no form would keep is not kept from a file either."""

import json
from collections.abc import Mapping
from copy import deepcopy

import pytest
from fakes import fake_app, heard_visit

from haywisp.exchange import BadFile
from haywisp.usecases.asking import keep_answers
from haywisp.usecases.exchanging import export_visit, import_visit
from haywisp.usecases.said import accept_all, said
from haywisp.usecases.today import today


def exported() -> dict[str, object]:
    app = fake_app()
    visit_id = heard_visit(app)
    accept_all(app, visit_id)
    keep_answers(app, visit_id, ["just-worked"])
    told: dict[str, object] = json.loads(export_visit(app, visit_id))
    return told


def changed(path: tuple[str | int, ...], value: object) -> str:
    told = deepcopy(exported())
    place: object = told
    for step in path[:-1]:
        place = place[step]  # type: ignore[index]
    assert isinstance(place, dict)
    place[path[-1]] = value
    return json.dumps(told)


def test_a_visit_goes_to_another_practice_and_is_the_same_there() -> None:
    app = fake_app()
    visit = import_visit(app, json.dumps(exported()))
    assert json.loads(export_visit(app, visit.id)) == exported()


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("entries", 1, "status"), "x", "entries 2, status should be one of proposed, accepted, corrected, rejected"),
        (("visit", "status"), "x", "visit, status should be one of planned, heard, reviewed, found “x”"),
        (("visit", "minutes"), -1, "visit: -1 minutes can't be booked: from 5 to 240"),
        (("visit", "day"), "0031-03-14", "visit: 0031-03-14 is too far from today"),
        (("horse", "name"), " ", "horse: The horse needs a name"),
        (("horse", "height_cm"), 1e19, "horse: The height “1e+19” should be in centimetres"),
        (("horse", "born"), -1, "horse: The year of birth “-1” should be a year"),
        (("horse", "flags"), ["x"], "horse: There is no standing flag “x”"),
        (("owner", "name"), "", "owner: The owner needs a name"),
        (("owner", "email"), "nowhere", "owner: “nowhere” can't be an e-mail address"),
        (("yard", "name"), "y" * 200, "yard: The yard's name is 200 characters long"),
        (("entries", 0, "part"), "x", "entries 1: “x” is no part of the record"),
        (("entries", 0, "body"), {}, "entries 1: "),
    ],
)
def test_what_no_form_would_keep_is_refused_with_its_place(
    path: tuple[str | int, ...], value: object, says: str
) -> None:
    app = fake_app()
    with pytest.raises(BadFile) as refusal:
        import_visit(app, changed(path, value))
    assert says in str(refusal.value)
    assert today(app).horses == 0


def test_an_unknown_red_flag_of_an_entry_is_refused() -> None:
    told = exported()
    entries = told["entries"]
    assert isinstance(entries, list)
    number, flag = next((at, entry) for at, entry in enumerate(entries, start=1) if entry["part"] == "flag")
    assert isinstance(flag, Mapping)
    with pytest.raises(BadFile, match=f"entries {number}: “hiccups” is no red flag that Haywisp knows"):
        import_visit(fake_app(), json.dumps(told).replace('"just-worked"', '"hiccups"'))


def test_names_come_with_single_spaces() -> None:
    app = fake_app()
    visit = import_visit(app, changed(("horse", "name"), "  Old   Bramble "))
    assert said(app, visit.id).horse.name == "Old Bramble"
