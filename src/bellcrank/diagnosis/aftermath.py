"""After a repair: what else to look for before the machine is closed."""

from dataclasses import dataclass

from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.findings import repairs_of
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
    """Give the roots and consequences of what was repaired that are likely enough to be looked for.

    First comes what does most harm for how likely it is.
    """
    mended = {
        cause
        for repair in repairs_of(belief.case)
        for cause in compiled.repairs[repair.repair].fixes
        if belief.on_arrival[cause] > WORTH_A_LOOK[Severity.FUNCTION]
    }
    near = _linked(compiled, _linked(compiled, mended) | mended) - mended
    found = [
        Companion(cause, belief.now[cause])
        for cause in near
        if compiled.causes[cause].system != "event" and belief.now[cause] >= _worth(compiled, cause)
    ]
    return tuple(sorted(found, key=lambda one: (-one.probability / _worth(compiled, one.cause), one.cause)))


def _worth(compiled: CompiledPack, cause: str) -> float:
    return WORTH_A_LOOK[compiled.causes[cause].severity]


def _linked(compiled: CompiledPack, causes: set[str]) -> set[str]:
    ends = {(link.root, link.consequence) for link in compiled.pack.links}
    return {b for a, b in ends if a in causes} | {a for a, b in ends if b in causes}
