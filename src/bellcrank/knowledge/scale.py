"""Which readings of a measured check mean which of its results, and how far its instrument errs."""

from dataclasses import dataclass
from itertools import pairwise

from bellcrank.knowledge.line import Line
from bellcrank.sources import Origin
from bellcrank.units import UNITS, convert, to_si


@dataclass(frozen=True, slots=True)
class Scale:
    """The readings of a check in rising order, cut into results; a result may stand there twice (too small, too big).

    What the instrument errs is told as a share of the reading, and at the least.
    """

    unit: str  # the shop unit the limits are told in
    kind: str  # of quantity: pressure, length, time ...
    results: tuple[str, ...]  # one more than limits
    limits: tuple[float, ...]  # between them, rising [SI]
    error_share: float  # standard deviation of a reading as a share of it [-]
    error_least: float  # and at the least [SI]
    origin: Origin

    def error(self, reading: float) -> float:
        """Standard deviation of what was read, for a true value of this size. [SI]"""
        return float((self.error_share**2 * reading**2 + self.error_least**2) ** 0.5)

    def words(self) -> str:
        """Say the limits and how far such an instrument errs, in the unit of the scale."""
        *first, last = (f"{convert(limit, self.unit, self.kind):.4g}" for limit in self.limits)
        limits = f"{', '.join(first)} and {last}" if first else last
        least = convert(self.error_least, self.unit, self.kind) - convert(0.0, self.unit, self.kind)
        share = f"{100 * self.error_share:.2g} %, at least " if self.error_share else ""
        named = "limits" if len(self.limits) > 1 else "limit"
        return f"{named} {limits} {self.unit}; errs by about {share}{least:.2g} {self.unit}"


def scale(line: Line, origin: Origin) -> Scale:
    """Make a scale of a line: unit, then results and limits by turns, from the lowest reading up."""
    unit = line.words("unit")
    kinds = [one.kind for one in UNITS if one.symbol == unit]
    if not kinds:
        raise line.fault(f"“unit” is “{unit}”; it must be a unit of the shop, such as kPa or mm.")
    words = line.several("reads")
    results, limits = words[::2], words[1::2]
    if len(results) != len(limits) + 1 or not limits:
        raise line.fault("“reads” must be results and limits by turns, such as low;275;right;620;high.")
    try:
        numbers = tuple(to_si(float(one), unit, kinds[0]) for one in limits)
    except ValueError:
        raise line.fault(f"“reads” holds limits that are no numbers: {', '.join(limits)}. Mend them.") from None
    if any(lower >= upper for lower, upper in pairwise(numbers)):
        raise line.fault(f"the limits {', '.join(limits)} must rise.")
    share, least = line.amount("error_percent") / 100, to_si(line.amount("error_least"), unit, kinds[0])
    if share < 0 or least <= 0:
        raise line.fault("the error of the instrument must be above zero: every instrument errs.")
    return Scale(unit, kinds[0], results, numbers, share, least, origin)
