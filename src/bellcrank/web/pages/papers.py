"""The papers of a job as PDF."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.papers.printing import print_paper
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import JobNumber, OpenShop

router = APIRouter()


@router.get("/jobs/{number}/papers/{what}.pdf")
def paper(number: JobNumber, what: str, request: Request, shop: OpenShop, size: str = "") -> Response:
    """Print a paper of the job; ``size`` is a4 or letter, else what the shop is set to."""
    settings = read_settings(shop)
    address = str(request.base_url) + f"jobs/{number}"
    document = print_paper(what, job_sheet(shop, number), settings, size or settings.paper, address)
    name = f'inline; filename="{what}-{number}.pdf"'
    return Response(document, media_type="application/pdf", headers={"content-disposition": name})
