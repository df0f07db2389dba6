"""What the cord told of a job's machine, and keeping it in the job."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.engine_rooms import CORD
from bellcrank.shop.job_cord import cord_of_job, keep_cord
from bellcrank.shop.premises import Shop
from bellcrank.shop.rooms import room_named
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import Form, JobNumber, OpenShop
from bellcrank.web.pages.numbers_others import answered, refused
from bellcrank.web.rendering import go
from bellcrank.web.views.numbers_others import JobPlace

router = APIRouter()
TEMPLATE = "job_cord.html"


@router.get("/jobs/{number}/cord")
def told(request: Request, number: JobNumber, shop: OpenShop) -> Response:
    """What the cord told; what the job knows already is said for her until she says something."""
    room, place = room_named(CORD), _place(shop, number)
    typed = {key: value.strip() for key, value in request.query_params.items()}
    if not room.told(typed):
        typed |= cord_of_job(shop, number).typed
    return answered(shop, room, typed, place, TEMPLATE)


@router.post("/jobs/{number}/cord")
def keep(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep in the job how often it jerked, and go back to what is next there."""
    typed = form.typed()
    try:
        keep_cord(shop, number, typed, read_settings(shop).mechanic)
    except NotFound:
        raise
    except BellcrankError as refusal:
        return refused(shop, room_named(CORD), typed, _place(shop, number), refusal, TEMPLATE)
    return go(f"/jobs/{number}")


def _place(shop: Shop, number: int) -> JobPlace:
    known = cord_of_job(shop, number)
    return JobPlace(number, f"/jobs/{number}/cord", f"/jobs/{number}", known.known, known.keeps)
