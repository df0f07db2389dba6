"""The way in and the way out, ticked off with one thumb; torques as known for this machine."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.shop.typed_torque import record_torque
from bellcrank.shop.work import choose_target, tick
from bellcrank.web.forms import Form, JobNumber, KeptTap, OpenShop
from bellcrank.web.pages.job import act
from bellcrank.web.rendering import go, show
from bellcrank.web.views.plain import NO_PROBLEM, Problem, TroublePage
from bellcrank.web.views.steps import step_page, whole_way

router = APIRouter()


def steps_response(shop: Shop, number: int, wanted: tuple[str, int] | None, problem: Problem = NO_PROBLEM) -> Response:
    """Show one step, or send back to the sheet when no way was chosen."""
    page = step_page(job_sheet(shop, number), read_settings(shop).torque_unit, wanted, problem)
    if page is None and problem.sentence:
        return show("trouble.html", TroublePage("That did not work", problem.sentence), 422)
    if page is None:
        return go(f"/jobs/{number}#work")
    return show("step.html", page, 422 if problem.sentence else 200)


@router.post("/jobs/{number}/target")
def target(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Choose the part to get to."""
    by = read_settings(shop).mechanic
    also = form.text("also") == "yes"
    return act(shop, number, form, lambda: choose_target(shop, number, form.text("target"), also=also, by=by), "/steps")


@router.get("/jobs/{number}/steps")
def steps(number: JobNumber, shop: OpenShop, way: str = "", step: int = 0) -> Response:
    """Show one step: the one asked for, else the first not done."""
    return steps_response(shop, number, (way, step) if way in ("in", "out") and step > 0 else None)


@router.get("/jobs/{number}/way")
def way(number: JobNumber, shop: OpenShop, request: Request) -> Response:
    """Every step of the way in and out, for a phone that will be out of reach; nothing while nobody wrote anything."""
    mark = f'"{"-".join(map(str, shop.storage.mark()))}"'
    if request.headers.get("if-none-match") == mark:
        return Response(status_code=304, headers={"etag": mark})
    pages = whole_way(job_sheet(shop, number), read_settings(shop).torque_unit)
    if not pages:
        raise NotFound(f"Job {number} has no way in yet. Choose the part to get to on its sheet.")
    answer = show("whole_way.html", pages)
    answer.headers["etag"] = mark
    return answer


@router.post("/jobs/{number}/steps")
def tick_step(number: JobNumber, shop: OpenShop, form: Form, kept: KeptTap) -> Response:
    """Tick a step, or take the tick off."""
    direction, operation = form.text("direction"), form.text("operation")
    done = form.text("done") != "no"
    by = read_settings(shop).mechanic
    try:
        tick(shop, number, direction, operation, done=done, by=by, only_new=kept)
    except BellcrankError as refusal:
        return steps_response(shop, number, None, Problem(refusal.sentence, refusal.field or "", form.typed()))
    stay = f"?way={direction}&step={form.text('number')}" if not done else ""
    return go(f"/jobs/{number}/steps{stay}")


@router.post("/jobs/{number}/torques")
def torque(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Keep a torque that is known for this machine's fastener."""
    by = read_settings(shop).mechanic
    place = form.text("number")
    wanted = (form.text("direction"), int(place)) if place.isdecimal() and len(place) < 5 else None
    try:
        record_torque(
            shop,
            number,
            form.text("fastener"),
            form.text("torque"),
            basis=form.text("basis"),
            source=form.text("source"),
            by=by,
        )
    except BellcrankError as refusal:
        return steps_response(shop, number, wanted, Problem(refusal.sentence, refusal.field or "", form.typed()))
    return go(f"/jobs/{number}/steps?way={form.text('direction')}&step={place}")
