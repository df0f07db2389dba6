"""After a repair: is it likely cured, and what else to look for before the machine is closed."""

from dataclasses import dataclass

from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.case import Repaired
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.knowledge.model import Severity

# By how much harm it does, not by how likely it is: the worse, the less likely it may be and still be looked for.
WORTH_A_LOOK = {Severity.SAFETY: 0.02, Severity.DAMAGE: 0.05, Severity.FUNCTION: 0.15, Severity.NUISANCE: 0.30}


@dataclass(frozen=True, slots=True)
class Companion:
    """A root cause or consequence that may still be in the machine."""

    cause: str
    probability: float  # that it is there now [-]


def look_also(compiled: CompiledPack, belief: Belief) -> tuple[Companion, ...]:
    """Give the roots and consequences of what was repaired that are likely enough to be looked for, worst first."""
    mended = {
        cause
        for event in belief.case.events
        if isinstance(event, Repaired)
        for cause in compiled.repairs[event.repair].fixes
        if belief.on_arrival[cause] > WORTH_A_LOOK[Severity.FUNCTION]
    }
    near = _linked(compiled, _linked(compiled, mended) | mended) - mended
    found = (
        Companion(cause, belief.now[cause])
        for cause in near
        if compiled.causes[cause].system != "event"
        and belief.now[cause] >= WORTH_A_LOOK[compiled.causes[cause].severity]
    )
    return tuple(sorted(found, key=lambda one: -one.probability))


def chance_of_cure(compiled: CompiledPack, belief: Belief, repair: str) -> float:
    """Chance that the machine works after a repair, by the weight of what blocks it now. [-]"""
    blocking = compiled.blocking(belief.case.complaints)
    weights = zip(compiled.network.names, blocking.tolist(), strict=True)
    culprits: dict[str, float] = {name: belief.now[name] * weight for name, weight in weights}
    total = sum(culprits.values())
    if not total:
        return 0.0
    fixes = compiled.repairs[repair].fixes
    return sum(culprits[cause] * chance for cause, chance in fixes.items()) / total


def _linked(compiled: CompiledPack, causes: set[str]) -> set[str]:
    ends = {(link.root, link.consequence) for link in compiled.pack.links}
    return {b for a, b in ends if a in causes} | {a for a, b in ends if b in causes}
