"""Somebody's own hand, measured: readings of screws tightened by feel, and what they are worth."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.hand import PersonHand, against_wanted, hand_of, people, record_reading, take_back_reading
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.units import read_positive
from bellcrank.web.forms import LARGEST_NUMBER, Form, OpenShop
from bellcrank.web.rendering import go, show
from bellcrank.web.views.hand import HERE, KEPT, hand_page
from bellcrank.web.views.plain import NO_PROBLEM, Problem

router = APIRouter()


@router.get(HERE)
def hand(request: Request, shop: OpenShop) -> Response:
    """The measurement as far as it has come, and what the readings say."""
    return _shown(shop, {key: value.strip() for key, value in request.query_params.items()})


@router.post(HERE)
def keep(shop: OpenShop, form: Form) -> Response:
    """Keep one reading."""
    typed = form.typed()
    try:
        unit = typed.get("unit") or None
        record_reading(
            shop, typed.get("thread", ""), typed.get("reading", ""), unit=unit, person=typed.get("person", "")
        )
    except BellcrankError as refusal:
        return _shown(shop, typed, Problem(refusal.sentence, refusal.field or "reading", typed))
    return _back(typed)


@router.post(f"{HERE}/take-back")
def take_back(shop: OpenShop, form: Form) -> Response:
    """Take one reading back."""
    typed = form.typed()
    number = typed.get("reading_id", "")
    try:
        chosen = int(number) if number.isdecimal() and int(number) <= LARGEST_NUMBER else None
        take_back_reading(shop, chosen, person=typed.get("person", ""), by=read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _shown(shop, typed, Problem(refusal.sentence, "", typed))
    return _back(typed)


def _back(typed: dict[str, str]) -> Response:
    return go(f"{HERE}?{urlencode({name: typed[name] for name in KEPT if typed.get(name)})}")


def _shown(shop: Shop, typed: dict[str, str], problem: Problem = NO_PROBLEM) -> Response:
    settings = read_settings(shop)
    unit = typed.get("unit") or settings.torque_unit
    known = hand_of(shop, typed.get("person", "")) if typed.get("person") or settings.mechanic else None
    against, found = _against(known, typed, unit)
    page = hand_page(known, people(shop), typed, unit, against, problem if problem.sentence else found)
    return show("hand.html", page, 422 if page.problem.sentence else 200)


def _against(known: PersonHand | None, typed: dict[str, str], unit: str) -> tuple[str, Problem]:
    """Hold the hand against the torque that is wanted, and find what cannot be read."""
    field = "thread"
    try:
        thread = parse_thread(typed["thread"]).name if typed.get("thread") else ""
        field = "wanted"
        if known is None or not thread or not typed.get("wanted"):
            return "", NO_PROBLEM
        wanted = read_positive(typed["wanted"], "torque", default=unit, what="The torque it should be").si
        return against_wanted(known, thread, wanted, unit).words, NO_PROBLEM
    except BellcrankError as refusal:
        return "", Problem(refusal.sentence, field, typed)
