"""“It was something else”, checks of one's own, and the list of what the shop added."""

from collections.abc import Callable

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.own_entries import CAUSE
from bellcrank.shop.own_list import own_files, own_lines
from bellcrank.shop.own_pack import (
    add_cause,
    add_check,
    change_cause,
    change_check,
    entry_named,
    odd_findings,
    take_back_entry,
    usual_outcome,
)
from bellcrank.shop.own_typed import CauseTyped, CheckTyped, ShowsTyped, cause_as_typed, check_as_typed
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import pack_of, read_record
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import Form, JobNumber, OpenShop, SentForm
from bellcrank.web.rendering import go, show, zipped
from bellcrank.web.views.own import cause_form, check_form, own_page
from bellcrank.web.views.plain import NO_PROBLEM, Problem

router = APIRouter()
HERE = "/own"
ROWS = 12  # of causes that a check shows; more than the form ever has


@router.get("/jobs/{number}/something-else")
def something_else(number: JobNumber, shop: OpenShop) -> Response:
    """Ask what it was."""
    return _cause_asked(shop, number, CauseTyped(""))


@router.post("/jobs/{number}/something-else")
def add_something_else(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep it as a cause of the shop's own, found and put right."""
    typed, explains = _cause_typed(form), form.texts("explains")
    outcome = form.text("outcome")
    by = read_settings(shop).mechanic
    try:
        add_cause(shop, number, typed, explains=explains, outcome=outcome, by=by)
    except BellcrankError as refusal:
        return _cause_asked(shop, number, typed, explains, outcome, _problem(refusal, form))
    return go(f"/jobs/{number}#next")


@router.get("/jobs/{number}/own-check")
def own_check(number: JobNumber, shop: OpenShop) -> Response:
    """Ask for a check of one's own."""
    return _check_asked(shop, number, CheckTyped(""))


@router.post("/jobs/{number}/own-check")
def add_own_check(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep it; it is ranked at once."""
    typed = _check_typed(form)
    try:
        add_check(shop, number, typed, by=read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _check_asked(shop, number, typed, _problem(refusal, form))
    return go(f"/jobs/{number}/checks")


@router.get(HERE)
def own(shop: OpenShop) -> Response:
    """List what the shop added."""
    return show("own.html", own_page(own_lines(shop)))


@router.get(f"{HERE}/tables.zip")
def tables(shop: OpenShop) -> Response:
    """Give what the shop added as tables in the format of packs."""
    return zipped(own_files(shop), "own-pack")


@router.get(HERE + "/{name}")
def entry(name: str, shop: OpenShop) -> Response:
    """Show an own entry to be changed."""
    return _change_asked(shop, name)


@router.post(HERE + "/{name}")
def change(name: str, shop: OpenShop, form: Form) -> Response:
    """Change an own entry."""
    if entry_named(shop, name).what == CAUSE:
        cause = _cause_typed(form)
        return _changed(shop, name, form, cause, lambda: change_cause(shop, name, cause))
    check = _check_typed(form)
    return _changed(shop, name, form, check, lambda: change_check(shop, name, check))


@router.post(HERE + "/{name}/take-back")
def taken_back(name: str, shop: OpenShop) -> Response:
    """Take an own entry back."""
    take_back_entry(shop, name, by=read_settings(shop).mechanic)
    return go(HERE)


def _changed(
    shop: Shop, name: str, form: SentForm, typed: CauseTyped | CheckTyped, action: Callable[[], None]
) -> Response:
    try:
        action()
    except BellcrankError as refusal:
        return _change_asked(shop, name, typed, _problem(refusal, form))
    return go(HERE)


def _cause_asked(
    shop: Shop,
    number: int,
    typed: CauseTyped,
    explains: tuple[str, ...] | None = None,
    outcome: str = "",
    problem: Problem = NO_PROBLEM,
) -> Response:
    page = cause_form(
        f"/jobs/{number}/something-else",
        f"/jobs/{number}",
        pack_of(shop, read_record(shop, number).job),
        typed,
        odd=odd_findings(shop, number),
        explains=explains,
        outcome=outcome or usual_outcome(shop, number),
        currency=read_settings(shop).currency,
        problem=problem,
    )
    return show("own_cause.html", page, 422 if problem.sentence else 200)


def _check_asked(shop: Shop, number: int, typed: CheckTyped, problem: Problem = NO_PROBLEM) -> Response:
    pack = pack_of(shop, read_record(shop, number).job)
    page = check_form(f"/jobs/{number}/own-check", f"/jobs/{number}", pack, shop.library.hazards, typed, problem)
    return show("own_check.html", page, 422 if problem.sentence else 200)


def _change_asked(
    shop: Shop, name: str, typed: CauseTyped | CheckTyped | None = None, problem: Problem = NO_PROBLEM
) -> Response:
    kept = entry_named(shop, name)
    if not kept.stands:
        raise NotFound(f"“{kept.body['words']}” was taken back. Look at the list of what this shop added.")
    status, action, pack = 422 if problem.sentence else 200, f"{HERE}/{name}", pack_now(shop, kept.kind)
    if kept.what == CAUSE:
        cause = typed if isinstance(typed, CauseTyped) else cause_as_typed(kept.body)
        currency = read_settings(shop).currency
        return show("own_cause.html", cause_form(action, HERE, pack, cause, currency=currency, problem=problem), status)
    check = typed if isinstance(typed, CheckTyped) else check_as_typed(kept.body)
    return show("own_check.html", check_form(action, HERE, pack, shop.library.hazards, check, problem), status)


def _problem(refusal: BellcrankError, form: SentForm) -> Problem:
    return Problem(refusal.sentence, refusal.field or "", form.typed())


def _cause_typed(form: SentForm) -> CauseTyped:
    return CauseTyped(
        words=form.text("words"),
        system=form.text("system"),
        minutes=form.text("minutes"),
        access=form.texts("access"),
        repair_words=form.text("repair_words"),
        price=form.text("price"),
    )


def _check_typed(form: SentForm) -> CheckTyped:
    rows = (
        ShowsTyped(form.text(f"cause-{row}"), form.text(f"how-{row}"), form.text(f"as-{row}")) for row in range(ROWS)
    )
    return CheckTyped(
        words=form.text("words"),
        minutes=form.text("minutes"),
        results=form.texts("result"),
        tools=form.text("tools"),
        access=form.texts("access"),
        shows=tuple(row for row in rows if row.cause),
        runs_engine=form.text("runs_engine") == "yes",
        hazards=form.texts("hazard"),
    )
