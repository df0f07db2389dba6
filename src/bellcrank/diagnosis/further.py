"""A look two steps ahead: what the first step is worth when another check may follow it.

For the best few checks and repairs, every branch they may lead to is weighed exactly, with what is open then and what
may be done then, and the best of the other checks in it takes the place of going on by repairs where it is shorter.
Steps that were not looked at keep the value of one step. How long it may take is the caller's: it is asked before each
step whether to go on.

References
----------
F. V. Jensen et al., The SACSO methodology for troubleshooting complex systems, AI EDAM 15, 2001.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from bellcrank.diagnosis.allowed import checks_left
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.by_repairs import Expected
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.counted import USUAL, Terms
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.next_step import (
    NextStep,
    after_yes,
    by_minutes,
    check_step,
    first_things_first,
    ranked_from,
    repair_step,
    stopping_steps,
)
from bellcrank.diagnosis.standpoint import Look, Mend, Standpoint, looks, mends, standing_after, standing_at
from bellcrank.errors import OutOfRange

MOST_CHECKS, MOST_REPAIRS = 8, 5  # [-] looked at, the best by one step; more hardly ever change the first
LEAST_CHANCE = 1e-3  # [-] a branch less likely is left at its one-step value: seconds
WORTH_SAYING = 0.5  # [min] below it a change of the first step is no better advice


@dataclass(frozen=True, slots=True)
class Further:
    """What a look two steps ahead says."""

    steps: tuple[NextStep, ...]  # ranked anew
    before: NextStep | None  # first by one step
    after: NextStep | None  # first by two
    worth_minutes: float  # what the change saves; 0 when there is none [min]
    looked_at: int  # steps looked at
    to_look_at: int

    @property
    def changed(self) -> bool:
        """Whether it changes what to do first."""
        return self.before is not None and self.after is not None and self.before.id != self.after.id


def look_further(
    compiled: CompiledPack, belief: Belief, keep_going: Callable[[], bool], terms: Terms = USUAL
) -> Further:
    """Look two steps ahead for as long as the caller lets it."""
    if not belief.case.complaints or belief.cured:
        return Further((), None, None, 0.0, 0, 0)
    stand = standing_at(compiled, belief, terms)
    by_one = ranked_from(stand, terms)
    all_looks, all_mends = looks(stand, checks_left(compiled, belief.case)), mends(stand)
    chosen = _chosen(by_one[0], all_looks, all_mends)
    checks = [one.check.id for one in chosen if isinstance(one, Look)]
    deeper: dict[str, Expected] = {}
    for one in chosen:
        if deeper and not keep_going():
            break
        deeper[_name(one)] = _looked_into(stand, one, checks, terms)
    steps = first_things_first(stand, _ranked_anew(stand, terms, (*all_looks, *all_mends), deeper), all_mends)
    return _told(by_one[0], steps, len(deeper), len(chosen))


def _chosen(first: NextStep, all_looks: list[Look], all_mends: list[Mend]) -> list[Look | Mend]:
    """Give the steps to look at, the first by one step first, then the shortest."""
    best_looks = sorted(all_looks, key=lambda one: one.expected.minutes)
    best_mends = sorted((one for one in all_mends if not one.used), key=lambda one: one.expected.minutes)
    chosen: list[Look | Mend] = [*best_looks[:MOST_CHECKS], *best_mends[:MOST_REPAIRS]]
    every: list[Look | Mend] = [*all_looks, *all_mends]
    chosen += [one for one in every if _name(one) == first.id and one not in chosen]
    return sorted(chosen, key=lambda one: (_name(one) != first.id, one.expected.minutes))


def _name(one: Look | Mend) -> str:
    return one.check.id if isinstance(one, Look) else one.repair.id


def _branches(stand: Standpoint, one: Look | Mend) -> Iterator[tuple[float, Case]]:
    case = stand.case
    if isinstance(one, Mend):
        yield 1 - one.cures, Case(case.complaints, (*case.events, Repaired(one.repair.id, "not-cured")))
        return
    for result, chance in zip(one.check.results, one.chances.tolist(), strict=True):
        yield chance, Case(case.complaints, (*case.events, Found(one.check.id, result.id)))


def _looked_into(stand: Standpoint, one: Look | Mend, checks: list[str], terms: Terms) -> Expected:
    """Give what is expected of a step when the best of these checks may follow it in each of its branches."""
    expected = one.expected
    for chance, case in _branches(stand, one):
        if chance < LEAST_CHANCE:
            continue
        try:
            there = standing_after(stand.compiled, case, terms)
            following = looks(there, [check for check in checks_left(stand.compiled, case) if check.id in checks])
        except OutOfRange:  # one finding too many to be weighed: this branch keeps its value
            continue
        best = min((look.expected for look in following), key=lambda ahead: ahead.minutes, default=there.ahead)
        if best.minutes < there.ahead.minutes:
            expected = expected.moved(chance, there.ahead, best)
    return expected


def _ranked_anew(
    stand: Standpoint, terms: Terms, every: tuple[Look | Mend, ...], deeper: Mapping[str, Expected]
) -> tuple[NextStep, ...]:
    """Rank by the shortest way: what the order by one step makes up for is in these values."""
    steps = [_step(stand, one, deeper.get(_name(one))) for one in every if isinstance(one, Look) or not one.used]
    return by_minutes([*steps, *stopping_steps(stand, terms, after_yes(every), steps)])


def _step(stand: Standpoint, one: Look | Mend, expected: Expected | None) -> NextStep:
    return check_step(stand, one, expected) if isinstance(one, Look) else repair_step(stand, one, expected)


def _told(before: NextStep, steps: tuple[NextStep, ...], looked_at: int, to_look_at: int) -> Further:
    """Say what changes; a change that is worth hardly a minute is none."""
    same = next(step for step in steps if step.id == before.id)
    worth = 0.0 if steps[0] is same else same.expected_minutes - steps[0].expected_minutes
    if worth < WORTH_SAYING:
        steps, worth = (same, *(step for step in steps if step is not same)), 0.0
    return Further(steps, before, steps[0], worth, looked_at, to_look_at)
