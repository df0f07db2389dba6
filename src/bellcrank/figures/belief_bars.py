"""What is likely wrong, drawn as bars: a word, a percentage and a length for every cause."""

from collections.abc import Sequence
from dataclasses import dataclass

from bellcrank.errors import OutOfRange
from bellcrank.figures.theme import Finding, along, bar, framed, row_head, title_height, title_lines


@dataclass(frozen=True, slots=True)
class BeliefBar:
    """One cause with how likely it is."""

    words: str  # "flywheel key sheared"
    probability: float  # [-]
    how_sure: str  # "almost sure"


def belief_bars_figure(causes: Sequence[BeliefBar], name: str = "belief") -> str:
    """Draw the causes in the order given, on a scale from never to certain; the first has its words in bold."""
    for cause in causes:
        _refuse_no_share(cause)
    title = f"{_capital(causes[0].words)}: {causes[0].how_sure}" if causes else "No cause stands out yet"
    told = "; ".join(f"{cause.words}, {cause.how_sure}, {_percent(cause)}" for cause in causes)
    finding = Finding(name, title, f"{_capital(told)}." if told else "Answer a check to learn more.")
    marks, y = [title_lines(title)], title_height(title)
    for number, cause in enumerate(causes):
        head = row_head(_capital(cause.words), f"{cause.how_sure} {_percent(cause)}", y, strong=number == 0)
        marks += [head.marks, _bars(cause, head.bar_top)]
        y = head.bottom
    return framed(finding, "figure-belief", y + 8, *marks)


def _bars(cause: BeliefBar, top: float) -> str:
    whole = bar("drawn-scale", along(0, 1), along(1, 1), top, filled=False)
    return whole + bar("drawn-belief", along(0, 1), along(cause.probability, 1), top, filled=True)


def _percent(cause: BeliefBar) -> str:
    if 0 < cause.probability < 0.01:
        return "under 1 %"
    if 0.99 < cause.probability < 1:
        return "over 99 %"
    return f"{cause.probability * 100:.0f} %"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _refuse_no_share(cause: BeliefBar) -> None:
    if not 0 <= cause.probability <= 1:
        raise OutOfRange(f"The chance of “{cause.words}” is {cause.probability:g}; it must be from 0 to 1.")
