"""The release list and the hand-back."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.release import hand_back, picked_up, record_proof
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import Form, JobNumber, OpenShop, SentForm
from bellcrank.web.pages.job import act
from bellcrank.web.rendering import go, show
from bellcrank.web.views.handback import handback_page
from bellcrank.web.views.plain import Problem

router = APIRouter()


def _refused(shop: OpenShop, number: int, form: SentForm, refusal: BellcrankError) -> Response:
    problem = Problem(refusal.sentence, form.text("item") or refusal.field or "", form.typed())
    return show("hand_back.html", handback_page(job_sheet(shop, number), problem), 422)


@router.get("/jobs/{number}/hand-back")
def release_list(number: JobNumber, shop: OpenShop) -> Response:
    """The release list, to be gone through with a thumb."""
    return show("hand_back.html", handback_page(job_sheet(shop, number)))


@router.post("/jobs/{number}/proofs")
def proof(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record the answer to one item of the release list."""
    item = form.text("item")
    try:
        record_proof(shop, number, item, form.starting("answer:"), read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _refused(shop, number, form, refusal)
    return go(f"/jobs/{number}/hand-back#{item}")


@router.post("/jobs/{number}/hand-back")
def give_back(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Hand the machine back: ready, or not ready and recorded so."""
    ready = form.text("ready") == "yes"
    try:
        hand_back(shop, number, ready=ready, reason=form.text("reason"), by=read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _refused(shop, number, form, refusal)
    return go(f"/jobs/{number}")


@router.post("/jobs/{number}/picked-up")
def fetched(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record that the customer fetched the machine."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: picked_up(shop, number, by))
