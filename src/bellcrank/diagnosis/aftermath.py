"""After a repair: is it likely cured, and what else to look for before the machine is closed."""

from dataclasses import dataclass, replace

from bellcrank.diagnosis.belief import Belief, mend_of
from bellcrank.diagnosis.case import Repaired
from bellcrank.diagnosis.findings import repairs_of
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import NotFound
from bellcrank.knowledge.model import Severity
from bellcrank.stats.weighing import weigh

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


def chance_of_cure(compiled: CompiledPack, belief: Belief, repair: str) -> float:
    """Chance that no complaint stands after one more repair, exactly: P(gone after it | all that is known). [-]"""
    if repair not in compiled.repairs:
        raise NotFound(f"There is no repair “{repair}”. Pick one from the job's list.")
    if belief.cured or not belief.case.complaints:
        return 1.0
    evidence = belief.evidence
    done = len(evidence.mends) + 1
    after = replace(
        evidence,
        standings=tuple(replace(one, gone_after=done) for one in evidence.standings),
        mends=(*evidence.mends, mend_of(compiled, repairs_of(belief.case), Repaired(repair, "cured"))),
    )
    return float(weigh(compiled.network, after).evidence[0] / belief.without.evidence[0])


def _worth(compiled: CompiledPack, cause: str) -> float:
    return WORTH_A_LOOK[compiled.causes[cause].severity]


def _linked(compiled: CompiledPack, causes: set[str]) -> set[str]:
    ends = {(link.root, link.consequence) for link in compiled.pack.links}
    return {b for a, b in ends if a in causes} | {a for a, b in ends if b in causes}
