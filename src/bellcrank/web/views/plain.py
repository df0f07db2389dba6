"""Views of the simple pages: trouble, the bench, settings, and what every page shares."""

from dataclasses import dataclass

from bellcrank.shop.bench_sheet import BenchLine, BenchSheet
from bellcrank.shop.words import when


@dataclass(frozen=True, slots=True)
class Problem:
    """A refusal at a form: the sentence, the field it is about, and what was typed."""

    sentence: str
    field: str
    typed: dict[str, str]

    def kept(self, name: str) -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, "")


NO_PROBLEM = Problem("", "", {})


@dataclass(frozen=True, slots=True)
class TroublePage:
    """A refusal with nothing else to show."""

    title: str
    sentence: str


@dataclass(frozen=True, slots=True)
class BenchRow:
    """A job on the bench."""

    number: int
    machine: str
    complaint: str
    customer: str
    next: str
    since: str


@dataclass(frozen=True, slots=True)
class BenchGroup:
    """A heading of the bench with its jobs."""

    title: str
    empty: str
    lines: tuple[BenchRow, ...]


@dataclass(frozen=True, slots=True)
class BenchPage:
    """Today's bench."""

    title: str
    shop_name: str
    groups: tuple[BenchGroup, ...]
    nothing_at_all: bool


def bench_page(shop_name: str, sheet: BenchSheet) -> BenchPage:
    """Lay the bench out in the order she looks at it."""
    groups = (
        _group("On the bench", "Nothing is open. Take the next machine from those waiting.", sheet.on_the_bench),
        _group("Waiting", "No machine is waiting.", sheet.waiting),
        _group("Ready to go", "No machine is ready to be fetched.", sheet.ready),
        _group("Gone", "", sheet.gone),
    )
    return BenchPage("Bench", shop_name, groups, not any(group.lines for group in groups))


def _group(title: str, empty: str, lines: tuple[BenchLine, ...]) -> BenchGroup:
    rows = (
        BenchRow(line.number, line.machine, line.complaint, line.customer, line.next, when(line.since))
        for line in lines
    )
    return BenchGroup(title, empty, tuple(rows))
