"""The web application: routes, static files, faults and the guard around them."""

from collections.abc import Collection

from fastapi import FastAPI
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from haywisp.usecases import App
from haywisp.web import failures
from haywisp.web.rendering import STATIC
from haywisp.web.routes import (
    before,
    feel,
    files,
    horses,
    own_words,
    people,
    plans,
    recordings,
    reports,
    said,
    today,
    vet,
    visits,
)
from haywisp.web.security import Guard

ROOMS = (today, horses, people, visits, files, before, feel, own_words, recordings, said, plans, reports, vet)


class KeptFiles(StaticFiles):
    """Static files whose address carries a mark of their content, so that they need never be asked for again."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        answer = await super().get_response(path, scope)
        if b"v=" in scope.get("query_string", b""):
            answer.headers["Cache-Control"] = "public, max-age=31536000, immutable"
        return answer


def create_app(app: App, *, hosts: Collection[str] = ()) -> FastAPI:
    """The pages over ``app``.

    ``hosts`` are full domain names to answer to besides this machine's own address and names without a dot.
    """
    # The schema pages would load scripts from elsewhere, which the page's own policy forbids.
    web = FastAPI(title="Haywisp", docs_url=None, redoc_url=None, openapi_url=None)
    web.state.app = app
    failures.add_handlers(web)
    web.add_middleware(Guard, allowed=frozenset(hosts))
    web.mount("/static", KeptFiles(directory=STATIC), name="static")
    for room in ROOMS:
        web.include_router(room.router)
    return web
