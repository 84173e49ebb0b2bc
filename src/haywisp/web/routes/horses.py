"""Horses: the list, one horse's story, and the form to add or change one."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import App, Refused
from haywisp.usecases import horses as use
from haywisp.usecases import people as people_use
from haywisp.web.forms import HORSE_TEXTS, Form, horse_texts
from haywisp.web.rendering import go_to, page, wants_piece
from haywisp.web.routes.wiring import Wired

router = APIRouter(prefix="/horses")
EMPTY_FORM: dict[str, object] = dict.fromkeys(
    (*HORSE_TEXTS, "owner_id", "owner_name", "owner_phone", "yard_id", "yard_name"), ""
) | {"flags": ()}
LONGEST_SEARCH = 100
ROWS = 60


@router.get("")
def horses(request: Request, app: Wired, q: str = "", after: str = "") -> Response:
    text = q.strip()[:LONGEST_SEARCH]
    rows = use.list_horses(app, text, after=after, limit=ROWS + 1)
    template = "parts/horse_list.html" if wants_piece(request) else "horses.html"
    return page(template, horses=rows[:ROWS], text=text, after=after, more=len(rows) > ROWS)


@router.get("/new")
def new_horse(app: Wired) -> Response:
    return horse_form(app, EMPTY_FORM)


@router.post("")
def add_horse(request: Request, app: Wired, form: Form) -> Response:
    filled = horse_texts(form)
    try:
        settle_people(app, filled)
        horse = people_use.add_horse(
            app, str(filled["name"]), str(filled["owner_id"]), str(filled["yard_id"]), **details(filled)
        )
    except HaywispError as error:
        return horse_form(app, filled, problem=str(error))
    return go_to(request, f"/horses/{horse.id}")


@router.get("/{horse_id}")
def horse(app: Wired, horse_id: str) -> Response:
    view = use.horse_page(app, horse_id)
    compared = [strand for strand in view.strands if len(strand.values) > 1]
    seen_once = [strand for strand in view.strands if len(strand.values) == 1]
    return page("horse.html", view=view, compared=compared, seen_once=seen_once, today=app.clock().date())


@router.get("/{horse_id}/edit")
def edit_horse(app: Wired, horse_id: str) -> Response:
    known = use.horse_page(app, horse_id).horse
    shown = {name: getattr(known, name) for name in (*HORSE_TEXTS, "owner_id", "yard_id", "flags")}
    shown["born"] = "" if known.born is None else known.born
    shown["height_cm"] = "" if known.height_cm is None else f"{known.height_cm:g}"
    return horse_form(app, EMPTY_FORM | shown, horse_id=horse_id)


@router.post("/{horse_id}")
def save_horse(request: Request, app: Wired, horse_id: str, form: Form) -> Response:
    use.horse_page(app, horse_id)
    filled = horse_texts(form)
    try:
        settle_people(app, filled)
        moved = {key: str(filled[key]) for key in ("name", "owner_id", "yard_id")}
        people_use.edit_horse(app, horse_id, **moved, **details(filled))
    except HaywispError as error:
        return horse_form(app, filled, horse_id=horse_id, problem=str(error))
    return go_to(request, f"/horses/{horse_id}")


def details(filled: dict[str, object]) -> dict[str, object]:
    """The fields of the form that a horse has besides its name, owner and yard."""
    return {key: filled[key] for key in (*HORSE_TEXTS, "flags") if key != "name"}


def settle_people(app: App, filled: dict[str, object]) -> None:
    """Add the owner and the yard that were typed in, and choose them.

    A form that is refused afterwards then shows them as chosen, so that sending it again doesn't add them twice.
    """
    if not filled["name"]:
        raise Refused("The horse needs a name.")
    for kind in ("owner", "yard"):
        if not filled[f"{kind}_name"] and not filled[f"{kind}_id"]:
            raise Refused(f"Choose the {kind}, or write the name of a new one.")
    if filled["owner_name"]:
        owner = people_use.add_owner(app, str(filled["owner_name"]), phone=str(filled["owner_phone"]))
        filled.update(owner_id=owner.id, owner_name="", owner_phone="")
    if filled["yard_name"]:
        yard = people_use.add_yard(app, str(filled["yard_name"]))
        filled.update(yard_id=yard.id, yard_name="")


def horse_form(app: App, filled: dict[str, object], *, horse_id: str = "", problem: str = "") -> Response:
    """The form with what was typed in it, and what is wrong with it."""
    return page(
        "horse_form.html",
        422 if problem else 200,
        heading="Change this horse" if horse_id else "Add a horse",
        action=f"/horses/{horse_id}" if horse_id else "/horses",
        form=filled,
        horse_id=horse_id,
        people=people_use.people(app),
        problem=problem,
    )
