"""Owners and yards."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import App
from haywisp.usecases import people as use
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to, page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/people")
def people(app: Wired) -> Response:
    return people_page(app)


@router.post("/owners")
def add_owner(request: Request, app: Wired, form: Form) -> Response:
    filled = {name: text_of(form, name) for name in ("name", "phone", "email")}
    try:
        use.add_owner(app, filled["name"], phone=filled["phone"], email=filled["email"])
    except HaywispError as error:
        return people_page(app, opened="owner", form=filled, problem=str(error))
    return go_to(request, "/people")


@router.post("/yards")
def add_yard(request: Request, app: Wired, form: Form) -> Response:
    filled = {name: text_of(form, name) for name in ("name", "address", "isolation")}
    try:
        use.add_yard(app, filled["name"], address=filled["address"], isolation=bool(filled["isolation"]))
    except HaywispError as error:
        return people_page(app, opened="yard", form=filled, problem=str(error))
    return go_to(request, "/people")


def people_page(app: App, *, opened: str = "", form: dict[str, str] | None = None, problem: str = "") -> Response:
    """Owners and yards; after a refusal the form that was sent is open with what was typed."""
    return page(
        "people.html", 422 if problem else 200, people=use.people(app), opened=opened, form=form or {}, problem=problem
    )
