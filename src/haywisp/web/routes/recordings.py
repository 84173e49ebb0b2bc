"""Recordings: made on the page of the visit, sent piece by piece, heard, listened to, deleted."""

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import FileResponse, JSONResponse, Response

from haywisp.usecases import App, NotFound, in_record
from haywisp.usecases import recordings as use
from haywisp.usecases.visits import visit_page
from haywisp.web.forms import Form, text_of, whole_number
from haywisp.web.rendering import go_to, page, wants_piece
from haywisp.web.routes.wiring import Wired

router = APIRouter()
# Only this page may use the microphone.
MICROPHONE = "camera=(), geolocation=(), microphone=(self)"
TYPES = {"webm": "audio/webm", "m4a": "audio/mp4", "mp4": "audio/mp4", "mp3": "audio/mpeg", "wav": "audio/wav"}
TYPES |= {"ogg": "audio/ogg", "oga": "audio/ogg", "opus": "audio/ogg", "flac": "audio/flac", "aac": "audio/aac"}


@router.get("/visits/{visit_id}/record")
def record(app: Wired, visit_id: str) -> Response:
    return record_page(app, visit_id)


@router.get("/visits/{visit_id}/recordings")
def listed(request: Request, app: Wired, visit_id: str) -> Response:
    if not wants_piece(request):
        return record_page(app, visit_id)
    return page("parts/recordings.html", **list_values(app, visit_id))


@router.post("/visits/{visit_id}/recordings")
def begin(app: Wired, visit_id: str, form: Form) -> Response:
    name = text_of(form, "name")
    kind = name.rpartition(".")[2].lower()[:8] if "." in name else use.form_of(text_of(form, "mime"))
    made = use.begin(app, text_of(form, "id"), visit_id, kind, name)
    return told(app, made.id)


@router.put("/recordings/{recording_id}/pieces/{number}")
async def put(
    request: Request, app: Wired, recording_id: str, number: int, mark: Annotated[str, Query(max_length=64)]
) -> Response:
    from starlette.concurrency import run_in_threadpool

    data = await request.body()
    await run_in_threadpool(use.put, app, recording_id, number, mark, data)
    return Response(status_code=204)


@router.get("/recordings/{recording_id}/pieces")
def pieces(app: Wired, recording_id: str) -> Response:
    return told(app, recording_id)


@router.post("/recordings/{recording_id}/finish")
def finish(request: Request, app: Wired, recording_id: str, form: Form) -> Response:
    count = text_of(form, "count")
    seconds = text_of(form, "seconds")
    known = use.finish(
        app,
        recording_id,
        whole_number(count, "The number of pieces") if count else None,
        float(whole_number(seconds, "The length in seconds")) if seconds else 0.0,
    )
    if text_of(form, "told"):
        return told(app, known.id)
    return changed(request, app, known.visit_id)


@router.post("/recordings/{recording_id}/hear")
def ask(request: Request, app: Wired, recording_id: str) -> Response:
    return changed(request, app, use.ask(app, recording_id).visit_id)


@router.post("/recordings/{recording_id}/stop")
def stop(request: Request, app: Wired, recording_id: str) -> Response:
    return changed(request, app, use.stop(app, recording_id).visit_id)


@router.post("/recordings/{recording_id}/use")
def put_in_record(request: Request, app: Wired, recording_id: str) -> Response:
    heard = in_record.put_in_record(app, recording_id)
    return go_to(request, f"/visits/{heard.visit.id}/said")


@router.get("/recordings/{recording_id}/delete")
def ask_to_delete(app: Wired, recording_id: str) -> Response:
    one = use.row(app, recording_id)
    return page("delete_recording.html", one=one, view=visit_page(app, one.visit_id))


@router.post("/recordings/{recording_id}/delete")
def delete(request: Request, app: Wired, recording_id: str) -> Response:
    return go_to(request, f"/visits/{use.delete(app, recording_id).visit_id}/record")


@router.get("/recordings/{recording_id}/sound")
def sound(app: Wired, recording_id: str) -> Response:
    use.row(app, recording_id)
    path = use.shelf_of(app).playing(recording_id)
    if path is None:
        raise NotFound("sound", recording_id, "It has not arrived whole, or its folder was moved.")
    kind = TYPES.get(path.suffix.removeprefix("."), "application/octet-stream")
    # A player asks for it in stretches: it may keep those, but asks whether they still are as they were.
    return FileResponse(path, media_type=kind, headers={"Cache-Control": "private, no-cache"})


@router.post("/recordings/{recording_id}/passages/{number}/listened")
def listened(request: Request, app: Wired, recording_id: str, number: int, form: Form) -> Response:
    in_record.mark_listened(app, recording_id, number, text_of(form, "listened") != "no")
    return passages(request, app, recording_id)


@router.post("/recordings/{recording_id}/passages/{number}/words")
def typed(request: Request, app: Wired, recording_id: str, number: int, form: Form) -> Response:
    in_record.type_words(app, recording_id, number, text_of(form, "words"))
    return passages(request, app, recording_id)


@router.post("/visits/{visit_id}/said/anew")
def read_anew(request: Request, app: Wired, visit_id: str) -> Response:
    in_record.read_anew(app, visit_id)
    return go_to(request, f"/visits/{visit_id}/said")


def told(app: App, recording_id: str) -> Response:
    """How far a recording is, for the script that sends it."""
    known, here = use.arrived(app, recording_id)
    return JSONResponse({"id": known.id, "state": known.state, "pieces": list(here)})


def changed(request: Request, app: App, visit_id: str) -> Response:
    """The list after something was done with one of its recordings."""
    if not wants_piece(request):
        return go_to(request, f"/visits/{visit_id}/record")
    return page("parts/recordings.html", **list_values(app, visit_id))


def passages(request: Request, app: App, recording_id: str) -> Response:
    """What there is to listen to again, after something was said about one passage."""
    visit_id = use.row(app, recording_id).visit_id
    if not wants_piece(request):
        return go_to(request, f"/visits/{visit_id}/said#listen-again")
    return page("parts/listen_again.html", visit_id=visit_id, sounds=in_record.sounds(app, visit_id))


def list_values(app: App, visit_id: str) -> dict[str, Any]:
    rows = use.rows(app, visit_id)
    return {"visit_id": visit_id, "rows": rows, "moving": any(one.moving for one in rows)}


def record_page(app: App, visit_id: str) -> Response:
    """The page to record on, with the recordings of the visit."""
    answer = page(
        "record.html",
        view=visit_page(app, visit_id),
        problem="" if app.shelf is not None else use.NO_SHELF,
        longest_s=use.LONGEST_S,
        piece=use.MOST_PIECE // 2,
        most_bytes=use.MOST_BYTES,
        **list_values(app, visit_id),
    )
    answer.headers["Permissions-Policy"] = MICROPHONE
    return answer
