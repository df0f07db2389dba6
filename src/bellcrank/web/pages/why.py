"""The whole story of one cause of a job."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.shop.why import why
from bellcrank.web.forms import JobNumber, OpenShop
from bellcrank.web.rendering import show
from bellcrank.web.views.because import why_page

router = APIRouter()


@router.get("/jobs/{number}/why/{cause}")
def story(number: JobNumber, cause: str, shop: OpenShop) -> Response:
    """What speaks for and against a cause, and what would change that."""
    return show("why.html", why_page(why(shop, number, cause)))
