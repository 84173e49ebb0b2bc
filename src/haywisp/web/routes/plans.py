"""The plan of a visit."""

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import plans as use
from haywisp.usecases import visits as visits_use
from haywisp.web.forms import whole_number
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/visits/{visit_id}/plan")
def plan(app: Wired, visit_id: str, minutes: str = "") -> Response:
    booked = whole_number(minutes, "The minutes booked") if minutes.strip() else None
    head = visits_use.visit_page(app, visit_id)
    return page("plan.html", head=head, view=use.plan_next(app, visit_id, booked))
