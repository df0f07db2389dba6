"""Price lines, agreements and the invoice."""

from fastapi import APIRouter
from starlette.responses import Response

from bellcrank.shop.billing import (
    add_line,
    drop_line,
    issue_invoice,
    price_ahead,
    propose_lines,
    record_agreement,
    record_worth,
)
from bellcrank.shop.settings import read_settings
from bellcrank.web.forms import Form, JobNumber, OpenShop
from bellcrank.web.pages.job import act

router = APIRouter()


@router.post("/jobs/{number}/price")
def line(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Add a line to the price."""
    by = read_settings(shop).mechanic
    return act(
        shop,
        number,
        form,
        lambda: add_line(
            shop,
            number,
            kind=form.text("kind"),
            words=form.text("words"),
            quantity=form.text("quantity"),
            unit_price=form.text("unit_price"),
            by=by,
        ),
        "#price",
    )


@router.post("/jobs/{number}/price/proposed")
def proposed(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Take the lines that follow from the repairs done."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: propose_lines(shop, number, by), "#price")


@router.post("/jobs/{number}/price/ahead")
def ahead(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Take the lines of a repair that is not done yet, for a quote."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: price_ahead(shop, number, form.text("repair"), by), "#price")


@router.post("/jobs/{number}/price/dropped")
def dropped(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Drop a line from the price."""
    named = form.text("line")
    by = read_settings(shop).mechanic
    line = int(named) if named.isdecimal() and len(named) <= 10 else 0
    return act(shop, number, form, lambda: drop_line(shop, number, line, by), "#price")


@router.post("/jobs/{number}/agreement")
def agreement(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record what the customer agreed to spend, and how."""
    by = read_settings(shop).mechanic
    return act(
        shop,
        number,
        form,
        lambda: record_agreement(shop, number, limit=form.text("limit"), how=form.text("how"), by=by),
        "#price",
    )


@router.post("/jobs/{number}/worth")
def worth(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Record what the machine is worth."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: record_worth(shop, number, worth=form.text("worth"), by=by), "#price")


@router.post("/jobs/{number}/invoice")
def invoice(number: JobNumber, shop: OpenShop, form: Form) -> Response:
    """Give the job its invoice number."""
    by = read_settings(shop).mechanic
    return act(shop, number, form, lambda: issue_invoice(shop, number, by), "#papers")
