"""Saying so when findings fit badly together, instead of a sure answer from a contradiction.

A finding is odd when, given everything else, it was to be expected in few machines: in fewer than ``ODD`` of them, or
in fewer than ``RARE`` and five times more seldom than without the other findings (Jensen's measure of conflict, taken
for one finding against the rest). Its counterpart is the finding without which it would be odd no more.

References
----------
F. V. Jensen et al., Analysis in HUGIN of data conflict, UAI 1990 (from memory).
"""

import numpy as np

from bellcrank.stats.evidence import Evidence, Question
from bellcrank.stats.fault_network import FaultNetwork, FloatArray
from bellcrank.stats.weighing import weigh

ODD = 0.02  # [-] of machines drawn from the mower's own pack and checked at random, 1 to 2 in 100 show such a finding
RARE = 0.10  # [-]
CONFLICT = 0.2  # [-] the rest makes it five times less likely
RELIEF = 3.0  # [-] how much likelier a finding gets when its counterpart is left out
NEVER = 1e-4  # [-] below it a count of machines means nothing


def disagreement(network: FaultNetwork, evidence: Evidence, says: tuple[str, ...], left_out: FloatArray) -> str:
    """Name the finding that fits worst and the one it disagrees with, when it fits badly; else give nothing.

    ``left_out`` holds the probability of the evidence and then, in order, of it without each finding.
    """
    if not says:
        return ""
    expected = np.divide(left_out[0], left_out[1:], out=np.zeros(len(says)), where=left_out[1:] > 0)
    worst = int(expected.argmin())
    chance = float(expected[worst])
    if chance >= RARE or (chance >= ODD and chance >= CONFLICT * _alone(network, evidence, worst)):
        return ""
    share = f"1 machine in {round(1 / chance)}" if chance > NEVER else "almost no machine"
    other = _counterpart(network, evidence, worst, chance)
    if other is None:
        return (
            f"That {says[worst]} was to be expected in {share}, given all else. Look at it once more, or something is "
            "wrong that is not on this list."
        )
    return (
        f"That {says[worst]} goes badly with this: {says[other]}. Together they were to be expected in {share}. Look "
        "at both once more, or something is wrong that is not on this list."
    )


def _alone(network: FaultNetwork, evidence: Evidence, place: int) -> float:
    """Chance of one finding with none of the others. [-]"""
    all_of_them = frozenset(range(len(evidence.sightings)))
    with_it, without = weigh(
        network, evidence, (Question(without=all_of_them - {place}), Question(without=all_of_them))
    ).evidence
    return float(with_it / without) if without > 0 else 1.0


def _counterpart(network: FaultNetwork, evidence: Evidence, worst: int, chance: float) -> int | None:
    others = [place for place in range(len(evidence.sightings)) if place != worst]
    if not others:
        return None
    questions = (
        *(Question(without=frozenset({other})) for other in others),
        *(Question(without=frozenset({other, worst})) for other in others),
    )
    with_it, without = np.split(weigh(network, evidence, questions).evidence, 2)
    relieved = np.divide(with_it, without, out=np.zeros(len(others)), where=without > 0)
    best = int(relieved.argmax())
    return others[best] if relieved[best] >= RELIEF * chance else None
