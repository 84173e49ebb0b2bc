"""What the vet answered, and why work goes on before the answer: forms on the pages of a visit and its plan."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import Refused, overriding
from haywisp.usecases import vet as use
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to
from haywisp.web.routes.plans import plan_page
from haywisp.web.routes.visits import visit_page
from haywisp.web.routes.wiring import Wired

router = APIRouter()
AGREES = {"yes": True, "wait": False}


@router.post("/visits/{visit_id}/vet")
def vet_said(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    text, chosen, planning = text_of(form, "text"), text_of(form, "agrees"), text_of(form, "back") == "plan"
    try:
        agrees = AGREES.get(chosen)
        if agrees is None:
            raise Refused("Say whether the vet agrees to bodywork or has it wait; nothing was saved.")
        use.vet_said(app, visit_id, text, agrees=agrees)
    except HaywispError as error:
        filled = {"text": text, "agrees": chosen, "problem": str(error)}
        shown = plan_page if planning else visit_page
        return shown(app, visit_id, status=422, vet=filled)
    return go_to(request, f"/visits/{visit_id}{'/plan' if planning else ''}#vet")


@router.post("/visits/{visit_id}/override")
def work_against(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    reason = text_of(form, "reason")
    try:
        overriding.work_against(app, visit_id, reason)
    except HaywispError as error:
        return visit_page(app, visit_id, status=422, override={"reason": reason, "problem": str(error)})
    return go_to(request, f"/visits/{visit_id}")
