"""The owner's report, as a page and as a PDF."""

import re
from urllib.parse import quote

from fastapi import APIRouter
from fastapi.responses import Response

from haywisp.usecases import NothingReviewed
from haywisp.usecases import reports as use
from haywisp.usecases import visits as visits_use
from haywisp.web.rendering import page
from haywisp.web.routes.wiring import Wired
from haywisp.web.security import PDF_POLICY

router = APIRouter()


@router.get("/visits/{visit_id}/report")
def report(app: Wired, visit_id: str) -> Response:
    view = visits_use.visit_page(app, visit_id)
    try:
        return page("report.html", view=view, report=use.owner_report(app, visit_id), nothing="")
    except NothingReviewed as refused:
        return page("report.html", view=view, report=None, nothing=str(refused))


@router.get("/visits/{visit_id}/report.pdf")
def report_pdf(app: Wired, visit_id: str) -> Response:
    report = use.owner_report(app, visit_id)
    name = re.sub(r"[^\w.-]+", "-", f"{report.horse}-{report.day}").strip("-")
    headers = {
        "Content-Disposition": f"inline; filename*=UTF-8''{quote(name)}.pdf",
        "Content-Security-Policy": PDF_POLICY,
    }
    return Response(use.owner_report_pdf(app, visit_id), media_type="application/pdf", headers=headers)
