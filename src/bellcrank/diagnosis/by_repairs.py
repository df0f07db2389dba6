"""How long it takes by plain repairs, best chance per minute first: the yardstick every step is measured by.

The policy can be followed as it stands, so its value is honest: it repairs, starts the engine, and repairs on with what
is left, opening covers again that had to be closed for the start; it stops when no repair is worth its minutes against
giving up.

References
----------
D. Heckerman, J. Breese, K. Rommelse, Decision-theoretic troubleshooting, CACM 38(3), 1995.
"""

import numpy as np

from bellcrank.diagnosis.allowed import Flags
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.stats.fault_network import FloatArray

NEGLIGIBLE = 1e-4  # [-] what is left to cure when a plan counts as done; counted as giving up: seconds
MOST_REPAIRS = 40  # [-] repairs one after the other before a plan gives up


def minutes_by_repairs(compiled: CompiledPack, culprits: FloatArray, opened: Flags) -> FloatArray:
    """Expected minutes to a cured machine by repairs alone, for many beliefs at once.

    Parameters
    ----------
    compiled : CompiledPack
        The pack.
    culprits : array, shape (beliefs, causes)
        How likely each cause is to blame. [-]
    opened : array, shape (beliefs, accesses)
        What is open.

    Returns
    -------
    array, shape (beliefs,)
        Time, giving up counted with the pack's minutes. [min]
    """
    give_up = compiled.pack.give_up_minutes
    culprits, opened = culprits.copy(), opened.copy()
    left, spent = culprits.sum(axis=1), np.zeros(len(culprits))
    chances = culprits @ compiled.repair_cures.T
    need_minutes = compiled.repair_needs * compiled.access_minutes
    active = np.flatnonzero(left > NEGLIGIBLE)
    for _ in range(MOST_REPAIRS):
        cost = (~opened[active]) @ need_minutes.T + compiled.repair_minutes + compiled.pack.start_check_minutes
        ratio = chances[active] / cost
        best = ratio.argmax(axis=1)
        rows = np.arange(len(active))
        go_on = (ratio[rows, best] > left[active] / give_up) & (left[active] > NEGLIGIBLE)
        active, best, cost = active[go_on], best[go_on], cost[go_on, best[go_on]]
        if not len(active):
            break
        spent[active] += left[active] * cost
        removed = culprits[active] * compiled.repair_cures[best]
        culprits[active] -= removed
        chances[active] -= removed @ compiled.repair_cures.T
        chances[active, best] = 0.0
        left[active] -= removed.sum(axis=1)
        opened[active] = (opened[active] | compiled.repair_needs[best]) & ~compiled.shut_to_run
    value: FloatArray = spent + left * give_up
    return value
