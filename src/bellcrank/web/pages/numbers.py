"""A torque that nobody published, without a job."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.window import recommend_torque
from bellcrank.figures.torque_window import torque_window_figure
from bellcrank.shop.numbers import joint_from_words
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import OpenShop
from bellcrank.web.rendering import show
from bellcrank.web.views.numbers import WindowView, numbers_page, window_view
from bellcrank.web.views.plain import Problem

router = APIRouter()


@router.get("/numbers")
def torque(request: Request, shop: OpenShop) -> Response:
    """The form, and the window when it was filled in."""
    typed = {key: value.strip() for key, value in request.query_params.items()}
    if not typed.get("thread"):
        return show("numbers.html", numbers_page(shop.library, typed))
    try:
        window = _window(shop, joint_from_words(shop.library, typed))
    except BellcrankError as refusal:
        problem = Problem(refusal.sentence, refusal.field or "", typed)
        return show("numbers.html", numbers_page(shop.library, typed, None, problem), 422)
    return show("numbers.html", numbers_page(shop.library, typed, window))


def _window(shop: Shop, joint: Joint) -> WindowView:
    unit = read_settings(shop).torque_unit
    window = recommend_torque(joint)
    return window_view(window, unit, torque_window_figure(window, unit))
