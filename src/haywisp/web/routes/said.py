"""What was said: the page of a visit's review, and each decision on it."""

from collections.abc import Callable, Mapping

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from haywisp.errors import HaywispError
from haywisp.usecases import App, Changed, NotFound, Refused, restoring
from haywisp.usecases import said as use
from haywisp.usecases.forms import beside
from haywisp.usecases.in_record import sounds
from haywisp.usecases.moments import moment_of
from haywisp.usecases.rereading import words_changed
from haywisp.usecases.teaching import offers
from haywisp.usecases.views import EntryView, SaidPage, Vocabulary
from haywisp.web.forms import Form, body_of, shown_body, text_of, version_of, whole_number
from haywisp.web.pieces import ENTRIES
from haywisp.web.rendering import go_to, page, render, wants_piece
from haywisp.web.routes.own_words import offered
from haywisp.web.routes.wiring import Wired
from haywisp.web.said_page import Looked, Place, entries_in_time, page_values, place_in, review_values

router = APIRouter(prefix="/visits/{visit_id}")
PARTS = ("bout", "finding", "response", "action", "flag", "note")


@router.get("/said")
def said(request: Request, app: Wired, visit_id: str) -> Response:
    return said_page(app, visit_id, place_of(request), offer_to=request.query_params.get("offer", ""))


@router.get("/said/add")
def new_entry(app: Wired, visit_id: str, part: str = "bout") -> Response:
    part = part if part in PARTS else "bout"
    return add_page(app, visit_id, part, shown_body(part, {}) | {"at": ""})


@router.post("/said/add")
def add_entry(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    part = text_of(form, "part")
    body = body_of(part, form)
    try:
        entry = use.add(app, visit_id, part, body, moment_of(text_of(form, "at")))
    except HaywispError as error:
        if part not in PARTS:
            raise
        return add_page(app, visit_id, part, shown_body(part, body) | {"at": text_of(form, "at")}, problem=str(error))
    return go_to(request, address_of(app, visit_id, entry.thread))


@router.post("/said/accept-all")
def accept_all(request: Request, app: Wired, visit_id: str) -> Response:
    before = use.said(app, visit_id).counts.proposed
    left = use.accept_all(app, visit_id).proposed
    if not wants_piece(request):
        return go_to(request, f"/visits/{visit_id}/said#finish")
    told = f"{before - left} accepted." + (f" {left} wait for the answer to a question." if left else "")
    values = review_values(use.said(app, visit_id), place_of(request), sounds(app, visit_id))
    review = render("parts/review.html", out_of_band=False, **values)
    return HTMLResponse(review + heads(values) + spoken(told))


@router.post("/finish")
def finish(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    try:
        use.finish(app, visit_id, force=bool(text_of(form, "force")))
    except Refused as error:
        return said_page(app, visit_id, place_of(request), problem=str(error), status=422)
    return go_to(request, f"/visits/{visit_id}")


@router.post("/questions/{question_id}")
def answer(request: Request, app: Wired, visit_id: str, question_id: str, form: Form) -> Response:
    entry = use.answer(app, question_id, text_of(form, "value"))
    if not wants_piece(request):
        if entry and offers(app, entry.thread):
            return go_to(request, address_of(app, visit_id, entry.thread, offer=True))
        return go_to(request, f"/visits/{visit_id}/said#questions")
    values = review_values(use.said(app, visit_id), place_of(request))
    questions = render("parts/questions.html", out_of_band=False, **values)
    # A question can be about the narration as a whole, and then no entry has changed.
    more = offered(offers(app, entry.thread), visit_id) if entry else ""
    if entry is None:
        card = ""
    elif entry.version == 1:
        # A yes to what was left out: a card that was not there before.
        card = card_put_in(entry, visit_id, values, more)
    else:
        card = card_of(entry, visit_id, values, more=more, out_of_band=True)
    told = f"Answered. {entry.sentence}: {entry.status_name}." if entry else "Answered."
    # The first card of all needs the list that it stands in, which only the whole page has.
    first = entry is not None and values["looked"] == Looked(1, 1)
    headers = {"HX-Refresh": "true"} if first else None
    return HTMLResponse(questions + card + ends(values) + spoken(told), headers=headers)


@router.get("/said/{thread}")
def entry(request: Request, app: Wired, visit_id: str, thread: str, show: str = "") -> Response:
    return entry_page(request, app, visit_id, thread, show=show)


@router.post("/said/{thread}/accept")
def accept(request: Request, app: Wired, visit_id: str, thread: str, form: Form) -> Response:
    version = version_of(form)
    return decided(request, app, visit_id, thread, lambda: use.accept(app, thread, version))


@router.post("/said/{thread}/reject")
def reject(request: Request, app: Wired, visit_id: str, thread: str, form: Form) -> Response:
    version, reason = version_of(form), text_of(form, "reason")
    return decided(request, app, visit_id, thread, lambda: use.reject(app, thread, version, reason))


@router.post("/said/{thread}/back")
def back(request: Request, app: Wired, visit_id: str, thread: str, form: Form) -> Response:
    version, to = version_of(form), whole_number(text_of(form, "to"), "The version to go back to")
    return decided(request, app, visit_id, thread, lambda: restoring.go_back(app, thread, version, to))


@router.post("/said/{thread}/correct")
def correct(request: Request, app: Wired, visit_id: str, thread: str, form: Form) -> Response:
    known = use.entry_of(app, thread)
    body, version, reason = body_of(known.part, form), version_of(form), text_of(form, "reason")
    typed = shown_body(known.part, body) | {"reason": reason}
    try:
        return decided(
            request, app, visit_id, thread, lambda: use.correct(app, thread, version, body, reason), typed, body
        )
    except HaywispError as error:
        answer = entry_page(request, app, visit_id, thread, typed=typed, problem=str(error))
        answer.headers["HX-Retarget"] = f"#entry-{thread} .entry-more"
        answer.headers["HX-Reswap"] = "innerHTML"
        return answer


def decided(
    request: Request,
    app: App,
    visit_id: str,
    thread: str,
    decide: Callable[[], EntryView],
    typed: Mapping[str, object] | None = None,
    chosen: Mapping[str, object] | None = None,
) -> Response:
    """Decide on an entry and show it as it is now.

    Someone quicker in another window is no fault: the newer version is shown instead, with what was typed beside it.
    ``typed`` are the values of the form that was sent, and ``chosen`` the same as changes of the entry.
    """
    try:
        entry, newer = decide(), False
    except Changed as error:
        if not wants_piece(request):
            if typed is not None:
                return entry_page(
                    request, app, visit_id, thread, typed=typed, chosen=chosen, problem=str(error), status=409
                )
            return said_page(app, visit_id, Place(thread=thread), problem=str(error), status=409)
        entry, newer = use.entry_of(app, thread), True
    # Only a correction teaches: it is the one decision that comes with a form.
    taught = offers(app, thread) if typed is not None and not newer else ()
    if not wants_piece(request):
        return go_to(request, address_of(app, visit_id, thread, offer=bool(taught)))
    values = review_values(use.said(app, visit_id), place_of(request))
    more = offered(taught, visit_id)
    if newer and typed is not None:
        more = form_of(app, visit_id, entry, values, typed, chosen)
    told = "Changed in another window; nothing saved." if newer else f"{entry.sentence}: {entry.status_name}."
    card = card_of(entry, visit_id, values, newer=newer, more=more)
    questions = render("parts/questions.html", **values | {"out_of_band": True})
    return HTMLResponse(card + questions + ends(values) + spoken(told))


def card_of(
    entry: EntryView,
    visit_id: str,
    values: Mapping[str, object],
    *,
    newer: bool = False,
    more: str = "",
    **options: bool,
) -> str:
    """One entry's card."""
    return render("parts/one_entry.html", entry=entry, visit_id=visit_id, newer=newer, more=more, **values, **options)


def card_put_in(entry: EntryView, visit_id: str, values: Mapping[str, object], more: str) -> str:
    """The card of a new entry, put after the one that comes before it in time; nothing where that is not shown."""
    shown = values["shown"]
    assert isinstance(shown, tuple)
    threads = [one.thread for one in shown]
    if entry.thread not in threads:
        return ""
    at = threads.index(entry.thread)
    place = f"afterend:#entry-{threads[at - 1]}" if at else "afterbegin:#entries"
    return render("parts/put_in.html", place=place, card=card_of(entry, visit_id, values, more=more))


def heads(values: Mapping[str, object]) -> str:
    """What counts above the record: the steps' badge, the session and the progress, for htmx to put in their places."""
    return "".join(render(f"parts/{name}.html", **{**values, "out_of_band": True}) for name in ("counts", "progress"))


def ends(values: Mapping[str, object]) -> str:
    """The same and the end of the review."""
    return heads(values) + render("parts/finish.html", **{**values, "out_of_band": True})


def place_of(request: Request) -> Place:
    """Where in the record someone is: what the address of their page says, which htmx tells with each request."""
    return place_in(request.headers.get("hx-current-url", "") if wants_piece(request) else str(request.url))


def address_of(app: App, visit_id: str, thread: str, *, offer: bool = False) -> str:
    """The address of the page at an entry; of a record that is shown in pieces, the piece that it is in.

    ``offer`` has it offer to keep the words that the entry's correction teaches.
    """
    long = len(entries_in_time(use.said(app, visit_id))) > ENTRIES
    asked = [*([f"at={thread}"] if long else []), *([f"offer={thread}"] if offer else [])]
    return f"/visits/{visit_id}/said{'?' if asked else ''}{'&'.join(asked)}#entry-{thread}"


def spoken(text: str) -> str:
    """A sentence for the live region."""
    return render("parts/live.html", sentence=text)


def said_page(
    app: App, visit_id: str, place: Place, *, problem: str = "", status: int = 200, offer_to: str = ""
) -> Response:
    """The whole page; ``offer_to`` is an entry that has just been corrected."""
    view = use.said(app, visit_id)
    known = offer_to in {entry.thread for entry in view.entries}
    own = {
        "own_changed": words_changed(app, visit_id),
        "offer_to": offer_to,
        "offered": offered(offers(app, offer_to), visit_id) if known else "",
    }
    return page("said.html", status, problem=problem, **{**page_values(view, place, sounds(app, visit_id)), **own})


def add_page(app: App, visit_id: str, part: str, form: Mapping[str, object], *, problem: str = "") -> Response:
    """The form for an entry by hand."""
    view = use.said(app, visit_id)
    return page("add_entry.html", 422 if problem else 200, view=view, part=part, form=form, problem=problem)


def entry_page(
    request: Request,
    app: App,
    visit_id: str,
    thread: str,
    *,
    show: str = "",
    typed: Mapping[str, object] | None = None,
    chosen: Mapping[str, object] | None = None,
    problem: str = "",
    status: int = 422,
) -> Response:
    """One entry with the form to correct it and its history: a page of its own, or the inside of its card."""
    entry = use.entry_of(app, thread)
    view = use.said(app, visit_id)
    if thread not in {one.thread for one in (*view.entries, *view.rejected)}:
        raise NotFound("entry", thread, "It belongs to another visit.")
    values = review_values(view) | form_values(app, visit_id, entry, view.vocabulary, show, typed, problem, chosen)
    template = "parts/correct.html" if wants_piece(request) else "entry.html"
    return page(template, status if problem else 200, **values)


def form_of(
    app: App,
    visit_id: str,
    entry: EntryView,
    values: Mapping[str, object],
    typed: Mapping[str, object],
    chosen: Mapping[str, object] | None,
) -> str:
    """The form of an entry filled with what was typed, for the inside of its card."""
    view = values["view"]
    assert isinstance(view, SaidPage)
    return render("parts/correct.html", **form_values(app, visit_id, entry, view.vocabulary, "", typed, "", chosen))


def form_values(
    app: App,
    visit_id: str,
    entry: EntryView,
    vocabulary: Vocabulary,
    show: str,
    typed: Mapping[str, object] | None,
    problem: str,
    chosen: Mapping[str, object] | None = None,
) -> dict[str, object]:
    """What the form that corrects an entry needs; ``chosen`` is compared with what is kept."""
    return {
        "visit_id": visit_id,
        "entry": entry,
        "form": typed or shown_body(entry.part, entry.body) | {"reason": ""},
        "vocabulary": vocabulary,
        "versions": use.history(app, entry.thread),
        "show": show,
        "problem": problem,
        "beside": beside(entry.part, chosen, entry.body, app.tables()) if chosen is not None else (),
    }
