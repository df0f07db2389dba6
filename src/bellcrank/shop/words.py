"""How the numbers of a sheet are said: the same words on the page, in the terminal and on paper."""

from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal

from bellcrank.both_systems import both_torques, both_windows
from bellcrank.knowledge.assembly import Fastener
from bellcrank.quote.currency import places_of
from bellcrank.shop.price_sheet import ExpectedLine
from bellcrank.shop.work_sheet import FastenerLine, GapLine, TorqueLine
from bellcrank.teardown.search import HAIR

WORTH_TELLING = 0.05  # [-] chance that it ends without a cure
MM_IN_INCH = 25.4  # exact, by definition of the inch
SURE = 0.995  # [-] above it (and below its counterpart) a probability is not said in whole percents


def percent(probability: float) -> str:
    """Say a probability; never 0 % or 100 %, because nothing is certain.

    >>> percent(0.914), percent(0.001), percent(0.999)
    ('91 %', 'under 1 %', 'over 99 %')
    """
    if probability < 1 - SURE:
        return "under 1 %"
    return "over 99 %" if probability > SURE else f"{100 * probability:.0f} %"


def in_a_hundred(probability: float) -> str:
    """Say how many of a hundred such machines; never none and never all.

    >>> in_a_hundred(0.124), in_a_hundred(0.001), in_a_hundred(0.999)
    ('12', 'under 1', 'over 99')
    """
    return percent(probability).removesuffix(" %")


def part_words(parts: Iterable[str]) -> str:
    """Name parts one after the other.

    >>> part_words(["flywheel-key", "blade"])
    'flywheel key and the blade'
    """
    return " and the ".join(part.replace("-", " ") for part in parts)


def minutes(value: float) -> str:
    """Say a time of work.

    >>> minutes(0.4), minutes(9.2), minutes(95)
    ('under 1 min', '9 min', '1 h 35 min')
    """
    whole = round(value)
    if whole < 1:
        return "under 1 min" if value > 0 else "no time"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def torque_line(line: TorqueLine, unit: str = "N·m") -> str:
    """Say a torque with window, basis and source in one line, always in this order; ``unit`` is the shop's."""
    typed = f", typed “{line.typed}”" if line.typed else ""
    source = f": {line.source}" if line.source not in ("", line.basis) else ""
    window = both_windows(line.low_nm, line.high_nm, unit)
    return f"{both_torques(line.target_nm, unit)}, window {window}{typed}, {line.basis}{source}"


def why_words(why: Iterable[str]) -> str:
    """Say what a step of a way in is done for.

    >>> why_words(["holds the shroud", "comes before the flywheel"]), why_words([])
    ('It holds the shroud and comes before the flywheel.', '')
    """
    reasons = " and ".join(why)
    return f"It {reasons}." if reasons else ""


def by_hand_words(fastener: Fastener) -> str:
    """Say that a whole group is started by hand before any of it is tightened; "" where it need not be."""
    if not fastener.by_hand_first:
        return ""
    return "start both by hand first" if fastener.count == 2 else f"start all {fastener.count} by hand first"


def rounds_of(line: FastenerLine, unit: str = "N·m") -> tuple[str, ...]:
    """Say the torque of each round a group is tightened in; none where one round does."""
    torque = line.torque
    return tuple(both_torques(share * torque.target_nm, unit) for share in line.fastener.stages) if torque else ()


def gap_in_words(gap: float) -> str:
    """Say whether a shorter way in may exist, and by how much; ``gap`` in minutes.

    >>> gap_in_words(0.0), gap_in_words(2.0)
    ('no shorter way exists', 'at most 2 min longer than the shortest')
    """
    return "no shorter way exists" if gap <= HAIR else f"at most {minutes(gap)} longer than the shortest"


def gap_words(line: GapLine) -> str:
    """Say a gap in millimetres and thousandths of an inch, as feelers are marked.

    >>> gap_words(GapLine("coil to magnet", 0.25, 0.25, "guess", "")), gap_words(GapLine("", 0.1, 0.15, "guess", ""))
    ('0.25 mm (0.010 in)', '0.10 to 0.15 mm (0.004 to 0.006 in)')
    """
    low, high = line.low_mm, line.high_mm
    if low == high:
        return f"{low:.2f} mm ({low / MM_IN_INCH:.3f} in)"
    return f"{low:.2f} to {high:.2f} mm ({low / MM_IN_INCH:.3f} to {high / MM_IN_INCH:.3f} in)"


def money(amount: Decimal, currency: str) -> str:
    """Say an amount of money.

    >>> money(Decimal("1234.5"), "EUR"), money(Decimal("1234"), "JPY")
    ('1234.50 EUR', '1234 JPY')
    """
    return f"{coins(amount, currency)} {currency}"


def coins(amount: Decimal, currency: str) -> str:
    """Say an amount without its currency, with the digits the currency has."""
    return f"{amount:.{places_of(currency)}f}"


def money_range(low: Decimal, high: Decimal, currency: str) -> str:
    """Say a range of money, one amount when it is none.

    >>> money_range(Decimal("40"), Decimal("65.5"), "EUR"), money_range(Decimal("40"), Decimal("40"), "EUR")
    ('40.00 to 65.50 EUR', '40.00 EUR')
    """
    return money(high, currency) if low == high else f"{coins(low, currency)} to {money(high, currency)}"


def ahead_words(ahead: ExpectedLine, currency: str) -> str:
    """Say what is ahead: time at the bench, money with parts, and how often it is not cured."""
    if ahead.work_minutes <= 0:
        return ""
    told = f"About {minutes(ahead.work_minutes)} and {money(ahead.price, currency)} with parts to a cured machine"
    if ahead.given_up < WORTH_TELLING:
        return f"{told} this way."
    return f"{told} this way; {percent(ahead.given_up)} end without a cure."


def when(moment: str) -> str:
    """Say a kept moment as day and time of this computer."""
    return datetime.fromisoformat(moment).astimezone().strftime("%d %b %H:%M")


def day(moment: str) -> str:
    """Say the day of a kept moment."""
    return datetime.fromisoformat(moment).astimezone().strftime("%d %B %Y").lstrip("0")


def counted(number: int, one: str, many: str) -> str:
    """Say how many there are.

    >>> counted(1, "job", "jobs"), counted(3, "job", "jobs")
    ('1 job', '3 jobs')
    """
    return f"{number} {one if number == 1 else many}"
