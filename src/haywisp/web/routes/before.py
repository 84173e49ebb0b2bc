"""Before touching: today's questions, vital signs and scores, and what a tape tells."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import asking, measuring
from haywisp.usecases import readings as use_readings
from haywisp.usecases import said as said_use
from haywisp.web.forms import Form, text_of, texts_of
from haywisp.web.rendering import go_to
from haywisp.web.routes.visits import visit_page
from haywisp.web.routes.wiring import Wired

router = APIRouter(prefix="/visits/{visit_id}")


@router.post("/asked")
def keep_answers(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    yes, agreement = texts_of(form, "yes"), text_of(form, "agreement")
    try:
        asking.keep_answers(app, visit_id, yes, agreement)
    except HaywispError as error:
        return visit_page(app, visit_id, status=422, asked={"yes": yes, "agreement": agreement, "problem": str(error)})
    return go_to(request, f"/visits/{visit_id}#before")


@router.post("/readings")
def keep_reading(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    """A vital sign or a score, kept with the visit; what it means for the work is told above it."""
    filled = {name: text_of(form, name)[:80] for name in ("what", "value", "site", "side")}
    try:
        use_readings.keep_reading(app, visit_id, **filled)
    except HaywispError as error:
        return visit_page(app, visit_id, status=422, reading=filled | {"problem": str(error)})
    return go_to(request, f"/visits/{visit_id}#readings")


@router.get("/tape")
def tape(app: Wired, visit_id: str, girth: str = "", length: str = "") -> Response:
    """The weight by two readings, shown in its box; nothing is kept."""
    filled = {"girth": girth[:20], "length": length[:20], "problem": ""}
    try:
        return visit_page(app, visit_id, tape=filled | {"found": measuring.weight(girth, length)})
    except HaywispError as error:
        return visit_page(app, visit_id, status=422, tape=filled | {"problem": str(error)})


@router.post("/tape")
def keep_tape(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    """The same kept as a note of the visit, with its readings and its source."""
    girth, length = text_of(form, "girth"), text_of(form, "length")
    try:
        text = measuring.weight_note(girth, length)
    except HaywispError as error:
        filled = {"girth": girth[:20], "length": length[:20], "problem": str(error)}
        return visit_page(app, visit_id, status=422, tape=filled)
    said_use.add(app, visit_id, "note", {"text": text})
    return go_to(request, f"/visits/{visit_id}/said")
