"""A visit as a file of its own: saved from its page, and taken in on the page of the horses."""

import re
from urllib.parse import quote

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.datastructures import FormData, UploadFile

from haywisp.errors import HaywispError
from haywisp.usecases import Refused, exchanging
from haywisp.usecases import visits as visits_use
from haywisp.usecases.errors import AlreadyKept
from haywisp.usecases.listening import refuse_large
from haywisp.web.failures import status_of
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to, page, wants_piece
from haywisp.web.routes.horses import horses_page
from haywisp.web.routes.wiring import Wired

router = APIRouter(prefix="/visits")


@router.get("/{visit_id}/visit.json")
def save_visit(app: Wired, visit_id: str) -> Response:
    """The whole visit for another copy of Haywisp, under the name of its horse and its day."""
    head = visits_use.visit_page(app, visit_id)
    name = quote(re.sub(r"[^\w.-]+", "-", f"{head.horse.name}-{head.visit.day}").strip("-"))
    headers = {"Content-Disposition": f"attachment; filename*=UTF-8''{name}.json"}
    return Response(exchanging.export_visit(app, visit_id), media_type="application/json", headers=headers)


@router.post("")
def take_in_visit(request: Request, app: Wired, form: Form) -> Response:
    try:
        visit = exchanging.import_visit(app, document_of(form), another=bool(text_of(form, "another")))
    except HaywispError as error:
        refused = {"problem": str(error), "same": isinstance(error, AlreadyKept)}
        if wants_piece(request):
            return page("parts/not_taken_in.html", status_of(error), taken=refused)
        return horses_page(app, taken=refused, status=status_of(error))
    return go_to(request, f"/visits/{visit.id}")


def document_of(form: FormData) -> str:
    """The text of the file that was sent."""
    sent = form.get("file")
    if not isinstance(sent, UploadFile) or not sent.filename:
        raise Refused("There was no file. Choose one that was saved from the page of a visit.")
    data = sent.file.read()
    refuse_large(data, sent.filename)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(
            f"{sent.filename} can't be read: it is no text in UTF-8. "
            "Choose a file that was saved from the page of a visit."
        ) from None
