"""Filling in the price of a job sheet: the lines, and the range the whole job may come to."""

from decimal import Decimal

from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.quote.estimate import Estimate, Rates, RepairChance, estimate
from bellcrank.quote.price import Price, passes_limit
from bellcrank.shop.billing import UNITS, agreed_limit, lines_of, price_of, terms_of, with_needs
from bellcrank.shop.records import JobRecord
from bellcrank.shop.settings import Settings
from bellcrank.shop.sheet import PriceLine, PriceSheet, TaxLine

LIKELY_TO_PASS = 0.3  # [-] chance of passing what was agreed at which she should ask before starting
LEAST_CHANCE = 0.01


def price_sheet(job: JobRecord, settings: Settings, compiled: CompiledPack, belief: Belief | None) -> PriceSheet:
    """Lay out the price."""
    settings = terms_of(job, settings)
    priced = price_of(job, settings)
    limit = agreed_limit(job)
    still_open = belief if not job.job.invoice_number else None
    expected = _expected(compiled, still_open, settings, priced, limit) if still_open else None
    low, high = (expected.low, expected.high) if expected else (priced.total, priced.total)
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
    )


def _expected(
    compiled: CompiledPack, belief: Belief, settings: Settings, priced: Price, limit: Decimal | None
) -> Estimate | None:
    """Estimate the whole job from the likely repairs; None when it is cured or nothing is likely."""
    if belief.cured:
        return None
    chances = _repair_chances(compiled, belief)
    if not chances:
        return None
    rates = Rates(settings.labour_rate, settings.labour_tax, settings.parts_tax)
    return estimate(chances, rates, spent=priced.total, limit=limit)


def _repair_chances(compiled: CompiledPack, belief: Belief) -> list[RepairChance]:
    total = sum(belief.blocking.values())
    chances: dict[str, float] = {}
    for cause in compiled.pack.causes:
        if cause.repair and total:
            chances[cause.repair] = chances.get(cause.repair, 0.0) + belief.blocking[cause.id] / total
    return [
        RepairChance(
            words=compiled.repairs[name].words,
            chance=min(1.0, chance),
            minutes=compiled.repairs[name].minutes,
            access_minutes=sum(
                one.open_minutes + one.close_minutes
                for one in with_needs(compiled.repairs[name].access, compiled.accesses)
            ),
            parts=sum((Decimal(part.price) for part in compiled.repairs[name].parts), Decimal(0)),
        )
        for name, chance in chances.items()
        if chance >= LEAST_CHANCE
    ]


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
