"""Filling in the price of a job sheet: the lines, and the range the whole job may come to."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from bellcrank.diagnosis.allowed import Flags, access_minutes
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.counted import Terms
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.next_step import ASK
from bellcrank.quote.currency import places_of
from bellcrank.quote.estimate import Estimate, Rates, RepairChance, chances_over, estimate
from bellcrank.quote.price import Price, passes_limit
from bellcrank.quote.worth import minutes_per_price, work_worth
from bellcrank.shop.billing import (
    UNITS,
    agreed_limit,
    billed_hours,
    charged_access,
    lines_of,
    price_of,
    priced_repairs,
    spent_so_far,
    terms_of,
    worth_of,
)
from bellcrank.shop.price_sheet import AheadLine, PriceLine, PriceSheet, TaxLine
from bellcrank.shop.records import JobRecord
from bellcrank.shop.settings import Settings
from bellcrank.shop.sheet import NextLine
from bellcrank.shop.words import money

LIKELY_TO_PASS = 0.3  # [-] chance of passing what was agreed at which she should ask before starting
LEAST_CHANCE = 0.01
WORTH_QUOTING = 0.1  # [-] chance from which a repair is offered for the quote
MOST_QUOTED = 3


def price_sheet(job: JobRecord, settings: Settings, compiled: CompiledPack, belief: Belief | None) -> PriceSheet:
    """Lay out the price."""
    settings = terms_of(job, settings)
    priced = price_of(job, settings)
    limit = agreed_limit(job)
    open_to_it = belief is not None and not job.job.invoice_number and not belief.cured
    chances = _repair_chances(compiled, belief, job) if belief and open_to_it else {}
    expected = _expected(chances, job, settings, limit)
    low, middle, high = (expected.low, expected.middle, expected.high) if expected else (priced.total,) * 3
    kept = lines_of(job, settings)
    return PriceSheet(
        lines=tuple(
            PriceLine(
                id=one.id,
                kind=one.kind,
                words=one.line.words,
                quantity=one.line.quantity,
                unit=UNITS[one.kind],
                unit_price=one.line.unit_price,
                tax_percent=one.line.tax_percent,
                net=line.net,
            )
            for one, line in zip(kept, priced.lines, strict=True)
        ),
        net=priced.net,
        taxes=tuple(TaxLine(tax.percent, tax.net, tax.tax) for tax in priced.taxes),
        total=priced.total,
        currency=settings.currency,
        agreed_limit=limit,
        over_limit=passes_limit(priced.total, limit),
        expected_low=low,
        expected_high=high,
        over_words=_over_words(priced, limit, expected, settings.currency),
        invoice_number=job.job.invoice_number,
        ahead=_ahead(chances, job),
        expected_middle=middle,
        worth=worth_of(job),
    )


def plan_terms(job: JobRecord, settings: Settings, compiled: CompiledPack) -> Terms:
    """Give what the plan of a job counts with: its rates, what may be spent, what the machine is worth."""
    settings = terms_of(job, settings)
    rates = rates_of(settings)
    agreed, worth = agreed_limit(job), worth_of(job)
    limit = worth if agreed is None else agreed
    over: tuple[float, ...] = ()
    if limit is not None:
        every = tuple(_as_billed(compiled, job, dict.fromkeys((one.id for one in compiled.pack.repairs), 1.0)).values())
        places = places_of(settings.currency)
        over = chances_over(every, rates, limit, spent=spent_so_far(job, settings), places=places)
    return Terms(minutes_per_price(rates), None if worth is None else work_worth(worth, rates), over)


def with_range(lines: Iterable[NextLine], price: PriceSheet) -> tuple[NextLine, ...]:
    """Tell the line that asks the customer which range it is asked with."""
    middle, high = money(price.expected_middle, price.currency), money(price.expected_high, price.currency)
    told = f"Half of such jobs stay below {middle}, nine in ten below {high}, tax included."
    return tuple(replace(one, why=f"{told} {one.why}") if one.id == ASK else one for one in lines)


def rates_of(settings: Settings) -> Rates:
    """Give what an hour costs, and the taxes."""
    return Rates(settings.labour_rate, settings.labour_tax, settings.parts_tax)


def _expected(
    chances: Mapping[str, RepairChance], job: JobRecord, settings: Settings, limit: Decimal | None
) -> Estimate | None:
    """Estimate the whole job from the likely repairs; None when it is cured or nothing is likely."""
    if not chances:
        return None
    places = places_of(settings.currency)
    return estimate(
        tuple(chances.values()), rates_of(settings), spent=spent_so_far(job, settings), limit=limit, places=places
    )


def _repair_chances(compiled: CompiledPack, belief: Belief, job: JobRecord) -> dict[str, RepairChance]:
    """Give the likely repairs."""
    total = sum(belief.blocking.values())
    chances: dict[str, float] = {}
    for cause in compiled.pack.causes:
        if cause.repair and total:
            chances[cause.repair] = chances.get(cause.repair, 0.0) + belief.blocking[cause.id] / total
    likely = {name: min(1.0, chance) for name, chance in chances.items() if chance >= LEAST_CHANCE}
    return _as_billed(compiled, job, likely)


def _as_billed(compiled: CompiledPack, job: JobRecord, chances: Mapping[str, float]) -> dict[str, RepairChance]:
    """Give repairs as they would be billed; what the lines charge already is not charged again."""
    done = tuple(event.body["repair"] for event in job.standing("repaired"))
    charged = charged_access(compiled, [name for name in priced_repairs(job) if name in done])
    written = {name: _as_written(job, name) for name in priced_repairs(job) if name not in done}
    return {name: _chance(compiled, name, chance, charged, written.get(name)) for name, chance in chances.items()}


@dataclass(frozen=True, slots=True)
class _Written:
    """What the lines of a repair that is still ahead come to."""

    minutes: float
    parts: Decimal


def _as_written(job: JobRecord, repair: str) -> _Written:
    hours, parts = Decimal(0), Decimal(0)
    for event in job.standing("price"):
        if event.body.get("repair") == repair:
            quantity, each = Decimal(event.body["quantity"]), Decimal(event.body["unit_price"])
            hours += quantity if event.body["kind"] == "labour" else 0
            parts += quantity * each if event.body["kind"] != "labour" else 0
    return _Written(float(hours * 60), parts)


def _chance(compiled: CompiledPack, name: str, chance: float, charged: Flags, written: _Written | None) -> RepairChance:
    """Give a repair at what would be billed for it: its lines, or its minutes in whole quarter hours and its parts."""
    repair = compiled.repairs[name]
    if written is not None:
        return RepairChance(repair.words, chance, (written.minutes,) * 3, 0.0, written.parts)
    access = access_minutes(compiled, repair.access, charged)
    low, typical, high = (float(billed_hours(access + minutes) * 60) - access for minutes in repair.minutes)
    parts = sum((Decimal(part.price) for part in repair.parts), Decimal(0))
    return RepairChance(repair.words, chance, (low, typical, high), access, parts)


def _ahead(chances: Mapping[str, RepairChance], job: JobRecord) -> tuple[AheadLine, ...]:
    """Give the repairs a quote is most likely about and that have no lines yet."""
    priced = priced_repairs(job)
    likely = sorted(chances.items(), key=lambda one: -one[1].chance)
    lines = (AheadLine(name, one.words, one.chance) for name, one in likely if one.chance >= WORTH_QUOTING)
    return tuple(line for line in lines if line.id not in priced)[:MOST_QUOTED]


def _over_words(priced: Price, limit: Decimal | None, expected: Estimate | None, currency: str) -> str:
    if limit is None:
        return ""
    if passes_limit(priced.total, limit):
        return (
            f"The lines come to {priced.total} {currency}, more than the {limit} {currency} agreed. Ask before you go "
            "on, and record the new agreement."
        )
    if expected and expected.chance_over is not None and expected.chance_over >= LIKELY_TO_PASS:
        return (
            f"As it looks now, {expected.chance_over * 10:.0f} in 10 such jobs pass the {limit} {currency} agreed. Ask "
            "before you start the repair."
        )
    return ""
