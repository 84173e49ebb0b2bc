"""Owners and yards."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import App
from haywisp.usecases import people as use
from haywisp.usecases.errors import AlreadyKept
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to, page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/people")
def people(app: Wired) -> Response:
    return people_page(app)


@router.post("/owners")
def add_owner(request: Request, app: Wired, form: Form) -> Response:
    filled = {name: text_of(form, name) for name in ("name", "phone", "email", "another")}
    try:
        use.add_owner(
            app, filled["name"], phone=filled["phone"], email=filled["email"], another=bool(filled["another"])
        )
    except AlreadyKept as error:
        return people_page(app, opened="owner", form=filled, problem=str(error), same=True)
    except HaywispError as error:
        return people_page(app, opened="owner", form=filled, problem=str(error))
    return go_to(request, "/people")


@router.post("/yards")
def add_yard(request: Request, app: Wired, form: Form) -> Response:
    filled = {name: text_of(form, name) for name in ("name", "address", "isolation", "another")}
    try:
        use.add_yard(
            app,
            filled["name"],
            address=filled["address"],
            isolation=bool(filled["isolation"]),
            another=bool(filled["another"]),
        )
    except AlreadyKept as error:
        return people_page(app, opened="yard", form=filled, problem=str(error), same=True)
    except HaywispError as error:
        return people_page(app, opened="yard", form=filled, problem=str(error))
    return go_to(request, "/people")


def people_page(
    app: App, *, opened: str = "", form: dict[str, str] | None = None, problem: str = "", same: bool = False
) -> Response:
    """Owners and yards; after a refusal the form that was sent is open with what was typed.

    ``same`` says that the name is kept already, and the form then asks whether another one is meant.
    """
    return page(
        "people.html",
        422 if problem else 200,
        people=use.people(app),
        opened=opened,
        form=form or {},
        problem=problem,
        same=same,
    )
