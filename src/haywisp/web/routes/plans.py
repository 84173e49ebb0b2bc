"""The plan for the next visit."""

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import plans as use
from haywisp.web.forms import whole_number
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/visits/{visit_id}/plan")
def plan(app: Wired, visit_id: str, minutes: str = "") -> Response:
    booked = whole_number(minutes, "The minutes booked") if minutes.strip() else None
    return page("plan.html", view=use.plan_next(app, visit_id, booked))
