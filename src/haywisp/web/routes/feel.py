"""Look and feel: the drawn horse, a muscle chosen on it, and what is found there on either side."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import Response

from haywisp.errors import HaywispError
from haywisp.usecases import App, drawing
from haywisp.usecases import visits as visits_use
from haywisp.web.forms import Form, text_of
from haywisp.web.rendering import go_to, page
from haywisp.web.routes.wiring import Wired

router = APIRouter(prefix="/visits/{visit_id}")
VIEWS = (("left", "Left side"), ("right", "Right side"), ("above", "From above"))
LAYERS = (("superficial", "Muscles on the surface"), ("deep", "Deep muscles"), ("regions", "Regions"))


@router.get("/feel")
def feel(app: Wired, visit_id: str, view: str = "left", layer: str = "superficial", structure: str = "") -> Response:
    return feel_page(app, visit_id, view, layer, structure)


@router.post("/feel")
def keep(request: Request, app: Wired, visit_id: str, form: Form) -> Response:
    view, layer = drawing.seen(text_of(form, "view"), text_of(form, "layer"))
    structure = text_of(form, "structure")
    try:
        drawing.keep_felt(app, visit_id, structure, text_of(form, "found"))
    except HaywispError as error:
        return feel_page(app, visit_id, view, layer, structure, problem=str(error), status=422)
    return go_to(request, address(visit_id, view, layer, structure))


@router.get("/horse.svg")
def picture(app: Wired, visit_id: str, view: str = "left", layer: str = "superficial") -> Response:
    """The drawing by itself, to be printed or kept."""
    view, layer = drawing.seen(view, layer)
    return Response(drawing.drawn(app, visit_id, view, layer, choosable=False), media_type="image/svg+xml")


def address(visit_id: str, view: str, layer: str, structure: str) -> str:
    """The page with a view, a layer and a chosen structure."""
    asked = urlencode({"view": view, "layer": layer, "structure": structure})
    return f"/visits/{visit_id}/feel?{asked}#panel"


def feel_page(
    app: App, visit_id: str, view: str, layer: str, structure: str, *, problem: str = "", status: int = 200
) -> Response:
    """The drawn horse of a visit, and the panel of the structure that is chosen."""
    view, layer = drawing.seen(view, layer)
    shown = visits_use.visit_page(app, visit_id)
    chosen = None
    try:
        chosen = drawing.panel(app, visit_id, structure) if structure else None
    except HaywispError as error:
        problem, status = problem or str(error), 422
    svg = drawing.drawn(app, visit_id, view, layer, link=lambda which, _side: address(visit_id, view, layer, which))
    return page(
        "feel.html",
        status,
        view=shown,
        seen=view,
        layer=layer,
        views=VIEWS,
        layers=LAYERS,
        svg=svg,
        panel=chosen,
        found=drawing.out_of_usual(app, visit_id),
        structures=drawing.structures(app),
        problem=problem,
    )
