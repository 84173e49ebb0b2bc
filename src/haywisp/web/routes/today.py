"""The day at a glance."""

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import today as use
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/")
def today(app: Wired) -> Response:
    view = use.today(app)
    waiting = {row.id for row in view.waiting}
    return page("today.html", view=view, recent=[row for row in view.recent if row.id not in waiting])
