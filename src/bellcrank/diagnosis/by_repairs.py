"""What is ahead by plain repairs, best chance per minute first: the yardstick every step is measured by.

The policy can be followed as it stands, so its value is honest: it repairs, starts the engine, and repairs on with what
is left, opening covers again that had to be closed for the start; no repair is counted on twice; it stops when none is
worth its minutes against giving up.

References
----------
D. Heckerman, J. Breese, K. Rommelse, Decision-theoretic troubleshooting, CACM 38(3), 1995.
"""

from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.allowed import Flags
from bellcrank.diagnosis.counted import Counted
from bellcrank.stats.fault_network import FloatArray

NEGLIGIBLE = 1e-4  # [-] what is left to cure when a plan counts as done; counted as giving up: seconds
EVERY = slice(None)
MOST_REPAIRS = 40  # [-] repairs one after the other before a plan gives up


@dataclass(frozen=True, slots=True)
class Expected:
    """What is expected until the machine is cured or given up."""

    minutes: float  # what counts: work, parts as minutes, and giving up [min]
    work: float  # at the bench [min]
    parts: float  # money, before tax
    given_up: float  # chance that it ends without a cure [-]

    def plus(self, work: float, parts_minutes: float = 0.0, parts: float = 0.0) -> "Expected":
        """Put work, and parts with what they count, in front of it."""
        return Expected(self.minutes + work + parts_minutes, self.work + work, self.parts + parts, self.given_up)

    def moved(self, chance: float, away_from: "Expected", to: "Expected") -> "Expected":
        """Replace what was expected in a branch of this chance."""
        return Expected(
            self.minutes + chance * (to.minutes - away_from.minutes),
            self.work + chance * (to.work - away_from.work),
            self.parts + chance * (to.parts - away_from.parts),
            self.given_up + chance * (to.given_up - away_from.given_up),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """The same for many beliefs at once; each of shape (beliefs,)."""

    minutes: FloatArray  # what counts: work, parts as minutes, and giving up [min]
    work: FloatArray  # at the bench [min]
    parts: FloatArray  # money, before tax
    given_up: FloatArray  # chance that it ends without a cure [-]

    def mean(self, chances: FloatArray, rows: slice = EVERY) -> Expected:
        """Weigh some of the beliefs by their chances."""
        columns = (self.minutes, self.work, self.parts, self.given_up)
        return Expected(*(float(chances @ column[rows]) for column in columns))


def by_repairs(counted: Counted, culprits: FloatArray, opened: Flags, used: Flags | None = None) -> Ahead:
    """Give what is ahead by repairs alone, for many beliefs at once.

    Parameters
    ----------
    counted : Counted
        The repairs.
    culprits : array, shape (beliefs, causes)
        How likely each cause is to blame. [-]
    opened : array, shape (beliefs, accesses)
        What is open.
    used : array, shape (beliefs, repairs), optional
        Repairs that were done before each belief; those of the job when left out.

    Returns
    -------
    Ahead
        Expectations, one row a belief.
    """
    culprits, opened = culprits.copy(), opened.copy()
    left = culprits.sum(axis=1)
    counts, work, parts = np.zeros(len(left)), np.zeros(len(left)), np.zeros(len(left))
    chances = np.where(counted.used if used is None else used, 0.0, culprits @ counted.cures.T)
    active = np.flatnonzero(left > NEGLIGIBLE)
    for _ in range(MOST_REPAIRS):
        access = (~opened[active]) @ counted.need_minutes.T
        ratio = chances[active] / (access + counted.minutes)
        best = ratio.argmax(axis=1)
        rows = np.arange(len(active))
        go_on = (ratio[rows, best] > left[active] / counted.give_up) & (left[active] > NEGLIGIBLE)
        active, best, access = active[go_on], best[go_on], access[go_on, best[go_on]]
        if not len(active):
            break
        counts[active] += left[active] * (access + counted.minutes[best])
        work[active] += left[active] * (access + counted.work[best])
        parts[active] += left[active] * counted.parts[best]
        removed = culprits[active] * counted.cures[best]
        culprits[active] -= removed
        chances[active] -= removed @ counted.cures.T
        chances[active, best] = 0.0
        left[active] -= removed.sum(axis=1)
        opened[active] = (opened[active] | counted.needs[best]) & ~counted.shut_to_run
    return Ahead(counts + left * counted.give_up, work, parts, left)
