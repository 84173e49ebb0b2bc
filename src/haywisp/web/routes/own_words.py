"""My words: the list of the practitioner's own words, and an old visit read again with them."""

from collections.abc import Mapping
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from starlette.datastructures import FormData

from haywisp.errors import HaywispError
from haywisp.narration.types import OwnWord
from haywisp.usecases import App, Refused, rereading
from haywisp.usecases import own_words as use
from haywisp.usecases.forms import vocabulary
from haywisp.usecases.said import entry_of
from haywisp.usecases.views import OwnWordOffer, OwnWordRow
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to, page, render, wants_piece
from haywisp.web.routes.wiring import Wired

router = APIRouter()
TEXTS = ("phrase", "meaning", "misheard", "visit", "thread")


@router.get("/words")
def own_words(request: Request, app: Wired) -> Response:
    asked = request.query_params
    gone = {name: asked.get(name, "") for name in TEXTS} if asked.get("gone") else None
    return words_page(app, heard=asked.get("heard", ""), gone=gone)


@router.get("/words/new")
def new_word(request: Request, app: Wired) -> Response:
    return form_page(app, {name: request.query_params.get(name, "") for name in TEXTS})


@router.post("/words")
def teach(request: Request, app: Wired, form: Form) -> Response:
    typed = {name: text_of(form, name) for name in TEXTS}
    try:
        kept = use.teach(app, word_of(form), anyway=bool(text_of(form, "anyway")))
    except HaywispError as error:
        warned = isinstance(error, use.OwnWordWarned)
        if wants_piece(request):
            return page(
                "parts/own_offer.html",
                422,
                offer=offer_of(app, typed),
                problem=str(error),
                warned=warned,
                visit_id=typed["visit"],
            )
        return form_page(app, typed, problem=str(error), warned=warned)
    if wants_piece(request):
        heard = use.heard_at(app, kept.phrase)
        earlier = [one for one in heard if one.visit.id != typed["visit"]]
        return page("parts/own_kept.html", kept=kept, earlier=earlier, visit_id=typed["visit"], thread=typed["thread"])
    if typed["visit"]:
        anchor = f"#entry-{typed['thread']}" if typed["thread"] else ""
        return go_to(request, f"/visits/{typed['visit']}/said{anchor}")
    return go_to(request, f"/words#word-{kept.id}")


@router.post("/words/{word_id}/forget")
def forget(request: Request, app: Wired, word_id: str) -> Response:
    gone = use.forget(app, word_id)
    told = {"gone": "yes", "phrase": gone.phrase, "meaning": f"{gone.kind}:{gone.meaning}"}
    return go_to(request, f"/words?{urlencode(told | ({'misheard': 'yes'} if gone.misheard else {}))}")


@router.get("/visits/{visit_id}/read-again")
def reread(app: Wired, visit_id: str) -> Response:
    return reread_page(app, visit_id)


@router.post("/visits/{visit_id}/read-again")
def read_again(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    try:
        rereading.read_again(app, visit_id, text_of(form, "mark"))
    except Refused as error:
        return reread_page(app, visit_id, problem=str(error))
    return go_to(request, f"/visits/{visit_id}/said")


def word_of(form: FormData) -> OwnWord:
    """The own word that a form gives; what it means comes as ``kind:id``."""
    kind, _, meaning = text_of(form, "meaning").partition(":")
    if not meaning:
        raise Refused("Choose what the words mean. Nothing was kept.")
    return OwnWord(kind, text_of(form, "phrase"), meaning, bool(text_of(form, "misheard")))


def offer_of(app: App, typed: Mapping[str, str]) -> OwnWordOffer:
    """What a form gave as the offer that it came from, to be shown again as it was typed."""
    kind, _, meaning = typed["meaning"].partition(":")
    name = use.meaning_label(kind, meaning, app.tables()) if kind in use.KIND_NAMES else meaning
    shown = use.KIND_NAMES.get(kind, kind)
    return OwnWordOffer(typed["thread"], kind, shown, typed["phrase"], meaning, name, bool(typed["misheard"]))


def offered(offers: tuple[OwnWordOffer, ...], visit_id: str) -> str:
    """The small lines under an entry that offer to keep words."""
    return "".join(
        render("parts/own_offer.html", offer=offer, problem="", warned=False, visit_id=visit_id) for offer in offers
    )


def words_page(app: App, *, heard: str = "", gone: Mapping[str, str] | None = None) -> Response:
    """The list; ``heard`` is the id of the one to tell the visits of, ``gone`` what was just taken off."""
    rows = use.own_words(app)
    asked: OwnWordRow | None = next((row for row in rows if row.id == heard), None)
    return page(
        "words.html",
        rows=rows,
        asked=asked,
        heard=use.heard_at(app, asked.phrase) if asked else (),
        gone=gone,
        vocabulary=vocabulary(app.tables()),
        form={"phrase": "", "meaning": "", "misheard": "", "visit": "", "thread": ""},
        warned=False,
    )


def form_page(app: App, typed: Mapping[str, str], *, problem: str = "", warned: bool = False) -> HTMLResponse:
    """The form for words of one's own, with where they were said before as a hint."""
    return page(
        "word_new.html",
        422 if problem else 200,
        form=typed,
        problem=problem,
        warned=warned,
        heard=use.heard_at(app, typed["phrase"]) if typed["phrase"] else (),
        about=entry_of(app, typed["thread"]) if typed["thread"] else None,
        vocabulary=vocabulary(app.tables()),
    )


def reread_page(app: App, visit_id: str, *, problem: str = "") -> Response:
    """What reading a visit again would change."""
    return page("reread.html", 422 if problem else 200, view=rereading.reread_page(app, visit_id), problem=problem)
