"""Faults as pages: a clear sentence, and what to do next."""

from collections.abc import Mapping

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from starlette.exceptions import HTTPException
from starlette.types import Scope

from haywisp.errors import HaywispError
from haywisp.usecases import Changed, NotFound, TooLarge
from haywisp.web.rendering import page, wants_piece
from haywisp.web.security import SAFETY_HEADERS, Refusal

TITLES: Mapping[int, str] = {
    400: "That request could not be read",
    403: "Sent from somewhere else",
    404: "Not here",
    405: "That can't be done here",
    409: "Changed in the meantime",
    413: "Too large",
    422: "That can't be done as it is",
    500: "Something went wrong on our side",
}
SENTENCES: Mapping[int, str] = {
    400: "Part of what was sent could not be read. Go back, check the form and send it again.",
    404: "There is no page at this address. It may have been typed wrongly, or belong to another practice's copy.",
    405: "This address is part of a form. Open the page that the form is on and send it from there.",
    500: "Nothing of what you had saved before is lost. Go back and try once more; "
    "if it happens again, note what you did and the time, and tell whoever looks after this Haywisp.",
}


def status_of(error: HaywispError) -> int:
    """The HTTP status that fits a fault a person can act on."""
    if isinstance(error, NotFound):
        return 404
    if isinstance(error, TooLarge):
        return 413
    return 409 if isinstance(error, Changed) else 422


def failure(status: int, sentence: str, *, piece: bool = False) -> Response:
    """The page for a fault, or only its message where htmx asks for a piece."""
    title = TITLES.get(status, TITLES[400])
    if not piece:
        return page("failure.html", status, heading=title, sentence=sentence)
    answer = page("parts/message.html", status, sentence=sentence)
    answer.headers["HX-Retarget"] = "#notice"
    answer.headers["HX-Reswap"] = "innerHTML"
    return answer


def refuse(refusal: Refusal, scope: Scope) -> Response:
    """What the guard answers with."""
    return failure(refusal.status, refusal.sentence, piece=wants_piece(Request(scope)))


def add_handlers(web: FastAPI) -> None:
    """Map each kind of fault to its page."""
    web.state.refuse = refuse

    @web.exception_handler(HaywispError)
    def known(request: Request, error: HaywispError) -> Response:
        return failure(status_of(error), str(error), piece=wants_piece(request))

    @web.exception_handler(HTTPException)
    def http(request: Request, error: HTTPException) -> Response:
        sentence = SENTENCES.get(error.status_code, SENTENCES[400])
        return failure(error.status_code, sentence, piece=wants_piece(request))

    @web.exception_handler(RequestValidationError)
    def unread(request: Request, error: RequestValidationError) -> Response:
        return failure(400, SENTENCES[400], piece=wants_piece(request))

    @web.exception_handler(Exception)
    def unknown(request: Request, error: Exception) -> Response:
        # Made outside the guard, so it brings the safety headers itself.
        answer = failure(500, SENTENCES[500], piece=wants_piece(request))
        answer.headers.update(SAFETY_HEADERS)
        return answer
