"""The numbers bench beside the torque: what strips a thread, what a taper holds."""

from collections.abc import Callable

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError
from bellcrank.shop.numbers import strip_from_words
from bellcrank.shop.tapers import seated_from_words
from bellcrank.web.forms import OpenShop
from bellcrank.web.rendering import show
from bellcrank.web.views.numbers_others import (
    AnswerView,
    OtherPage,
    strip_answer,
    strip_page,
    taper_answer,
    taper_page,
)
from bellcrank.web.views.plain import NO_PROBLEM, Problem

router = APIRouter()


@router.get("/numbers/strip")
def strip(request: Request, shop: OpenShop) -> Response:
    """What strips the thread, as soon as thread, material and length are told."""
    typed = _typed(request)
    return _answered(
        typed,
        ("thread", "into", "engaged"),
        lambda: strip_answer(strip_from_words(shop.library, typed)),
        lambda answer, problem: strip_page(shop.library, typed, answer, problem),
    )


@router.get("/numbers/taper")
def taper(request: Request) -> Response:
    """What a taper holds, as soon as taper, diameter and push are told."""
    typed = _typed(request)
    return _answered(
        typed,
        ("ratio", "mean_diameter", "nut_force"),
        lambda: _taper(typed),
        lambda answer, problem: taper_page(typed, answer, problem),
    )


def _typed(request: Request) -> dict[str, str]:
    return {key: value.strip() for key, value in request.query_params.items()}


def _answered(
    typed: dict[str, str],
    needs: tuple[str, ...],
    answer: Callable[[], AnswerView],
    page: Callable[[AnswerView | None, Problem], OtherPage],
) -> Response:
    if not all(typed.get(key) for key in needs):
        return show("numbers_others.html", page(None, NO_PROBLEM))
    try:
        return show("numbers_others.html", page(answer(), NO_PROBLEM))
    except BellcrankError as refusal:
        return show("numbers_others.html", page(None, Problem(refusal.sentence, refusal.field or "", typed)), 422)


def _taper(typed: dict[str, str]) -> AnswerView:
    length = typed.get("length") or typed["mean_diameter"]
    taken = () if typed.get("length") else (f"Length of the contact was not told: {length} is taken, as its width.",)
    return taper_answer(seated_from_words({**typed, "length": length}), taken)
