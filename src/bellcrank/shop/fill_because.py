"""Filling in what stands beside a cause: reasons, what would change the verdict, which causes go together."""

from collections.abc import Sequence

from bellcrank.diagnosis.because import Reason, cause_words
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.combinations import likely_combinations
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.verdict import Move, Overturn, Verdict, leading, verdicts
from bellcrank.shop.because_sheet import CombinationLine, MoveLine, OverturnLine, ReasonLine, ShownLine, VerdictLine
from bellcrank.shop.words import in_a_hundred, minutes

OUT = 0.01  # [-] a cause less likely is out
COMBINATIONS_SHOWN = 5


def reason_lines(reasons: Sequence[Reason]) -> tuple[ReasonLine, ...]:
    """Give reasons in words, with both weights."""
    return tuple(ReasonLine(one.words, one.note, one.decibans, one.alone) for one in reasons)


def verdict_line(compiled: CompiledPack, belief: Belief, cause: str = "") -> VerdictLine | None:
    """Say what would change the verdict on a cause, on the leading one when none is named; nothing once it is cured."""
    if belief.cured:
        return None
    (verdict,) = verdicts(compiled, belief, (cause or leading(compiled, belief),))
    name = cause_words(compiled, verdict.cause)
    overturn = verdict.overturn
    return VerdictLine(
        cause=verdict.cause,
        leads=verdict.leads,
        moves=tuple(_move(move, name, verdict.now) for move in verdict.moves),
        overturn=_overturn(overturn) if overturn else None,
        overturn_words=_overturn_words(compiled, verdict),
    )


def _move(move: Move, name: str, now: float) -> MoveLine:
    shown = tuple(ShownLine(one.says, one.chance, one.after) for one in move.results)
    most, least = shown[0], shown[-1]
    words = f"If {most.says}, “{name}” {_goes(now, most.after)}"
    if least is not most:
        to = "it is out" if least.after < OUT else f"to {in_a_hundred(least.after)}"
        words += f"; if {least.says}, {to}"
    return MoveLine(move.check, move.words, move.minutes, shown, f"{words}.")


def _goes(now: float, after: float) -> str:
    before, then = in_a_hundred(now), in_a_hundred(after)
    return f"stays at {then} in 100" if before == then else f"goes from {before} to {then} in 100"


def _overturn(one: Overturn) -> OverturnLine:
    return OverturnLine(one.check, one.words, one.minutes, one.says, one.chance, one.leader, one.after)


def _overturn_words(compiled: CompiledPack, verdict: Verdict) -> str:
    """Say which check could put another cause first, or put this one first."""
    one = verdict.overturn
    if one is None:
        return f"No open check can put {'another cause' if verdict.leads else 'it'} first on its own."
    first = "another cause" if verdict.leads else "it"
    then = f"“{cause_words(compiled, one.leader)}” leads then, with {in_a_hundred(one.after)} in 100"
    return (
        f"Quickest to put {first} first: {one.words[:1].lower()}{one.words[1:]}, {minutes(one.minutes)}. It does so if "
        f"{one.says}, {in_a_hundred(one.chance)} times in 100; {then}."
    )


def combination_lines(
    compiled: CompiledPack, belief: Belief, causes: Sequence[str] | None = None
) -> tuple[CombinationLine, ...]:
    """Give the likely combinations of the likeliest causes, or of the causes given."""
    found = likely_combinations(compiled, belief, causes)[:COMBINATIONS_SHOWN]
    return tuple(CombinationLine(one.causes, _together(compiled, one.causes), one.probability) for one in found)


def _together(compiled: CompiledPack, causes: Sequence[str]) -> str:
    names = [cause_words(compiled, cause) for cause in causes]
    if not names:
        return "none of these"
    if len(names) == 1:
        return f"only {names[0]}"
    return f"{', '.join(names[:-1])} and {names[-1]}"
