"""The bench and the take-in."""

from fastapi import APIRouter
from starlette.responses import PlainTextResponse, Response

from bellcrank.errors import BellcrankError
from bellcrank.shop.fill_sheet import bench_sheet
from bellcrank.shop.intake import Story, pack_at_the_door, take_in
from bellcrank.shop.photos import add_photo, check_photo
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import Form, OpenShop, SentForm
from bellcrank.web.rendering import go, show
from bellcrank.web.views.plain import Problem, bench_page
from bellcrank.web.views.take_in import TakeInPage, take_in_page

router = APIRouter()


@router.get("/")
def bench(shop: OpenShop) -> Response:
    """Today's bench."""
    return show("bench.html", bench_page(read_settings(shop).shop_name, bench_sheet(shop)))


@router.get("/alive")
def alive() -> Response:
    """Say that the page is served, for whoever starts it."""
    return PlainTextResponse("open")


@router.get("/take-in")
def door(shop: OpenShop, kind: str = "") -> Response:
    """The form at the door, for the kind of machine asked for."""
    return show("take_in.html", take_in_page(shop.library, read_settings(shop).currency, pack_at_the_door(shop, kind)))


@router.post("/take-in/kind")
def other_kind(shop: OpenShop, form: Form) -> Response:
    """The form at the door for another kind of machine, with everything that was typed."""
    return show("take_in.html", _form_again(shop, form, form.text("other_kind")))


@router.post("/take-in")
def take_machine_in(shop: OpenShop, form: Form) -> Response:
    """Take the machine in; a refusal shows the form again with everything that was typed."""
    settings = read_settings(shop)
    try:
        for photo in form.files:
            check_photo(photo.name, photo.data)
        number = take_in(shop, _story(form))
        for photo in form.files:
            add_photo(shop, number, photo.name, photo.data, settings.mechanic)
    except BellcrankError as refusal:
        return show("take_in.html", _form_again(shop, form, form.text("kind"), refusal), 422)
    return go(f"/jobs/{number}")


def _form_again(shop: Shop, form: SentForm, kind: str, refusal: BellcrankError | None = None) -> TakeInPage:
    """Lay out the form with what was typed and tapped; what the kind of machine does not know falls away."""
    said, field = (refusal.sentence, refusal.field or "") if refusal else ("", "")
    problem = Problem(said, field, form.typed())
    chosen = frozenset((*form.texts("complaint"), *(f"{k}={v}" for k, v in form.starting("fact:").items())))
    pack = pack_at_the_door(shop, "" if field == "kind" else kind)
    return take_in_page(shop.library, read_settings(shop).currency, pack, problem, chosen)


def _story(form: SentForm) -> Story:
    return Story(
        complaint_words=form.text("complaint_words"),
        complaints=form.texts("complaint"),
        facts=form.starting("fact:"),
        name=form.text("name"),
        phone=form.text("phone"),
        email=form.text("email"),
        address=form.text("address"),
        kind=form.text("kind"),
        maker=form.text("maker"),
        model=form.text("model"),
        serial=form.text("serial"),
        engine_card=form.text("engine_card"),
        agreed_limit=form.text("agreed_limit"),
    )
