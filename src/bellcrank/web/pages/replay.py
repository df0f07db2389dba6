"""A job replayed: the picture of it, and one step a screen."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.shop.replay import replay, step_of
from bellcrank.web.forms import JobNumber, OpenShop
from bellcrank.web.rendering import show
from bellcrank.web.views.replay import replay_page, replay_step_page

router = APIRouter()


@router.get("/jobs/{number}/replay")
def steps(number: JobNumber, shop: OpenShop, step: int | None = None) -> Response:
    """The whole job over its steps, or one step of it."""
    sheet = replay(shop, number)
    if step is None:
        return show("replay.html", replay_page(sheet))
    return show("replay_step.html", replay_step_page(sheet, step_of(sheet, step)))
