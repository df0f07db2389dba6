"""Where a job stands: the state that every next step is valued from, and what one check or repair would leave.

Blame is the chance that a cause is there and keeps a complaint standing, scaled to one over all causes; a cause that is
only along for the ride has none. What a check would show is weighed exactly, all results of all checks in one pass.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.allowed import Flags, access_minutes, open_after_check, open_now
from bellcrank.diagnosis.belief import Belief, gather
from bellcrank.diagnosis.by_repairs import Expected, by_repairs
from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.counted import USUAL, Counted, Terms, counted
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.stopping import or_ask
from bellcrank.knowledge.model import Check, Repair
from bellcrank.stats.evidence import Evidence, Question
from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.weighing import Weighing, weigh

LEAST_CURE = 0.005  # [-] a repair less likely to cure it is not worth a line


@dataclass(frozen=True, slots=True, eq=False)
class Standpoint:
    """The state all next steps start from."""

    compiled: CompiledPack
    counted: Counted
    case: Case
    evidence: Evidence
    sure: float  # probability of the evidence [-]
    now: FloatArray  # shape (causes,): chance that each is in the machine [-]
    blocking: FloatArray  # shape (causes,): that it is and keeps a complaint standing [-]
    culprits: FloatArray  # shape (causes,), sums to 1
    opened: Flags
    ahead: Expected  # without another check


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """A check, what its results would leave, and what is expected when it is made next."""

    check: Check
    access: float  # to open and close [min]
    chances: FloatArray  # shape (results,)
    culprits: FloatArray  # shape (results, causes), rows sum to 1
    after: Expected
    after_yes: Expected  # the same when the customer was asked before, and said yes

    @property
    def cost(self) -> float:
        """Minutes it takes, getting there included."""
        return self.access + self.check.minutes

    @property
    def expected(self) -> Expected:
        """What is expected when it is made next."""
        return self.after.plus(self.cost)

    @property
    def expected_after_yes(self) -> Expected:
        """What is expected then when the customer was asked before, and said yes."""
        return self.after_yes.plus(self.cost)


@dataclass(frozen=True, slots=True)
class Mend:
    """A repair, and what is expected when it is done next."""

    repair: Repair
    access: float  # to open and close [min]
    cures: float  # chance of a cured machine [-]
    expected: Expected
    expected_after_yes: Expected  # when the customer was asked before, and said yes
    used: bool  # done before, and not counted on a second time


def standing_at(compiled: CompiledPack, belief: Belief, terms: Terms = USUAL) -> Standpoint:
    """Give where a job stands by what is believed."""
    return _standpoint(compiled, belief.case, belief.evidence, belief.without, terms)


def standing_after(compiled: CompiledPack, case: Case, terms: Terms = USUAL) -> Standpoint:
    """Give where a job would stand after these events."""
    evidence = gather(compiled, case)[1]
    return _standpoint(compiled, case, evidence, weigh(compiled.network, evidence), terms)


def _standpoint(compiled: CompiledPack, case: Case, evidence: Evidence, weighing: Weighing, terms: Terms) -> Standpoint:
    culprits, opened = normalised(weighing.blocking[0]), open_now(compiled, case)
    repairs = counted(compiled, case, terms)
    return Standpoint(
        compiled=compiled,
        counted=repairs,
        case=case,
        evidence=evidence,
        sure=float(weighing.evidence[0]),
        now=weighing.now[0],
        blocking=weighing.blocking[0],
        culprits=culprits,
        opened=opened,
        ahead=or_ask(repairs, culprits[None], by_repairs(repairs, culprits[None], opened[None])).mean(np.ones(1)),
    )


def looks(stand: Standpoint, checks: Sequence[Check]) -> list[Look]:
    """Value checks from one pass over all their results."""
    if not checks:
        return []
    compiled, opened = stand.compiled, stand.opened
    chances, blamed = _results(stand, checks)
    counts = [len(check.results) for check in checks]
    after = [open_after_check(compiled, check, opened) for check in checks]
    after_yes = by_repairs(stand.counted, blamed, np.repeat(np.array(after), counts, axis=0))
    ahead = or_ask(stand.counted, blamed, after_yes)
    made, row = [], 0
    for check, count in zip(checks, counts, strict=True):
        rows = slice(row, row + count)
        access = access_minutes(compiled, check.access, opened)
        p = chances[rows]
        made.append(Look(check, access, p, blamed[rows], ahead.mean(p, rows), after_yes.mean(p, rows)))
        row += count
    return made


def _results(stand: Standpoint, checks: Sequence[Check]) -> tuple[FloatArray, FloatArray]:
    """Give the chance of every result of every check and who is to blame after it.

    What is weighed is "this result or below"; the results themselves are the differences.
    """
    levels = np.array([len(check.results) for check in checks])
    questions = tuple(
        Question(at_most=(check.id, level)) for check in checks for level in range(len(check.results) - 1)
    )
    weighing = weigh(stand.compiled.network, stand.evidence, questions)
    tops = np.cumsum(levels) - 1
    below = np.ones(levels.sum(), bool)
    below[tops] = False
    seen, joint = np.empty(levels.sum()), np.empty((levels.sum(), len(stand.culprits)))
    seen[below], seen[tops] = weighing.evidence, stand.sure
    joint[below], joint[tops] = weighing.blocking * weighing.evidence[:, None], stand.blocking * stand.sure
    firsts = tops - levels + 1
    chances, blamed = np.diff(seen, prepend=0.0), np.diff(joint, axis=0, prepend=0.0)
    chances[firsts], blamed[firsts] = seen[firsts], joint[firsts]
    return np.clip(chances / stand.sure, 0.0, None), normalised(np.clip(blamed, 0.0, None))


def mends(stand: Standpoint) -> list[Mend]:
    """Value the repairs that may cure it."""
    likely = np.flatnonzero(stand.counted.cures @ stand.culprits >= LEAST_CURE)
    return _mends(stand, likely.tolist())


def mend_of(stand: Standpoint, repair: Repair) -> Mend:
    """Value one repair, however unlikely it is to cure it."""
    return _mends(stand, [stand.compiled.pack.repairs.index(repair)])[0]


def _mends(stand: Standpoint, chosen: list[int]) -> list[Mend]:
    repairs = stand.counted
    fixed = repairs.cures[chosen]
    cures = fixed @ stand.culprits
    opened = (stand.opened[None] | repairs.needs[chosen]) & ~repairs.shut_to_run[None]
    used = repairs.used[None] | np.eye(len(repairs.used), dtype=bool)[chosen]
    left = normalised(stand.culprits[None] * (1 - fixed))
    after_yes = by_repairs(repairs, left, opened, used)
    ahead = or_ask(repairs, left, after_yes)
    access = repairs.need_minutes[chosen] @ ~stand.opened
    made = []
    for row, place in enumerate(chosen):
        fails, rows = 1 - cures[[row]], slice(row, row + 1)
        work, parts = float(access[row] + repairs.work[place]), float(repairs.parts[place])
        as_minutes = float(repairs.minutes[place] - repairs.work[place])
        made.append(
            Mend(
                repair=stand.compiled.pack.repairs[place],
                access=float(access[row]),
                cures=float(cures[row]),
                expected=ahead.mean(fails, rows).plus(work, as_minutes, parts),
                expected_after_yes=after_yes.mean(fails, rows).plus(work, as_minutes, parts),
                used=bool(repairs.used[place]),
            )
        )
    return made


def normalised(weights: FloatArray) -> FloatArray:
    """Scale rows to a sum of one; a row of nothing stays so."""
    total = weights.sum(axis=-1, keepdims=True)
    shares: FloatArray = np.divide(weights, total, out=np.zeros_like(weights), where=total > 0)
    return shares
