"""The plan of a visit."""

from collections.abc import Mapping

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import App
from haywisp.usecases import plans as use
from haywisp.usecases import visits as visits_use
from haywisp.usecases.origins import origins
from haywisp.web.forms import whole_number
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/visits/{visit_id}/plan")
def plan(app: Wired, visit_id: str, minutes: str = "") -> Response:
    booked = whole_number(minutes, "The minutes booked") if minutes.strip() else None
    return plan_page(app, visit_id, booked)


def plan_page(
    app: App,
    visit_id: str,
    minutes: int | None = None,
    *,
    status: int = 200,
    vet: Mapping[str, object] | None = None,
) -> Response:
    """The plan; ``vet`` is a refused form of what the vet answered."""
    head = visits_use.visit_page(app, visit_id)
    view = use.plan_next(app, visit_id, minutes)
    return page("plan.html", status, head=head, view=view, vet=vet, origins=origins(app, view.verdict))
