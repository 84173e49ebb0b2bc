"""What every endpoint is given: the wired parts of the application."""

from typing import Annotated, cast

from fastapi import Depends, Request

from haywisp.usecases import App


def wired(request: Request) -> App:
    """The parts that :func:`haywisp.web.create_app` was given."""
    return cast(App, request.app.state.app)


Wired = Annotated[App, Depends(wired)]
