"""Which causes are there together: the exact chance of every combination of the likeliest few."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.stats.evidence import Question
from bellcrank.stats.weighing import weigh

MOST_CAUSES = 6  # [-] two to the power of them are weighed
WORTH_NAMING = 0.02  # [-] less likely causes and combinations are not named


@dataclass(frozen=True, slots=True)
class Combination:
    """Of the causes looked at, exactly these are in the machine now."""

    causes: tuple[str, ...]  # likeliest first; empty: none of them
    probability: float  # [-]


def likely_combinations(
    compiled: CompiledPack, belief: Belief, causes: Sequence[str] | None = None
) -> tuple[Combination, ...]:
    """Give the likely combinations, likeliest first; of the likeliest causes when none are given.

    What happened to the machine (a strike) is no cause that can be found in it and is left out.
    """
    looked_at = tuple(causes) if causes is not None else _likeliest(compiled, belief)
    whole = belief.without.evidence[0]
    if not looked_at or not whole > 0:
        return ()
    every = [
        tuple(cause for cause, there in zip(looked_at, flags, strict=True) if there)
        for flags in product((True, False), repeat=len(looked_at))
    ]
    questions = tuple(Question(here=frozenset(one), not_here=frozenset(looked_at) - frozenset(one)) for one in every)
    chances = weigh(compiled.network, belief.evidence, questions).evidence / whole
    order = np.argsort(-chances, kind="stable")
    return tuple(Combination(every[row], float(chances[row])) for row in order if chances[row] >= WORTH_NAMING)


def _likeliest(compiled: CompiledPack, belief: Belief) -> tuple[str, ...]:
    worth = [
        name
        for name, chance in belief.now.items()
        if chance >= WORTH_NAMING and (name not in compiled.causes or compiled.causes[name].system != "event")
    ]
    return tuple(sorted(worth, key=lambda name: -belief.now[name])[:MOST_CAUSES])
