"""Numbers of a job sheet in the words of its papers."""

from typing import Any

from bellcrank.both_systems import both_torques, torque_window
from bellcrank.shop.captured_sheet import missing_words
from bellcrank.shop.price_sheet import PriceSheet
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.words import coins, day, gap_words, money, money_range, rounds_of
from bellcrank.shop.work_sheet import CautionLine, FastenerLine, StepLine


def fastener_words(line: FastenerLine, unit: str) -> dict[str, str]:
    """Write a fastener with its torque: value, other system, window, basis, source."""
    fastener = line.fastener
    length = f", {fastener.length_mm:.0f} mm long" if fastener.length_mm else ""
    what = f"{fastener.count} × {fastener.words}, {fastener.size} {fastener.drive}{length}; {fastener.where}"
    rounds = rounds_of(line, unit)
    told = (
        missing_words(fastener, "out"),
        fastener.thread_care,
        f"All {fastener.count} by hand first" if fastener.by_hand_first else "",
        fastener.pattern,
        f"Rounds: {', then '.join(rounds)}" if rounds else "",
    )
    care = " ".join(_sentence(one) for one in told if one)
    if line.torque is None:
        return {"what": what, "torque": "", "window": line.no_torque_words, "doubt": ""}
    torque = line.torque
    window = f"{torque_window(torque.low_nm, torque.high_nm, unit)}, {torque.basis}"
    limited = f"; limited by {torque.governs}" if torque.governs else ""
    return {
        "what": what,
        "torque": both_torques(torque.target_nm, unit),
        "window": f"{window}, {torque.source}{limited}. {care}".rstrip(),
        "doubt": torque.doubt,
    }


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""


def step_words(step: StepLine, unit: str) -> dict[str, Any]:
    """Write a step with its cautions, fasteners and checks."""
    return {
        "number": str(step.number),
        "do": step.do,
        "turn": step.turn_first,
        "tool": "" if step.tool == "hand" else step.tool,
        "done": step.done,
        "cautions": [caution_words(line) for line in step.cautions],
        "fasteners": [fastener_words(line, unit) for line in step.fasteners]
        if step.direction == "out"
        else [
            {"what": fastener_words(line, unit)["what"], "torque": "", "window": "", "doubt": ""}
            for line in step.fasteners
        ],
        "checks": [
            *(f"Gap, {one.where}: {gap_words(one)}, {one.basis}" for one in step.gaps),
            *(f"New: {one}" for one in step.renew),
            *step.checks,
            *step.free,
        ],
    }


def caution_words(line: CautionLine) -> dict[str, str]:
    """Write a caution."""
    return {"signal": line.signal, "words": f"{line.control} {line.consequence}"}


def price_words(price: PriceSheet) -> dict[str, Any]:
    """Write the price lines, taxes and total."""
    return {
        "lines": [
            {
                "words": line.words,
                "quantity": f"{line.quantity.normalize():f} {line.unit}",
                "each": coins(line.unit_price, price.currency),
                "tax": f"{line.tax_percent.normalize():f} %",
                "net": coins(line.net, price.currency),
            }
            for line in price.lines
        ],
        "net": coins(price.net, price.currency),
        "taxes": [
            {
                "words": f"Tax {tax.percent.normalize():f} % of {coins(tax.net, price.currency)}",
                "amount": coins(tax.tax, price.currency),
            }
            for tax in price.taxes
        ],
        "total": coins(price.total, price.currency),
        "currency": price.currency,
        "expected": money_range(price.expected_low, price.expected_high, price.currency),
        "agreed": "" if price.agreed_limit is None else money(price.agreed_limit, price.currency),
        "invoice": price.invoice_number,
    }


def head_words(sheet: JobSheet) -> dict[str, Any]:
    """Write what stands at the head of every paper: job, machine, customer, story."""
    return {
        "number": str(sheet.number),
        "state": sheet.state,
        "day": day(sheet.taken_in_at),
        "machine": sheet.machine.words,
        "serial": sheet.machine.serial,
        "engine": sheet.machine.engine_words,
        "customer": sheet.customer.name,
        "phone": sheet.customer.phone,
        "email": sheet.customer.email,
        "address": sheet.customer.address,
        "complaint": sheet.complaint_words,
        "complaints": ", ".join(sheet.complaints),
        "facts": "; ".join(sheet.facts),
    }
