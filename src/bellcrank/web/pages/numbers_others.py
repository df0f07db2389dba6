"""The numbers bench beside the torque: what strips a thread, what a taper holds."""

from collections.abc import Callable

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.fastening.pull_out import WornHole, pull_out
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.taper import taper_release, taper_seat
from bellcrank.fastening.threads import Thread, parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import material_named, read_friction
from bellcrank.shop.tapers import taper_from_words
from bellcrank.units import read_positive
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

CLEAN = "0.15"  # [-] friction of a clean taper; from memory, see the pack's friction table
FRETTED = 0.30  # [-] break-out after fretting, 0.25 to 0.35; from memory


@router.get("/numbers/strip")
def strip(request: Request, shop: OpenShop) -> Response:
    """What strips the thread, as soon as thread, material and length are told."""
    typed = _typed(request)
    return _answered(
        typed,
        ("thread", "into", "engaged"),
        lambda: _strip(shop.library, typed),
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


def _strip(library: Library, typed: dict[str, str]) -> AnswerView:
    boss, hole = typed.get("boss", ""), typed.get("hole", "")
    thread = parse_thread(typed["thread"])
    found = pull_out(
        thread,
        read_positive(typed["engaged"], "length", default="mm", what="Thread engaged").si,
        material_named(library, typed["into"], "into"),
        bolt_tensile=_tensile(library, typed.get("strength", ""), thread),
        boss_width=read_positive(boss, "length", default="mm", what="Width of the boss").si if boss else None,
        worn=WornHole(read_positive(hole, "length", default="mm", what="Measured hole").si) if hole else None,
    )
    return strip_answer(found)


def _tensile(library: Library, strength: str, thread: Thread) -> float | None:
    if not strength:
        return None
    if strength not in library.strength_classes:
        known = ", ".join(library.strength_classes)
        raise NotFound(f"There is no strength class “{strength}”. It must be one of {known}.", "strength")
    return strength_at(library.strength_classes[strength], thread.diameter).tensile


def _taper(typed: dict[str, str]) -> AnswerView:
    length = typed.get("length") or typed["mean_diameter"]
    taken = () if typed.get("length") else (f"Length of the contact was not told: {length} is taken, as its width.",)
    sizes = taper_from_words({**typed, "length": length})
    friction = read_friction(typed.get("friction") or CLEAN)
    push = read_positive(typed["nut_force"], "force", default="kN", what="Push of the nut").si
    seat = taper_seat(push, sizes, friction)
    fretted = taper_release(seat.normal_force, sizes, max(friction, FRETTED))
    return taper_answer(seat, fretted, (*taken, f"Friction {friction:g} on the taper, as it was seated."))
