"""Reasons with weights, what would change the verdict and what goes together, as lines of text."""

from collections.abc import Sequence
from dataclasses import replace

from bellcrank.cli.terminal import beside, heading, wrap
from bellcrank.shop.because_sheet import CombinationLine, ReasonLine, VerdictLine
from bellcrank.shop.replay_sheet import WhySheet
from bellcrank.shop.words import minutes, percent

MOST_MOVES_IN_SHORT = 1
NOTHING_SPEAKS = "Nothing found so far speaks for or against it; this is how common it is with this complaint."
TIMES = "“Times” count machines that have it against machines that have it not."


def reason_lines(indent: str, speaks_for: Sequence[ReasonLine], against: Sequence[ReasonLine]) -> list[str]:
    """Write what speaks for a cause, then what speaks against it."""
    lines = [wrap(one.words, first=f"{indent}for: ", indent=f"{indent}  ") for one in speaks_for]
    return lines + [wrap(one.words, first=f"{indent}against: ", indent=f"{indent}  ") for one in against]


def _with_notes(reasons: Sequence[ReasonLine]) -> tuple[ReasonLine, ...]:
    """Put what a reason goes together with behind it."""
    return tuple(replace(one, words=f"{one.words}; {one.note}") if one.note else one for one in reasons)


def verdict_lines(verdict: VerdictLine | None, most: int = MOST_MOVES_IN_SHORT) -> list[str]:
    """Say what would change the verdict, the checks that move it most first."""
    if verdict is None:
        return []
    lines = [heading("what would change this")]
    for move in verdict.moves[:most]:
        lines.append(wrap(f"{move.check_words}, {minutes(move.minutes)}. {move.words}", first="  - ", indent="    "))
    if not verdict.moves:
        lines.append("  No open check says much more about it.")
    return [*lines, wrap(verdict.overturn_words, indent="  ")]


def combination_lines(combinations: Sequence[CombinationLine]) -> list[str]:
    """List the causes that are likely there together."""
    if not combinations:
        return []
    return [heading("together"), *(_combination(one) for one in combinations)]


def why_lines(sheet: WhySheet) -> list[str]:
    """Tell the whole story of one cause."""
    cause = sheet.cause
    lines = [
        beside(f"#{sheet.number}  {cause.words}", f"{percent(cause.probability)} {cause.how_sure}"),
        wrap(_place(sheet), indent="  "),
    ]
    if sheet.surprise:
        lines.append(wrap(sheet.surprise, first="! ", indent="  "))
    lines.append(heading("because"))
    reasons = reason_lines("  ", _with_notes(cause.reasons_for), _with_notes(cause.reasons_against))
    lines += [*reasons, wrap(TIMES, indent="  ")] if reasons else [wrap(NOTHING_SPEAKS, indent="  ")]
    lines += [*verdict_lines(sheet.verdict, len(sheet.verdict.moves) if sheet.verdict else 0)]
    return [*lines, *combination_lines(sheet.combinations)]


def _combination(one: CombinationLine) -> str:
    first = f"  {percent(one.probability):>9}  "
    return wrap(one.words, first=first, indent=" " * len(first))


def _place(sheet: WhySheet) -> str:
    place = f"Number {sheet.place} of the causes" if sheet.place else "It happened to the machine"
    return f"{place}; {percent(sheet.on_arrival)} that it came in with it."
