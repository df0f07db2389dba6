"""A torque that nobody published: three taps without a job, or from a job's step and back into it."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.widening import wider
from bellcrank.fastening.window import recommend_torque
from bellcrank.figures.joint import joint_figure
from bellcrank.figures.torque_window import torque_window_figure
from bellcrank.shop.computed import fastener_of, joint_words, keep_computed
from bellcrank.shop.hand import by_own_hand, hand_of
from bellcrank.shop.numbers import joint_from_words, left_out
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import LARGEST_NUMBER, Form, OpenShop
from bellcrank.web.rendering import go, show
from bellcrank.web.views.numbers import OWN_HAND, TAPS, StepPlace, WindowView, numbers_page, step_place, window_view
from bellcrank.web.views.plain import Problem

router = APIRouter()


@router.get("/numbers")
def torque(request: Request, shop: OpenShop) -> Response:
    """The questions, and the window as soon as thread, mark and what it goes into are told."""
    typed = {key: value.strip() for key, value in request.query_params.items()}
    place = _place(shop, typed)
    if place is not None and not typed.get("thread"):
        typed |= joint_words(fastener_of(shop, int(typed["job"]), typed["fastener"]))
    if not typed.get("thread"):
        return show("numbers.html", numbers_page(shop.library, typed, own_hand=_own_hand(shop)))
    try:
        joint, by_hand = _joint(shop, typed)
        window = _window(shop, joint, (*by_hand, *left_out(joint, typed))) if _asked_enough(typed) else None
    except BellcrankError as refusal:
        return _refused(shop, typed, place, refusal)
    return show("numbers.html", numbers_page(shop.library, typed, window, place, own_hand=_own_hand(shop)))


@router.post("/numbers/keep")
def keep(shop: OpenShop, form: Form) -> Response:
    """Put the answer into the job's step, as the shop's own number with what it was computed from."""
    typed = form.typed()
    place = _place(shop, typed)
    if place is None:
        raise NotFound("No job was named to put this number into. Open the numbers bench from the job's step.")
    try:
        by = read_settings(shop).mechanic
        keep_computed(shop, int(typed["job"]), typed["fastener"], _joint(shop, typed)[0], by)
    except BellcrankError as refusal:
        return _refused(shop, typed, place, refusal)
    return go(place.back)


def _refused(shop: Shop, typed: dict[str, str], place: StepPlace | None, refusal: BellcrankError) -> Response:
    problem = Problem(refusal.sentence, refusal.field or "", typed)
    page = numbers_page(shop.library, typed, place=place, problem=problem, own_hand=_own_hand(shop))
    return show("numbers.html", page, 422)


def _asked_enough(typed: dict[str, str]) -> bool:
    return all(typed.get(key) for key in TAPS)


def _own_hand(shop: Shop) -> str:
    """Name the shop's mechanic when that hand was measured on some thread."""
    mechanic = read_settings(shop).mechanic
    return mechanic if mechanic and hand_of(shop, mechanic).hands else ""


def _place(shop: Shop, typed: dict[str, str]) -> StepPlace | None:
    """Find the step of the job this came from; None when it came from no job."""
    job, fastener = typed.get("job", ""), typed.get("fastener", "")
    if not job:
        return None
    if not job.isdecimal() or not 0 < int(job) <= LARGEST_NUMBER:
        raise NotFound(f"There is no job “{job}”. Pick the job from the bench.")
    return step_place(int(job), fastener_of(shop, int(job), fastener), typed)


def _joint(shop: Shop, typed: dict[str, str]) -> tuple[Joint, tuple[str, ...]]:
    """Read the joint, and what the mechanic's own hand does when it is tightened by that.

    A measured face of the head stands in a field of its own on this page.
    """
    said = {**typed, "head": typed.get("head_across") or typed.get("head", "")}
    if typed.get("tightened_by") != OWN_HAND:
        return joint_from_words(shop.library, said), ()
    joint, by_hand = by_own_hand(
        shop,
        joint_from_words(shop.library, {**said, "tightened_by": "hand feel"}),
        unit=read_settings(shop).torque_unit,
    )
    return joint, (by_hand,)


def _window(shop: Shop, joint: Joint, taken: tuple[str, ...]) -> WindowView:
    unit = read_settings(shop).torque_unit
    window = recommend_torque(joint)
    figures = (joint_figure(joint, window.limits[0]), torque_window_figure(window, unit))
    return window_view(window, wider(joint, window.limits, unit).words, unit, taken, figures)
