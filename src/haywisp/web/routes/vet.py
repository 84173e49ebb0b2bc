"""What the vet answered: a form on the pages of a visit and its plan."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.usecases import Refused
from haywisp.usecases import vet as use
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to
from haywisp.web.routes.wiring import Wired

router = APIRouter()
AGREES = {"yes": True, "wait": False}


@router.post("/visits/{visit_id}/vet")
def vet_said(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    agrees = AGREES.get(text_of(form, "agrees"))
    if agrees is None:
        raise Refused("Say whether the vet agrees to bodywork or has it wait; nothing was saved.")
    use.vet_said(app, visit_id, text_of(form, "text"), agrees=agrees)
    plan = "/plan" if text_of(form, "back") == "plan" else ""
    return go_to(request, f"/visits/{visit_id}{plan}#vet")
