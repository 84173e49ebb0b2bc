"""A visit: opened, shown, and given its narration."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.datastructures import FormData, UploadFile

from haywisp.errors import HaywispError
from haywisp.usecases import App, Refused, recordings
from haywisp.usecases import visits as use
from haywisp.usecases.asking import ask_page
from haywisp.usecases.listening import LARGEST_FILE
from haywisp.usecases.origins import origins
from haywisp.usecases.readings import choices, readings
from haywisp.usecases.recordings import is_sound
from haywisp.web.failures import status_of
from haywisp.web.forms import Form, day_of, text_of, whole_number
from haywisp.web.rendering import go_to, page, wants_piece
from haywisp.web.routes.wiring import Wired

router = APIRouter()
PASTED_NAME = "pasted.txt"
HEADS = (("WEBVTT", "pasted.vtt"), ("{", "pasted.words.json"), ("[{", "pasted.words.json"))


@router.post("/horses/{horse_id}/visits")
def open_visit(request: Request, app: Wired, horse_id: str, form: Form) -> Response:
    minutes = whole_number(text_of(form, "minutes"), "The minutes booked")
    visit = use.open_visit(app, horse_id, day_of(text_of(form, "day")), minutes)
    return go_to(request, f"/visits/{visit.id}")


@router.get("/visits/{visit_id}")
def visit(app: Wired, visit_id: str) -> Response:
    return visit_page(app, visit_id)


@router.post("/visits/{visit_id}/narration")
def hear(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    try:
        file_name, data = narration_of(form)
        if is_sound(data):
            recordings.add_bytes(app, visit_id, file_name, data)
            return go_to(request, f"/visits/{visit_id}/record")
        heard = use.hear(app, visit_id, file_name, data, again=bool(text_of(form, "again")))
    except HaywispError as error:
        if wants_piece(request):
            return page("parts/message.html", status_of(error), sentence=str(error))
        pasted, again = text_of(form, "pasted"), bool(text_of(form, "again"))
        return visit_page(app, visit_id, status=status_of(error), problem=str(error), pasted=pasted, again=again)
    if not heard.problems:
        return go_to(request, f"/visits/{visit_id}/said")
    if not wants_piece(request):
        return page("heard.html", heard=heard)
    answer = page("parts/heard.html", heard=heard)
    answer.headers.update({"HX-Retarget": "[data-upload]", "HX-Reswap": "outerHTML"})
    return answer


def narration_of(form: FormData) -> tuple[str, bytes]:
    """The file that was sent or, where there is none, the text that was pasted under a name that tells its kind."""
    sent = form.get("file")
    if isinstance(sent, UploadFile) and sent.filename:
        return sent.filename, sent.file.read()
    pasted = text_of(form, "pasted")
    if not pasted:
        raise Refused(
            "There was no file and no text. Choose the transcript’s file, drop it in the box, or paste the text."
        )
    if "-->" in pasted and not pasted.startswith("WEBVTT"):
        return "pasted.srt", pasted.encode()
    return next((name for head, name in HEADS if pasted.startswith(head)), PASTED_NAME), pasted.encode()


def visit_page(
    app: App,
    visit_id: str,
    *,
    status: int = 200,
    problem: str = "",
    pasted: str = "",
    again: bool = False,
    asked: Mapping[str, object] | None = None,
    tape: Mapping[str, object] | None = None,
    vet: Mapping[str, object] | None = None,
    reading: Mapping[str, object] | None = None,
    override: Mapping[str, object] | None = None,
) -> Response:
    """The front page of a visit; after a refusal with what was pasted and why it was refused.

    ``asked`` is a refused form of today's questions, ``vet`` one of what the vet answered, ``override`` one of why
    work goes on, ``reading`` one of a vital sign or a score, and ``tape`` what was read from a tape with what it tells.
    """
    view = use.visit_page(app, visit_id)
    return page(
        "visit.html",
        status,
        view=view,
        visit=view.visit,
        file_name=view.file_name,
        limit=LARGEST_FILE,
        sound_piece=recordings.MOST_PIECE // 2,
        sound_most=recordings.MOST_BYTES,
        problem=problem,
        pasted=pasted,
        again=again,
        today=app.clock().date(),
        ask=ask_page(app, visit_id),
        asked=asked,
        tape=tape,
        vet=vet,
        reading=reading,
        readings=readings(app, visit_id),
        reading_choices=choices(app.tables()),
        override=override,
        origins=origins(app, view.at_start, view.verdict),
    )
