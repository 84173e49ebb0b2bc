"""Horses: the list, one horse's story, and the form to add or change one."""

from collections.abc import Mapping, Sequence

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import App, Refused
from haywisp.usecases import horses as use
from haywisp.usecases import people as people_use
from haywisp.usecases.errors import AlreadyKept
from haywisp.usecases.origins import origins
from haywisp.usecases.people import Whose
from haywisp.usecases.views import Namesakes
from haywisp.web.forms import HORSE_TEXTS, WHOSE_TEXTS, Form, horse_texts
from haywisp.web.rendering import go_to, page, wants_piece
from haywisp.web.routes.wiring import Wired

router = APIRouter(prefix="/horses")
EMPTY_FORM: dict[str, object] = dict.fromkeys((*HORSE_TEXTS, *WHOSE_TEXTS), "") | {"flags": ()}
# What a form says where another owner or yard of a name that is kept already is meant.
NEW = "new"
# What the owner tells of the horse: the field, its label, and what to ask.
TOLD_FIELDS = (
    ("history", "History", "illness, injuries, operations"),
    ("medicines", "Medicines", "what is given, and until when"),
    ("tack", "Tack", "saddle and bridle, last fitted"),
    ("teeth", "Teeth", "last done, and what was found"),
    ("feet", "Feet", "shod or bare, last done"),
    ("insurance", "Insurance", "with whom, policy number"),
)
LONGEST_SEARCH = 100
ROWS = 60


@router.get("")
def horses(request: Request, app: Wired, q: str = "", after: str = "") -> Response:
    return horses_page(app, q, after, template="parts/horse_list.html" if wants_piece(request) else "horses.html")


def horses_page(
    app: App,
    search: str = "",
    after: str = "",
    *,
    template: str = "horses.html",
    status: int = 200,
    taken: Mapping[str, object] | None = None,
) -> Response:
    """The list of horses; ``taken`` is why the file of a visit was refused."""
    text = search.strip()[:LONGEST_SEARCH]
    rows = use.list_horses(app, text, after=after, limit=ROWS + 1)
    return page(template, status, horses=rows[:ROWS], text=text, after=after, more=len(rows) > ROWS, taken=taken)


@router.get("/new")
def new_horse(app: Wired) -> Response:
    return horse_form(app, EMPTY_FORM)


@router.post("")
def add_horse(request: Request, app: Wired, form: Form) -> Response:
    return keep_horse(request, app, horse_texts(form))


@router.get("/{horse_id}")
def horse(app: Wired, horse_id: str) -> Response:
    view = use.horse_page(app, horse_id)
    compared = [strand for strand in view.strands if len(strand.values) > 1]
    seen_once = [strand for strand in view.strands if len(strand.values) == 1]
    return page(
        "horse.html",
        view=view,
        compared=compared,
        seen_once=seen_once,
        today=app.clock().date(),
        origins=origins(app, view.verdict),
    )


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
    return keep_horse(request, app, horse_texts(form), horse_id)


def keep_horse(request: Request, app: App, filled: dict[str, object], horse_id: str = "") -> Response:
    """Keep the horse of a form; a refused one is shown again as it was filled in, and nothing of it is kept."""
    try:
        horse = people_use.keep_horse(
            app,
            str(filled["name"]),
            whose(filled, "owner"),
            whose(filled, "yard"),
            details(filled),
            horse_id=horse_id,
            another=bool(filled["horse_same"]) and filled["horse_same_name"] == filled["name"],
        )
    except AlreadyKept as error:
        return horse_form(app, filled, horse_id=horse_id, problem=str(error), same=error.namesakes)
    except HaywispError as error:
        return horse_form(app, filled, horse_id=horse_id, problem=str(error))
    return go_to(request, f"/horses/{horse.id}")


def details(filled: dict[str, object]) -> dict[str, object]:
    """The fields of the form that a horse has besides its name, owner and yard."""
    return {key: filled[key] for key in (*HORSE_TEXTS, "flags") if key != "name"}


def whose(filled: dict[str, object], kind: str) -> Whose:
    """The owner or the yard that the form names.

    Where the name was found to be kept already, the form asked which is meant; that answer counts as long as the name
    is still the same.
    """
    name, same = str(filled[f"{kind}_name"]), str(filled[f"{kind}_same"])
    if name != filled[f"{kind}_same_name"]:
        same = ""
    if same and same != NEW:
        return Whose(same)
    if name:
        return Whose(name=name, phone=str(filled.get(f"{kind}_phone", "")), another=same == NEW)
    if not filled[f"{kind}_id"] and filled["name"]:
        raise Refused(f"Choose the {kind}, or write the name of a new one.")
    return Whose(str(filled[f"{kind}_id"]))


def horse_form(
    app: App,
    filled: dict[str, object],
    *,
    horse_id: str = "",
    problem: str = "",
    same: Sequence[Namesakes] = (),
) -> Response:
    """The form with what was typed in it, what is wrong with it, and what is kept already under its names."""
    flags = filled["flags"]
    return page(
        "horse_form.html",
        422 if problem else 200,
        heading="Change this horse" if horse_id else "Add a horse",
        action=f"/horses/{horse_id}" if horse_id else "/horses",
        form=filled,
        horse_id=horse_id,
        people=people_use.people(app, flags if isinstance(flags, tuple) else ()),
        problem=problem,
        same={one.what: one for one in same},
        new=NEW,
        told_fields=TOLD_FIELDS,
    )
