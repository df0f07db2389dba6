"""The job sheet and what is tapped on it: findings, repairs, taking back, photos."""

from collections.abc import Callable

from fastapi import APIRouter
from starlette.responses import FileResponse, Response

from bellcrank.errors import BellcrankError, NotFound, NotUnderstood
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_complaint, record_finding, record_reading, record_repair, take_back
from bellcrank.shop.further import further_line
from bellcrank.shop.machine_model import pack_for
from bellcrank.shop.photos import add_photo, photo_file
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.settings import read_settings
from bellcrank.shop.what_it_was import record_what_it_was
from bellcrank.web.forms import LARGEST_NUMBER, Form, JobNumber, OpenShop, SentForm
from bellcrank.web.rendering import go, show
from bellcrank.web.views.job import further_page, job_page
from bellcrank.web.views.plain import NO_PROBLEM, Problem

router = APIRouter()


def sheet_response(shop: Shop, number: int, problem: Problem = NO_PROBLEM) -> Response:
    """Show the job sheet, with a refusal on it when there is one."""
    sheet = job_sheet(shop, number)
    page = job_page(sheet, pack_for(shop, read_record(shop, number)), read_settings(shop), problem)
    return show("job.html", page, 422 if problem.sentence else 200)


def act(shop: Shop, number: int, form: SentForm, action: Callable[[], object], anchor: str = "") -> Response:
    """Do one thing and go back to the sheet; a refusal is shown on it with what was typed."""
    try:
        action()
    except NotFound:
        raise
    except BellcrankError as refusal:
        return sheet_response(shop, number, Problem(refusal.sentence, refusal.field or "", form.typed()))
    return go(f"/jobs/{number}{anchor}")


@router.get("/jobs/{number}")
def job(number: JobNumber, shop: OpenShop) -> Response:
    """The job sheet."""
    return sheet_response(shop, number)


@router.get("/jobs/{number}/checks")
def all_checks(number: JobNumber, shop: OpenShop) -> Response:
    """Every check and repair that can be done now, for recording what was already seen."""
    sheet = job_sheet(shop, number)
    page = job_page(sheet, pack_for(shop, read_record(shop, number)), read_settings(shop), everything=True)
    return show("checks.html", page)


@router.get("/jobs/{number}/further")
def further(number: JobNumber, shop: OpenShop, seconds: str = "") -> Response:
    """Look two steps ahead, and say whether that changes what to do first."""
    looked = further_line(shop, number, seconds)
    return show("further.html", further_page(job_sheet(shop, number), looked))


@router.post("/jobs/{number}/complaint")
def complaint(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record what the machine came in with."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: record_complaint(shop, number, form.text("complaint"), by))


@router.post("/jobs/{number}/found")
def found(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record the result of a check."""
    by, unsure = read_settings(shop).mechanic, form.text("unsure") == "yes"
    check, result = form.text("check"), form.text("result")
    if not result:
        return act(shop, number, form, lambda: record_reading(shop, number, check, form.text("reading"), by))
    return act(shop, number, form, lambda: record_finding(shop, number, check, result, by, unsure=unsure))


@router.post("/jobs/{number}/repaired")
def repaired(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record a repair and what it did."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: record_repair(shop, number, form.text("repair"), form.text("outcome"), by))


@router.post("/jobs/{number}/was")
def was(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record which cause it was, or how long the repair took."""
    by, cause, minutes = read_settings(shop).mechanic, form.text("cause"), form.text("minutes")
    return act(shop, number, form, lambda: record_what_it_was(shop, number, cause, minutes, by), "#was")


@router.post("/jobs/{number}/take-back")
def taken_back(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Take back the last thing recorded, or a named one."""
    named = form.text("event")
    event = int(named) if named.isdecimal() and len(named) <= len(str(LARGEST_NUMBER)) else None
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: take_back(shop, number, event, by))


@router.post("/jobs/{number}/photos")
def photos(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Add photos to the job."""
    by = read_settings(shop).mechanic

    def add_all() -> None:
        if not form.files:
            raise NotUnderstood("No photo was chosen. Tap the photo field and take or pick one.")
        for photo in form.files:
            add_photo(shop, number, photo.name, photo.data, by)

    return act(shop, number, form, add_all, "#story")


@router.get("/jobs/{number}/photos/{photo}")
def photo(number: JobNumber, photo: JobNumber, shop: OpenShop) -> Response:
    """Give a photo."""
    return FileResponse(photo_file(shop, number, photo), media_type="image/jpeg")
