"""What stands beside the causes: what goes together, what would change the verdict, the whole story of one."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.figures.said import capital
from bellcrank.shop.because_sheet import CombinationLine, ReasonLine, VerdictLine
from bellcrank.shop.replay_sheet import WhySheet
from bellcrank.shop.words import minutes, percent
from bellcrank.web.views.plain import NO_PROBLEM, Problem


@dataclass(frozen=True, slots=True)
class Share:
    """Something with how likely it is and a bar."""

    words: str
    percent: str
    bar: str


@dataclass(frozen=True, slots=True)
class MoveView:
    """A check and what its results would change."""

    check: str
    time: str
    words: str


@dataclass(frozen=True, slots=True)
class ChangesView:
    """What would change the verdict."""

    moves: tuple[MoveView, ...]
    overturn: str


@dataclass(frozen=True, slots=True)
class WhyPage:
    """The whole story of one cause."""

    title: str
    number: int
    machine: str
    words: str
    sure: str
    percent: str
    bar: str
    place: str
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]
    surprise: str
    changes: ChangesView | None
    together: tuple[Share, ...]
    problem: Problem


def share(words: str, probability: float) -> Share:
    """Lay out something with its bar."""
    return Share(words, percent(probability), f"{max(1.0, 100 * probability):.0f}")


def shares(combinations: Iterable[CombinationLine]) -> tuple[Share, ...]:
    """Lay out the likely combinations."""
    return tuple(share(one.words, one.probability) for one in combinations)


def changes_view(verdict: VerdictLine | None, most: int) -> ChangesView | None:
    """Lay out what would change the verdict, the checks that move it most first."""
    if verdict is None:
        return None
    moves = tuple(MoveView(one.check_words, minutes(one.minutes), one.words) for one in verdict.moves[:most])
    return ChangesView(moves, verdict.overturn_words)


def why_page(sheet: WhySheet) -> WhyPage:
    """Lay out the story of a cause."""
    cause = sheet.cause
    rank = f"Number {sheet.place} of the causes." if sheet.place else "It happened to the machine."
    shown = share(cause.words, cause.probability)
    return WhyPage(
        title=f"#{sheet.number} {cause.words}",
        number=sheet.number,
        machine=sheet.machine,
        words=capital(cause.words),
        sure=cause.how_sure,
        percent=shown.percent,
        bar=shown.bar,
        place=f"{rank} It came in with it: {percent(sheet.on_arrival)}.",
        speaks_for=tuple(_told(one) for one in cause.reasons_for),
        speaks_against=tuple(_told(one) for one in cause.reasons_against),
        surprise=sheet.surprise,
        changes=changes_view(sheet.verdict, len(sheet.verdict.moves)) if sheet.verdict else None,
        together=shares(sheet.combinations),
        problem=NO_PROBLEM,
    )


def _told(reason: ReasonLine) -> str:
    return f"{reason.words}; {reason.note}" if reason.note else reason.words
