"""The plan: of a visit that was heard for the next one, of a visit still to come for itself."""

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import plans as use
from haywisp.usecases import visits as visits_use
from haywisp.web.forms import whole_number
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired
from haywisp.web.said_page import anything_in

router = APIRouter()


@router.get("/visits/{visit_id}/plan")
def plan(app: Wired, visit_id: str, minutes: str = "") -> Response:
    booked = whole_number(minutes, "The minutes booked") if minutes.strip() else None
    head = visits_use.visit_page(app, visit_id)
    if head.previous is None or anything_in(head.counts):
        return page("plan.html", head=head, view=use.plan_next(app, visit_id, booked), made_from=None)
    # A visit that nothing is recorded of yet is the next visit of the one before: its plan is what is wanted now.
    view = use.plan_next(app, head.previous.id, booked or head.visit.minutes)
    return page("plan.html", head=head, view=view, made_from=head.previous)
