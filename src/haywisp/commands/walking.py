"""A walk through the whole product: a narration becomes a record, a plan and a report, and every page is asked for."""

from collections.abc import Iterator
from typing import TYPE_CHECKING
from urllib.error import HTTPError, URLError
from urllib.request import ProxyHandler, build_opener

from haywisp.commands.output import SHORT_ID
from haywisp.errors import HaywispError

if TYPE_CHECKING:
    from haywisp.usecases.app import App

PATIENCE_S = 60.0
PDF = b"%PDF"
LONGEST_WORD = 16


class WalkFailed(HaywispError):
    """A step that did not do what it should."""

    def __init__(self, step: str, why: str) -> None:
        super().__init__(f"The check stopped at {step}: {why}.")


def walk(app: "App", address: str) -> Iterator[str]:
    """Do each step and say what it did; raises :class:`WalkFailed` at the first that fails."""
    visit_id, told = _record(app)
    yield told
    for path in _pages(app, visit_id):
        page = fetched(address, path)
        if b"</html>" not in page:
            raise WalkFailed(path, "the page is not whole")
        yield f"Page {shown(path)}: {len(page)} bytes."
    path = f"/visits/{visit_id}/report.pdf"
    document = fetched(address, path)
    if not document.startswith(PDF):
        raise WalkFailed(path, "it is no PDF")
    yield f"Report {shown(path)}: a PDF of {len(document)} bytes."


def shown(path: str) -> str:
    """A path whose ids are cut to the length that lists print."""
    return "/".join(f"{part[:SHORT_ID]}…" if len(part) > LONGEST_WORD else part for part in path.split("/"))


def fetched(address: str, path: str) -> bytes:
    """What the server answers; a proxy of the environment has no part in it."""
    try:
        with build_opener(ProxyHandler({})).open(address + path, timeout=PATIENCE_S) as answer:
            body: bytes = answer.read()
            return body
    except HTTPError as error:
        raise WalkFailed(path, f"the server answered {error.code}") from error
    except URLError as error:
        raise WalkFailed(path, f"the server did not answer ({error.reason})") from error


def _record(app: "App") -> tuple[str, str]:
    """A demo narration heard at a new visit, its questions answered, everything accepted, planned from."""
    from haywisp.demo import load
    from haywisp.usecases.horses import list_horses
    from haywisp.usecases.plans import plan_next
    from haywisp.usecases.said import accept_all, answer, finish, said
    from haywisp.usecases.visits import hear, open_visit

    sample = next(visit for visit in load().visits if visit.reviewed)
    horse = list_horses(app)[0]
    visit = open_visit(app, horse.id, app.clock().date(), sample.minutes)
    heard = hear(app, visit.id, sample.narration_file, sample.content())
    if not heard.counts.bouts:
        raise WalkFailed("the narration", "no work was understood in it")
    questions = said(app, visit.id).questions
    for question in questions:
        answer(app, question.id, question.choices[0].value)
    counts = accept_all(app, visit.id)
    finish(app, visit.id)
    plan = plan_next(app, visit.id)
    return visit.id, (
        f"Heard {heard.words} words for {horse.name}: {counts.bouts} bouts, {counts.findings} findings, "
        f"{len(questions)} questions answered; planned {len(plan.bouts)} bouts ({plan.verdict.name.lower()})."
    )


def _pages(app: "App", visit_id: str) -> tuple[str, ...]:
    from haywisp.usecases.said import said

    visit = f"/visits/{visit_id}"
    horse = f"/horses/{said(app, visit_id).horse.id}"
    return ("/", "/horses", horse, visit, f"{visit}/said", f"{visit}/plan", f"{visit}/report")
