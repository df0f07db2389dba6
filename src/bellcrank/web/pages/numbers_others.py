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
from bellcrank.web.views.numbers_others import JobPlace, OperationPlace, operation_place, other_page
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
    return answered(shop, this, typed, place)


def answered(
    shop: Shop,
    room: Room,
    typed: dict[str, str],
    place: OperationPlace | JobPlace | None,
    template: str = "numbers_others.html",
) -> Response:
    """Show the questions of a room, with the answer or the refusal when enough was told for one."""
    try:
        if not room.ready(typed):
            return show(template, other_page(shop.library, room, typed, place))
        unit = read_settings(shop).torque_unit
        answer = room.answered(shop.library, typed, unit)
    except BellcrankError as refusal:
        return refused(shop, room, typed, place, refusal, template)
    drawings = drawings_of(shop.library, answer, typed, unit)
    return show(template, other_page(shop.library, room, typed, place, answer, drawings))


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
        return refused(shop, this, typed, place, refusal)
    return go(place.back)


def refused(
    shop: Shop,
    room: Room,
    typed: dict[str, str],
    place: OperationPlace | JobPlace | None,
    refusal: BellcrankError,
    template: str = "numbers_others.html",
) -> Response:
    """Show the questions with a refusal at its field."""
    problem = Problem(refusal.sentence, refusal.field or "", typed)
    return show(template, other_page(shop.library, room, typed, place, problem=problem), 422)


def _place(shop: Shop, typed: dict[str, str]) -> OperationPlace | None:
    """Find the step of the job this came from; None when it came from no job."""
    job, operation = typed.get("job", ""), typed.get("operation", "")
    if not job:
        return None
    if not job.isdecimal() or not 0 < int(job) <= LARGEST_NUMBER:
        raise NotFound(f"There is no job “{job}”. Pick the job from the bench.")
    return operation_place(int(job), operation_of(shop, int(job), operation).do, typed)
