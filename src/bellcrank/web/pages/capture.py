"""What is found at a step, kept with one thumb."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotUnderstood
from bellcrank.shop.captured import capture, capture_photo
from bellcrank.shop.captured_typed import Typed
from bellcrank.shop.findings import take_back
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.teardown.as_found import CONDITION
from bellcrank.web.forms import LARGEST_NUMBER, Form, JobNumber, OpenShop, SentForm
from bellcrank.web.pages.work import steps_response
from bellcrank.web.rendering import go
from bellcrank.web.views.plain import Problem

router = APIRouter()


@router.post("/jobs/{number}/capture")
def keep(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep what was found at a step, or take it back, and stay at the step."""
    direction, place = form.text("direction"), form.text("number")
    wanted = (direction, int(place)) if place.isdecimal() and len(place) < 5 else None
    try:
        _keep(shop, number, form)
    except BellcrankError as refusal:
        return steps_response(shop, number, wanted, Problem(refusal.sentence, refusal.field or "", form.typed()))
    if form.text("what") == CONDITION:  # the way may have been planned anew
        return go(f"/jobs/{number}/steps")
    return go(f"/jobs/{number}/steps?way={direction}&step={place}#found" if wanted else f"/jobs/{number}/steps")


def _keep(shop: Shop, number: int, form: SentForm) -> None:
    what, at, by = form.text("what"), form.text("at"), read_settings(shop).mechanic
    if what == "take-back":
        entry = form.text("entry")
        if not entry.isdecimal() or len(entry) > len(str(LARGEST_NUMBER)):
            raise NotUnderstood("Which entry is to be taken back? Tap it at its step.", "entry")
        take_back(shop, number, int(entry), by)
    elif what == "photo":
        if not form.files:
            raise NotUnderstood("No photo was chosen. Tap the photo field and take or pick one.", "photo")
        for photo in form.files:
            capture_photo(shop, number, at, photo.name, photo.data, by)
    else:
        capture(shop, number, _typed(what, at, form), by)


def _typed(what: str, at: str, form: SentForm) -> Typed:
    return Typed(
        what=what,
        at=at,
        fastener=form.text("fastener"),
        which=form.text("which"),
        length=form.text("length"),
        other=form.text("other"),
        condition=form.text("condition"),
        missing=form.text("missing"),
        words=form.text("words"),
        for_all=form.text("for_all") == "yes",
    )
