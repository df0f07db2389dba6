"""Views of the simple pages: trouble, the bench, settings, and what every page shares."""

from dataclasses import dataclass

from bellcrank.shop.sheet import BenchSheet


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
class BenchGroup:
    """A heading of the bench with its jobs."""

    title: str
    empty: str
    lines: tuple[object, ...]


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
        BenchGroup("On the bench", "Nothing is open. Take the next machine from those waiting.", sheet.on_the_bench),
        BenchGroup("Waiting", "No machine is waiting.", sheet.waiting),
        BenchGroup("Ready to go", "No machine is ready to be fetched.", sheet.ready),
        BenchGroup("Gone", "", sheet.gone),
    )
    empty = not (sheet.on_the_bench or sheet.waiting or sheet.ready or sheet.gone)
    return BenchPage("Bench", shop_name, groups, empty)
