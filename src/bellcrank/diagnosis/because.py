"""Why a cause is likely or not, in shop words, with the weight of each finding."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.belief import Belief, level_of
from bellcrank.diagnosis.network import NOT_LISTED, NOT_LISTED_WORDS, CompiledPack

LEAST_WEIGHT = 0.5  # [dB] a finding below it is not worth a word
MOST_REASONS = 3
STEPS = ((0.03, "hardly"), (0.30, "unlikely"), (0.60, "even"), (0.90, "likely"))
STRONG = 7.0  # [dB] odds five-fold
SMALLEST = 1e-12  # [-] keeps odds finite


@dataclass(frozen=True, slots=True)
class Reason:
    """What one finding says about a cause."""

    words: str
    decibans: float  # ten times the logarithm of how it moves the odds, all other findings kept [dB]


@dataclass(frozen=True, slots=True)
class Reasons:
    """What speaks most for and against a cause."""

    speaks_for: tuple[Reason, ...]
    speaks_against: tuple[Reason, ...]


def how_sure(probability: float) -> str:
    """Put a probability in a word.

    >>> [how_sure(p) for p in (0.01, 0.2, 0.5, 0.8, 0.95)]
    ['hardly', 'unlikely', 'even', 'likely', 'almost sure']
    """
    return next((word for limit, word in STEPS if probability < limit), "almost sure")


def cause_words(compiled: CompiledPack, cause: str) -> str:
    """Name a cause."""
    return NOT_LISTED_WORDS if cause == NOT_LISTED else compiled.causes[cause].words


def reasons_for_all(compiled: CompiledPack, belief: Belief, causes: Iterable[str]) -> Mapping[str, Reasons]:
    """Weigh every finding for each cause by leaving it out, and say what moved the odds most."""
    now = np.clip(belief.without.now, SMALLEST, 1 - SMALLEST)
    decibans = 10 * np.log10(now / (1 - now))
    gains = decibans[0] - decibans[1:]
    return {cause: _reasons(compiled, belief, cause, gains[:, compiled.network.position[cause]]) for cause in causes}


def _reasons(compiled: CompiledPack, belief: Belief, cause: str, gains: np.ndarray) -> Reasons:
    told = [
        Reason(_sentence(compiled, belief, place, cause, float(gain)), float(gain))
        for place, gain in enumerate(gains)
        if math.isfinite(gain) and abs(gain) >= LEAST_WEIGHT
    ]
    told.sort(key=lambda reason: -abs(reason.decibans))
    return Reasons(
        speaks_for=tuple(one for one in told if one.decibans > 0)[:MOST_REASONS],
        speaks_against=tuple(one for one in told if one.decibans < 0)[:MOST_REASONS],
    )


def _sentence(compiled: CompiledPack, belief: Belief, place: int, cause: str, gain: float) -> str:
    found = belief.findings[place]
    says = compiled.checks[found.check].results[level_of(compiled, found)].says
    much = "much " if abs(gain) >= STRONG else ""
    name = cause_words(compiled, cause)
    return f"{says}, so “{name}” is {much}{'more' if gain > 0 else 'less'} likely"
