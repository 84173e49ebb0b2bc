"""The day at a glance, and the visits of any other day."""

from datetime import date, timedelta

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import rounds
from haywisp.usecases import today as use
from haywisp.web.forms import day_of
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired

router = APIRouter()


@router.get("/")
def today(app: Wired, day: str = "") -> Response:
    now = app.clock().date()
    asked = day_of(day.strip()) if day.strip() else now
    before = asked - timedelta(days=1) if asked > date.min else None
    after = asked + timedelta(days=1) if asked < date.max else None
    if asked != now:
        return page("day.html", round=rounds.round_for(app, asked), today=now, before=before, after=after)
    view = use.today(app)
    return page("today.html", view=view, before=before, after=after)
