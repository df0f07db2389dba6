"""Price lines, what was agreed, and the invoice."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from bellcrank.diagnosis.allowed import Flags, access_minutes
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.quote.currency import places_of
from bellcrank.quote.price import Line, Price, passes_limit, price
from bellcrank.shop.packs import compiled_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, pack_of, read_record, record, record_in
from bellcrank.shop.settings import Settings, read_settings
from bellcrank.shop.storage.events import KeptEvent, add_event, mark_taken_back
from bellcrank.shop.storage.things import add_invoice
from bellcrank.shop.texts import amount, clean_line

KINDS = ("part", "labour", "other")
UNITS = {"part": "pc", "labour": "h", "other": "pc"}
QUARTER_HOUR = 15  # [min] labour is written in quarter hours, rounded up: common practice, no source


@dataclass(frozen=True, slots=True)
class KeptLine:
    """A price line of a job."""

    id: int
    kind: str
    repair: str  # it is the labour or a part of; "" for a line written by hand
    line: Line


def terms_of(job: JobRecord, settings: Settings) -> Settings:
    """Give the settings a job is priced with: its money stays in the currency it began with, an invoice as written."""
    money = next(job.standing("price", "agreed", "worth"), None)
    terms = replace(settings, currency=money.body.get("currency", settings.currency)) if money else settings
    written = next(job.standing("invoice"), None)
    if written is None:
        return terms
    parts, labour = Decimal(written.body["parts_tax"]), Decimal(written.body["labour_tax"])
    return replace(terms, parts_tax=parts, labour_tax=labour)


def lines_of(job: JobRecord, settings: Settings) -> tuple[KeptLine, ...]:
    """Give the price lines of a job, taxed as the shop is set."""
    terms = terms_of(job, settings)
    return tuple(_line(event, terms) for event in job.standing("price"))


def _line(event: KeptEvent, settings: Settings) -> KeptLine:
    kind = event.body["kind"]
    tax = settings.labour_tax if kind == "labour" else settings.parts_tax
    body = event.body
    return KeptLine(
        event.id,
        kind,
        body.get("repair", ""),
        Line(body["words"], Decimal(body["quantity"]), Decimal(body["unit_price"]), Decimal(tax)),
    )


def price_of(job: JobRecord, settings: Settings) -> Price:
    """Price a job as it stands."""
    places = places_of(terms_of(job, settings).currency)
    return price([kept.line for kept in lines_of(job, settings)], places=places)


def spent_so_far(job: JobRecord, settings: Settings) -> Decimal:
    """Give the total of the lines that stand whatever is done next: all but those of repairs still ahead."""
    done = {event.body["repair"] for event in job.standing("repaired")}
    lines = [kept.line for kept in lines_of(job, settings) if not kept.repair or kept.repair in done]
    return price(lines, places=places_of(terms_of(job, settings).currency)).total


def agreed_limit(job: JobRecord) -> Decimal | None:
    """Give what may be spent before asking, by the last agreement."""
    last = next(reversed(list(job.standing("agreed"))), None)
    return Decimal(last.body["limit"]) if last else None


def worth_of(job: JobRecord) -> Decimal | None:
    """Give what the machine is worth, by what was told last; None when nobody told it."""
    last = next(reversed(list(job.standing("worth"))), None)
    return Decimal(last.body["worth"]) if last else None


def add_line(shop: Shop, number: int, *, kind: str, words: str, quantity: str, unit_price: str, by: str = "") -> int:
    """Add a price line, before tax."""
    if kind not in KINDS:
        raise NotUnderstood(f"“{kind}” is not a kind of line. It must be one of {', '.join(KINDS)}.", "kind")
    text = clean_line(words, "What it is for", field="words")
    if not text:
        raise NotUnderstood("The line does not say what it is for. Write a word or two.", "words")
    many = amount(quantity, "How many", field="quantity")
    if many <= 0:
        raise OutOfRange(
            f"How many is {quantity}; it must be above zero. Drop the line if nothing was used.", "quantity"
        )
    each = amount(unit_price, "The price", field="unit_price")
    settings, now = read_settings(shop), shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        _refuse_when_invoiced(job)
        body: dict[str, object] = {
            "kind": kind,
            "words": text,
            "quantity": str(many),
            "unit_price": str(each),
            "currency": terms_of(job, settings).currency,
        }
        return add_event(connection, job.job.id, "price", body, by=by, now=now)


def propose_lines(shop: Shop, number: int, by: str = "") -> int:
    """Add the lines that follow from the repairs done and not priced yet; give how many."""
    job = read_record(shop, number)
    names = dict.fromkeys(event.body["repair"] for event in job.standing("repaired"))
    nothing = "Every repair done is priced already, or none was done. Record the repair first."
    return _add_lines_of(shop, number, tuple(names), nothing, by)


def price_ahead(shop: Shop, number: int, repair: str, by: str = "") -> int:
    """Add the lines of a repair that is still ahead, for a quote; give how many."""
    pack = pack_of(shop, read_record(shop, number).job)
    found = next((one for one in pack.repairs if one.id == repair), None)
    if found is None:
        raise NotFound(f"There is no repair “{repair}”. Pick one from the job's list.", "repair")
    return _add_lines_of(shop, number, (repair,), f"“{found.words}” is priced already. Drop its lines first.", by)


def _add_lines_of(shop: Shop, number: int, names: tuple[str, ...], nothing: str, by: str) -> int:
    settings, now = read_settings(shop), shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        _refuse_when_invoiced(job)
        bodies = _unpriced(compiled_now(shop, job.job.machine.kind), job, names, terms_of(job, settings))
        if not bodies:
            raise NotAllowedNow(nothing)
        for body in bodies:
            add_event(connection, job.job.id, "price", body, by=by, now=now)
    return len(bodies)


def _unpriced(
    compiled: CompiledPack, job: JobRecord, names: tuple[str, ...], settings: Settings
) -> list[dict[str, object]]:
    """Give the labour and parts of the repairs that have no price line yet; what is opened is charged once a job."""
    priced = priced_repairs(job)
    charged = charged_access(compiled, priced)
    bodies: list[dict[str, object]] = []
    for name in names:
        if name in priced:
            continue
        repair = compiled.repairs[name]
        minutes = repair.minutes[1] + access_minutes(compiled, repair.access, charged)
        charged = charged | compiled.access_set(repair.access)
        hours = billed_hours(minutes)
        labour = {"words": repair.words, "quantity": str(hours), "unit_price": str(settings.labour_rate)}
        parts = ({"words": part.words, "quantity": "1", "unit_price": part.price} for part in repair.parts)
        kept = {"repair": name, "currency": settings.currency}
        bodies.append({"kind": "labour", **labour, **kept})
        bodies.extend({"kind": "part", **part, **kept} for part in parts)
    return bodies


def billed_hours(minutes: float) -> Decimal:
    """Give the hours that minutes of work are charged as, in whole quarters.

    >>> billed_hours(46)
    Decimal('1')
    """
    return Decimal(math.ceil(minutes / QUARTER_HOUR)) / 4


def priced_repairs(job: JobRecord) -> tuple[str, ...]:
    """Give the repairs whose lines stand on the job."""
    return tuple(dict.fromkeys(event.body["repair"] for event in job.standing("price") if "repair" in event.body))


def charged_access(compiled: CompiledPack, repairs: Iterable[str]) -> Flags:
    """Tell what is opened and closed for repairs, and charged with them; shape (accesses,)."""
    names = (name for repair in repairs for name in compiled.repairs[repair].access)
    return compiled.access_set(tuple(names))


def drop_line(shop: Shop, number: int, line: int, by: str = "") -> None:
    """Drop a price line."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        _refuse_when_invoiced(job)
        if line not in {event.id for event in job.standing("price")}:
            raise NotFound(f"Job {number} has no price line {line}. Pick one from its price.", "line")
        mark_taken_back(connection, line, by=by, now=now)


def record_agreement(shop: Shop, number: int, *, limit: str, how: str, by: str = "") -> int:
    """Record what the customer agreed to spend, who said so and how; the time is kept with it."""
    if not limit.strip():
        raise NotUnderstood("What may be spent is missing. Write the amount, tax included.", "limit")
    value = amount(limit, "What may be spent", field="limit")
    said = clean_line(how, "Who agreed, and how", field="how")
    if not said:
        raise NotUnderstood("Write who agreed and how, like: Ms Quay, by phone. It is the proof later.", "how")
    currency = terms_of(read_record(shop, number), read_settings(shop)).currency
    return record(shop, number, "agreed", {"limit": str(value), "how": said, "currency": currency}, by=by)


def record_worth(shop: Shop, number: int, *, worth: str, by: str = "") -> int:
    """Record what the machine is worth: more than that is not put into it."""
    if not worth.strip():
        raise NotUnderstood("What the machine is worth is missing. Write the amount, like 120.", "worth")
    value = amount(worth, "What the machine is worth", field="worth")
    if value <= 0:
        raise OutOfRange(f"What the machine is worth is {worth}; it must be above zero. Write the amount.", "worth")
    currency = terms_of(read_record(shop, number), read_settings(shop)).currency
    return record(shop, number, "worth", {"worth": str(value), "currency": currency}, by=by)


def issue_invoice(shop: Shop, number: int, by: str = "") -> str:
    """Give the job its invoice number; only within what was agreed."""
    kept, now = read_settings(shop), shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        _refuse_when_invoiced(job)
        settings = terms_of(job, kept)
        total = _billable(job, settings)
        named = add_invoice(
            connection, job.job.id, now, settings.currency, int(total.scaleb(places_of(settings.currency)))
        )
        taxes = {"parts_tax": str(settings.parts_tax), "labour_tax": str(settings.labour_tax)}
        add_event(connection, job.job.id, "invoice", {"number": named, **taxes}, by=by, now=now)
    return named


def _billable(job: JobRecord, settings: Settings) -> Decimal:
    """Give the total of a job, or refuse to bill it: nothing done, or more than was agreed."""
    priced = price_of(job, settings)
    if not priced.lines:
        raise NotAllowedNow("There is nothing to bill yet. Add the lines of the work first.")
    limit = agreed_limit(job)
    if passes_limit(priced.total, limit):
        raise NotAllowedNow(
            f"The total of {priced.total} {settings.currency} passes the {limit} {settings.currency} that were agreed. "
            "Ask the customer and record the new agreement first.",
            "limit",
        )
    return priced.total


def _refuse_when_invoiced(job: JobRecord) -> None:
    if job.job.invoice_number:
        raise NotAllowedNow(
            f"Invoice {job.job.invoice_number} is written for job {job.job.number}; its lines stand. Take in a new job "
            "for further work."
        )
