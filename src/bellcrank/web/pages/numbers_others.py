"""The numbers bench beside the torque: flywheel, threads, engine, each in three taps and into a job step."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.premises import Shop
from bellcrank.shop.reckoned import keep_reckoned, operation_of, told_by_machine
from bellcrank.shop.room import Room
from bellcrank.shop.rooms import room_named
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import LARGEST_NUMBER, Form, OpenShop
from bellcrank.web.rendering import go, show
from bellcrank.web.views.number_drawings import drawings_of
from bellcrank.web.views.numbers_others import OperationPlace, operation_place, other_page
from bellcrank.web.views.plain import Problem

router = APIRouter()


@router.get("/numbers/{room}")
def asked(request: Request, shop: OpenShop, room: str) -> Response:
    """The questions, and the answer as soon as enough was told."""
    this = room_named(room)
    typed = {key: value.strip() for key, value in request.query_params.items()}
    place = _place(shop, typed)
    if place is not None and not this.told(typed):
        typed |= told_by_machine(shop, place.number, typed["operation"], room)
    try:
        if not this.ready(typed):
            return show("numbers_others.html", other_page(shop.library, this, typed, place))
        unit = read_settings(shop).torque_unit
        answer = this.answered(shop.library, typed, unit)
    except BellcrankError as refusal:
        return _refused(shop, this, typed, place, refusal)
    drawings = drawings_of(shop.library, answer, typed, unit)
    return show("numbers_others.html", other_page(shop.library, this, typed, place, answer, drawings))


@router.post("/numbers/{room}/keep")
def keep(shop: OpenShop, room: str, form: Form) -> Response:
    """Put the answer into the job's step with what it was worked out from."""
    this, typed = room_named(room), form.typed()
    place = _place(shop, typed)
    if place is None:
        raise NotFound("No job was named to put this answer into. Open the numbers bench from the job's step.")
    try:
        keep_reckoned(shop, place.number, typed["operation"], room, typed, read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _refused(shop, this, typed, place, refusal)
    return go(place.back)


def _refused(
    shop: Shop, room: Room, typed: dict[str, str], place: OperationPlace | None, refusal: BellcrankError
) -> Response:
    problem = Problem(refusal.sentence, refusal.field or "", typed)
    return show("numbers_others.html", other_page(shop.library, room, typed, place, problem=problem), 422)


def _place(shop: Shop, typed: dict[str, str]) -> OperationPlace | None:
    """Find the step of the job this came from; None when it came from no job."""
    job, operation = typed.get("job", ""), typed.get("operation", "")
    if not job:
        return None
    if not job.isdecimal() or not 0 < int(job) <= LARGEST_NUMBER:
        raise NotFound(f"There is no job “{job}”. Pick the job from the bench.")
    return operation_place(int(job), operation_of(shop, int(job), operation).do, typed)
