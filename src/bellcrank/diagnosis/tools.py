"""Steps that take a tool the shop does not have: what is lacking, what it would save, and what to do instead.

The ranked steps are taken as they come. A step with a lacking tool is told

- how many minutes it would save in this job: the least expected time to a cured machine among the steps that need no
  lacking tool, less its own. What either goes on with later is not looked at.
- what to do instead: the best ranked of the checks that tell apart at least `LEAST_ALIKE` of what this one would. How
  far two causes lie apart for a check is the total variation distance of its results under each of them alone (noise
  included), every pair of causes weighs by their blame now, and the other check counts for each pair up to as much as
  this one. For a repair it is the best ranked of those that cure at least `LEAST_ALIKE` of what this one would.

Such a step does not stand first, unless nothing else is worth doing: every other step looks longer than refusing. While
a finding forbids starting the machine the order is left alone: what makes it safe comes first, whatever it takes.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.allowed import forbidding
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.next_step import ASK, NextStep
from bellcrank.stats.fault_network import FloatArray

LEAST_ALIKE = 0.5  # [-] of what a step tells or cures, for another to stand for it
LEAST_BLAME = 0.005  # [-] causes blamed less are no matter of tools
LEAST_SAVED = 1.0  # [min] less is not worth a word


@dataclass(frozen=True, slots=True)
class Lacking:
    """What a step lacks."""

    tools: tuple[str, ...]
    saves: float  # minutes saved in this job if the tool were there, 0 when hardly any [min]
    instead: NextStep | None  # what tells or cures most of the same with the tools there are


@dataclass(frozen=True, slots=True)
class Tooled:
    """The ranked steps in the order they can be taken, and what is lacking, by kind and id of the step."""

    steps: tuple[NextStep, ...]
    lacking: Mapping[tuple[str, str], Lacking]


def with_tools(compiled: CompiledPack, belief: Belief, steps: tuple[NextStep, ...], missing: frozenset[str]) -> Tooled:
    """Say of ranked steps which take a tool that is missing, and put none of them first if anything else is worth it.

    ``missing`` holds tools by the words of the packs.
    """
    needs = {(step.kind, step.id): tools_of(compiled, step) for step in steps}
    lacking = {key: tuple(one for one in tools if one in missing) for key, tools in needs.items()}
    usable = tuple(step for step in steps if not lacking[step.kind, step.id])
    if len(usable) == len(steps):
        return Tooled(steps, {})
    least = min((step.expected_minutes for step in usable), default=0.0)
    blame = _blame(compiled, belief)
    told = {
        (step.kind, step.id): Lacking(
            tools=lacking[step.kind, step.id],
            saves=_worth_a_word(least - step.expected_minutes),
            instead=_instead(compiled, blame, step, usable),
        )
        for step in steps
        if lacking[step.kind, step.id]
    }
    safety = bool(forbidding(compiled, belief.case))
    return Tooled(steps if safety else _usable_first(steps, usable), told)


def tools_of(compiled: CompiledPack, step: NextStep) -> tuple[str, ...]:
    """Give the tools a step takes."""
    if step.kind == "stop":
        return ()
    return compiled.checks[step.id].tools if step.kind == "check" else compiled.repairs[step.id].tools


def alike(compiled: CompiledPack, blame: FloatArray, check: str, other: str) -> float:
    """Give the share of what a check tells apart that another tells apart too.

    Parameters
    ----------
    compiled : CompiledPack
        The pack.
    blame : array, shape (causes,)
        How likely each cause is to blame. [-]
    check, other : str
        Names of the checks.

    Returns
    -------
    float
        From 0 to 1. [-]

    Notes
    -----
    With results p_k of a check under cause k alone, d_kl = sum |p_k - p_l| / 2, and weights w of the causes, it is
    sum w_k w_l min(d_kl, d'_kl) / sum w_k w_l d_kl over all pairs.
    """
    matter = np.flatnonzero(blame >= LEAST_BLAME)
    pairs = np.outer(blame[matter], blame[matter])
    own = _apart(compiled, check, matter)
    both = np.minimum(own, _apart(compiled, other, matter))
    whole = float((pairs * own).sum())
    return float((pairs * both).sum()) / whole if whole > 0 else 0.0


def _apart(compiled: CompiledPack, check: str, matter: np.ndarray) -> FloatArray:
    """Total variation distance of a check's results between each two causes; shape (causes, causes)."""
    table = compiled.network.findings[check]
    results = np.diff(table.leak[:, None] * table.rows[:, matter], axis=0, prepend=0.0)
    distances: FloatArray = np.abs(results[:, :, None] - results[:, None, :]).sum(axis=0) / 2
    return distances


def _blame(compiled: CompiledPack, belief: Belief) -> FloatArray:
    blame = np.array([belief.blocking[name] for name in compiled.network.names])
    total = blame.sum()
    return blame / total if total > 0 else blame


def _instead(
    compiled: CompiledPack, blame: FloatArray, step: NextStep, usable: tuple[NextStep, ...]
) -> NextStep | None:
    stands_in = alike if step.kind == "check" else _cures_too
    others = (one for one in usable if one.kind == step.kind)
    return next((one for one in others if stands_in(compiled, blame, step.id, one.id) >= LEAST_ALIKE), None)


def _cures_too(compiled: CompiledPack, blame: FloatArray, repair: str, other: str) -> float:
    fixes, too = compiled.repairs[repair].fixes, compiled.repairs[other].fixes
    weights = {cause: blame[compiled.network.position[cause]] * chance for cause, chance in fixes.items()}
    whole = sum(weights.values())
    both = sum(blame[compiled.network.position[one]] * min(fixes[one], too.get(one, 0.0)) for one in fixes)
    return float(both / whole) if whole > 0 else 0.0


def _worth_a_word(minutes: float) -> float:
    return minutes if minutes >= LEAST_SAVED else 0.0


def _usable_first(steps: tuple[NextStep, ...], usable: tuple[NextStep, ...]) -> tuple[NextStep, ...]:
    stop = next((step.expected_minutes for step in steps if step.kind == "stop" and step.id != ASK), np.inf)
    first = next((step for step in usable if step.kind != "stop" and step.expected_minutes <= stop), None)
    if first is None or first is steps[0] or steps[0] in usable:
        return steps
    return (first, *(step for step in steps if step is not first))
