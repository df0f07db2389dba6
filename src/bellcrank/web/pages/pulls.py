"""One pull of the cord against time."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.shop.one_pull import pull_asked
from bellcrank.web.forms import OpenShop
from bellcrank.web.pulls_at_work import PullsAtWork
from bellcrank.web.rendering import show
from bellcrank.web.views.plain import Problem
from bellcrank.web.views.pulls import pull_page

router = APIRouter()
TEMPLATE = "one_pull.html"


@router.get("/numbers/pull")
def one(request: Request, shop: OpenShop) -> Response:
    """One pull, the questions for it, or that it is being worked out."""
    typed = {key: value.strip() for key, value in request.query_params.items()}
    if not (typed.get("engine") and typed.get("slip")):
        return show(TEMPLATE, pull_page(shop.library, typed))
    at_work: PullsAtWork = request.app.state.pulls
    try:
        asked = pull_asked(shop.library, typed)
        return show(TEMPLATE, pull_page(shop.library, typed, asked, at_work.ask(asked)))
    except BellcrankError as refusal:
        problem = Problem(refusal.sentence, refusal.field or "", typed)
        return show(TEMPLATE, pull_page(shop.library, typed, problem=problem), 422)
