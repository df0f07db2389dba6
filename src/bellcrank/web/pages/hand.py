"""Somebody's own hand, measured: readings of screws tightened by feel, and what they are worth."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.hand import PersonHand, against_wanted, everyone, hand_of, record_reading, take_back_reading
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
            shop,
            typed.get("thread", ""),
            typed.get("reading", ""),
            unit=unit,
            person=typed.get("person", ""),
            after=_number(typed.get("after", "")),
        )
    except BellcrankError as refusal:
        return _shown(shop, typed, Problem(refusal.sentence, refusal.field or "reading", typed))
    return _back(typed)


@router.post(f"{HERE}/take-back")
def take_back(shop: OpenShop, form: Form) -> Response:
    """Take one reading back."""
    typed = form.typed()
    try:
        take_back_reading(
            shop, _chosen(typed.get("reading_id", "")), person=typed.get("person", ""), by=read_settings(shop).mechanic
        )
    except BellcrankError as refusal:
        return _shown(shop, typed, Problem(refusal.sentence, "", typed))
    return _back(typed)


def _chosen(number: str) -> int:
    chosen = _number(number)
    if chosen is None:
        raise NotFound(f"There is no reading “{number}”. Pick one of the readings below.")
    return chosen


def _number(text: str) -> int | None:
    """Give the number of a reading; None when it is none."""
    if not text.isdecimal() or len(text) > len(str(LARGEST_NUMBER)) or int(text) > LARGEST_NUMBER:
        return None
    return int(text)


def _back(typed: dict[str, str]) -> Response:
    return go(f"{HERE}?{urlencode({name: typed[name] for name in KEPT if typed.get(name)})}")


def _shown(shop: Shop, typed: dict[str, str], problem: Problem = NO_PROBLEM) -> Response:
    settings = read_settings(shop)
    unit = typed.get("unit") or settings.torque_unit
    known, thread, against, field = None, "", "", "person"
    try:
        known = hand_of(shop, typed.get("person", "")) if typed.get("person") or settings.mechanic else None
        field = "thread"
        thread = parse_thread(typed["thread"]).name if typed.get("thread") else ""
        field = "wanted"
        against = _against(known, thread, typed.get("wanted", ""), unit)
    except BellcrankError as refusal:
        if field != "wanted" or not problem.sentence:
            problem = Problem(refusal.sentence, field, typed)
    page = hand_page(known, thread, everyone(shop), typed, unit, against, problem)
    return show("hand.html", page, 422 if page.problem.sentence else 200)


def _against(known: PersonHand | None, thread: str, wanted: str, unit: str) -> str:
    """Hold the hand against the torque that is wanted, "" when none is."""
    if known is None or not thread or not wanted:
        return ""
    torque = read_positive(wanted, "torque", default=unit, what="The torque it should be").si
    return against_wanted(known, thread, torque, unit).words
