"""What closed jobs taught, how right the tool was, and counts for other shops and from them."""

from urllib.parse import urlencode

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.errors import BellcrankError, NotFound, NotUnderstood
from bellcrank.shop.fill_learnt import learnt_sheet
from bellcrank.shop.pooling import export_counts, import_counts, look_at, read_counts, take_back_counts
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import LARGEST_NUMBER, Form, OpenShop, SentForm
from bellcrank.web.rendering import go, show
from bellcrank.web.views.learnt import HERE, Offer, learnt_page, offer_of
from bellcrank.web.views.plain import NO_PROBLEM, Problem

router = APIRouter()


@router.get(HERE)
def learnt(shop: OpenShop, kind: str = "") -> Response:
    """What closed jobs taught."""
    return _shown(shop, kind)


@router.get(f"{HERE}/counts.json")
def export(shop: OpenShop, kind: str = "") -> Response:
    """Give the counts of the shop's own closed jobs as a file."""
    named = learnt_sheet(shop, kind).kind
    headers = {"content-disposition": f'attachment; filename="bellcrank-counts-{named}.json"'}
    return Response(export_counts(shop, named), media_type="application/json", headers=headers)


@router.post(f"{HERE}/counts")
def take_in(shop: OpenShop, form: Form) -> Response:
    """Take the counts of another shop in, or only say what they would bring."""
    kind = form.text("kind")
    try:
        name, data = _file(form)
        read = read_counts(shop, data)
        if form.text("do") == "look":
            offer = offer_of(look_at(shop, read), name, data.decode("utf-8-sig"))
            return _shown(shop, read.kind, offer=offer)
        import_counts(shop, data, name, read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _shown(shop, kind, problem=Problem(refusal.sentence, "file", {}))
    return _back(read.kind)


@router.post(f"{HERE}/take-back")
def take_back(shop: OpenShop, form: Form) -> Response:
    """Take the counts of another shop back."""
    kind, named = form.text("kind"), form.text("number")
    number = int(named) if named.isdecimal() and len(named) <= len(str(LARGEST_NUMBER)) else None
    try:
        if number is None:
            raise NotFound(f"There are no counts with the number “{named[:20]}”. Pick one below.")
        take_back_counts(shop, kind, number, read_settings(shop).mechanic)
    except BellcrankError as refusal:
        return _shown(shop, kind, problem=Problem(refusal.sentence, "", {}))
    return _back(kind)


def _file(form: SentForm) -> tuple[str, bytes]:
    """Give the file that was sent, or the text of one that was looked at before."""
    if form.files:
        return form.files[0].name, form.files[0].data
    if form.text("text"):
        return form.text("name"), form.text("text").encode()
    raise NotUnderstood("No file was chosen. Tap the field and pick the file another shop gave you.", "file")


def _shown(shop: Shop, kind: str, *, offer: Offer | None = None, problem: Problem = NO_PROBLEM) -> Response:
    kinds = tuple((name, pack.words) for name, pack in shop.library.packs.items())
    page = learnt_page(
        learnt_sheet(shop, kind if kind in shop.library.packs or not problem.sentence else ""), kinds, offer, problem
    )
    return show("learnt.html", page, 422 if problem.sentence else 200)


def _back(kind: str) -> Response:
    return go(f"{HERE}?{urlencode({'kind': kind})}#pool")
