"""Recording a machine nobody drew up, one screen a step."""

from collections.abc import Callable

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.fill_causes import caution_lines
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.machine_model import like, like_words
from bellcrank.shop.premises import Shop
from bellcrank.shop.recording import (
    begin_recording,
    keep_as_model,
    record_step_with,
    recording,
    take_back_last_step,
)
from bellcrank.shop.recording_typed import FastenersTyped, StepTyped
from bellcrank.shop.records import read_record
from bellcrank.shop.settings import read_settings
from bellcrank.shop.storage.own_models import LikeThis
from bellcrank.web.forms import Form, JobNumber, OpenShop, SentForm
from bellcrank.web.rendering import go, show
from bellcrank.web.views.plain import NO_PROBLEM, Problem
from bellcrank.web.views.record import record_page

router = APIRouter()
HERE = "/jobs/{number}/record"
FIRST = ("plug-lead-off", "hot-muffler")  # cautions before the first step


@router.get(HERE)
def ask(number: JobNumber, shop: OpenShop) -> Response:
    """Ask what came off, or first of all for the plug lead."""
    return _asked(shop, number, StepTyped())


@router.post(f"{HERE}/lead-off")
def lead_off(number: JobNumber, shop: OpenShop) -> Response:
    """Record that the plug lead is off."""
    by = read_settings(shop).mechanic
    return _done(shop, number, StepTyped(), lambda: begin_recording(shop, number, by))


@router.post(HERE)
def keep_step(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record a step."""
    typed, by = _typed(form), read_settings(shop).mechanic
    photos = [(one.name, one.data) for one in form.files]

    def keep() -> None:
        record_step_with(shop, number, typed, note=form.text("note"), photos=photos, by=by)

    return _done(shop, number, typed, keep, form)


@router.post(f"{HERE}/take-back")
def take_back(number: JobNumber, shop: OpenShop) -> Response:
    """Take the last recorded step back."""
    by = read_settings(shop).mechanic
    return _done(shop, number, StepTyped(), lambda: take_back_last_step(shop, number, by))


@router.post(f"{HERE}/keep")
def keep_model(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep what was recorded as a model."""
    every_kind, by = form.text("for_kind") == "yes", read_settings(shop).mechanic
    try:
        keep_as_model(shop, number, every_kind=every_kind, by=by)
    except BellcrankError as refusal:
        return _asked(shop, number, StepTyped(), Problem(refusal.sentence, refusal.field or "", {}))
    return go("/own/models")


def _done(
    shop: Shop, number: int, typed: StepTyped, action: Callable[[], object], form: SentForm | None = None
) -> Response:
    try:
        action()
    except NotFound as refusal:
        if refusal.field is None:
            raise
        return _asked(shop, number, typed, _problem(refusal, form))
    except BellcrankError as refusal:
        return _asked(shop, number, typed, _problem(refusal, form))
    return go(f"/jobs/{number}/record")


def _problem(refusal: BellcrankError, form: SentForm | None) -> Problem:
    return Problem(refusal.sentence, refusal.field or "", form.typed() if form else {})


def _asked(shop: Shop, number: int, typed: StepTyped, problem: Problem = NO_PROBLEM) -> Response:
    sheet, machine = job_sheet(shop, number), read_record(shop, number).job.machine
    kept_for = (
        like_words(shop, machine, like(machine)),
        like_words(shop, machine, LikeThis(machine.kind, "", "")),
    )
    cautions = caution_lines(FIRST, shop.library.hazards)
    page = record_page(sheet, recording(shop, number), shop.library, kept_for, typed, cautions, problem)
    return show("record.html", page, 422 if problem.sentence else 200)


def _typed(form: SentForm) -> StepTyped:
    fields = ("count", "words", "thread", "length", "size", "where", "strength", "into", "engaged")
    screws = FastenersTyped(**{name: form.text(name) for name in fields})
    return StepTyped(
        part=form.text("part"),
        do=form.text("do"),
        tool=form.text("tool"),
        aside=form.text("aside") == "yes",
        lies=form.text("lies"),
        needs=form.texts("needs"),
        fasteners=(screws,) if screws.said else (),
    )
