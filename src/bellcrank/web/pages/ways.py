"""The way in to parts of a kind of machine, without a job; and the other ways of a job."""

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import Response

from bellcrank.errors import NotFound
from bellcrank.shop.intake import pack_at_the_door
from bellcrank.shop.machine_model import pack_of_kind
from bellcrank.shop.other_ways import other_ways
from bellcrank.shop.settings import read_settings
from bellcrank.shop.ways import way_in_to
from bellcrank.shop.work import plan_without
from bellcrank.teardown.search import Effort
from bellcrank.web.forms import Form, JobNumber, OpenShop
from bellcrank.web.rendering import go, show
from bellcrank.web.views.plain import NO_PROBLEM, Problem
from bellcrank.web.views.ways import other_ways_page, ways_page

router = APIRouter()
SOON = Effort(most_states=8_000)  # [-] a second or two, whatever is picked; what is not proven by then says so


@router.get("/ways")
def ways(shop: OpenShop, to: Annotated[list[str] | None, Query()] = None, kind: str = "") -> Response:
    """Choose a kind of machine and parts of it; shows what comes off, in which order, with which tools."""
    pack, named = pack_at_the_door(shop, kind), tuple(to or ())
    sheet, problem = None, NO_PROBLEM
    try:
        sheet = way_in_to(shop, pack.kind, named, effort=SOON) if named else None
    except NotFound as refusal:
        problem = Problem(refusal.sentence, refusal.field or "", {})
    page = ways_page(shop.library, pack_of_kind(shop, pack.kind), named, sheet, problem)
    return show("ways.html", page, 422 if problem.sentence else 200)


@router.get("/jobs/{number}/other-ways")
def others(number: JobNumber, shop: OpenShop) -> Response:
    """What else could be done on a job's way in, and what it would take."""
    return show("other_ways.html", other_ways_page(other_ways(shop, number)))


@router.post("/jobs/{number}/other-ways")
def choose(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Plan the way anew without what was barred; with everything when nothing was."""
    plan_without(shop, number, form.texts("barred"), read_settings(shop).mechanic)
    return go(f"/jobs/{number}/steps")
