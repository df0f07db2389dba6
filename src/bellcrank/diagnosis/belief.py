"""What is believed of a machine after all that was found and done on it."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.disagreement import disagreement
from bellcrank.diagnosis.findings import Dated, counting, repairs_of
from bellcrank.diagnosis.network import COMPLAINT, NOT_LISTED, CompiledPack
from bellcrank.errors import NotFound
from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.weighing import Weighing, weigh

LIKELY_NOT_LISTED = 0.5  # [-] more likely than not
ONLY_THOUGHT = 0.25  # [-] how well the other results fit what somebody only thinks, the one named fitting with 1: guess


@dataclass(frozen=True, slots=True, eq=False)
class Belief:
    """Probabilities of every cause, and what each finding contributed."""

    case: Case
    evidence: Evidence
    findings: tuple[Found, ...]  # those that carry evidence, in order
    now: Mapping[str, float]  # cause -> probability that it is in the machine now [-]
    on_arrival: Mapping[str, float]  # cause -> probability that it came with it [-]
    blocking: Mapping[str, float]  # cause -> probability that it is there and keeps a complaint standing [-]
    without: Weighing  # row 0: all findings; row i + 1: finding i left out
    disagreement: str  # a sentence when findings fit badly together, else ""
    cured: bool  # the last repair tried cured it, and no complaint stands any more


def believe(compiled: CompiledPack, case: Case) -> Belief:
    """Weigh every cause by the complaints, findings and repairs of a case."""
    findings, evidence = gather(compiled, case)
    questions = (Question(), *(Question(without=frozenset({place})) for place in range(len(findings))))
    weighing = weigh(compiled.network, evidence, questions)
    names = compiled.network.names
    says = tuple(compiled.checks[one.check].results[level_of(compiled, one)].says for one in findings)
    return Belief(
        case=case,
        evidence=evidence,
        findings=findings,
        now=dict(zip(names, weighing.now[0].tolist(), strict=True)),
        on_arrival=dict(zip(names, weighing.arrived[0].tolist(), strict=True)),
        blocking=dict(zip(names, weighing.blocking[0].tolist(), strict=True)),
        without=weighing,
        disagreement=_unexplained_cure(compiled, case, weighing)
        or disagreement(compiled.network, evidence, says, weighing.evidence),
        cured=is_cured(compiled, case),
    )


def still_standing(compiled: CompiledPack, case: Case) -> tuple[str, ...]:
    """Give the complaints that nothing done so far has cured, in the order they were told."""
    repairs, complaints = repairs_of(case), tuple(dict.fromkeys(case.complaints))
    return tuple(one for one in complaints if _standing(compiled, one, complaints, repairs).gone_after is None)


def is_cured(compiled: CompiledPack, case: Case) -> bool:
    """Whether the last repair tried cured it and no complaint is left: a machine may come in with two."""
    return case.cured and not still_standing(compiled, case)


def _unexplained_cure(compiled: CompiledPack, case: Case, weighing: Weighing) -> str:
    """Say so when a cure points to something that is not on the list."""
    cures = [one for one in repairs_of(case) if one.outcome == "cured"]
    if not case.cured or weighing.arrived[0, compiled.network.position[NOT_LISTED]] < LIKELY_NOT_LISTED:
        return ""
    return (
        f"“{compiled.repairs[cures[-1].repair].words}” cured it, but what it mends was no likely reason. Something "
        "that is not on this list was put right along with it. Look for it before the machine goes out."
    )


def gather(compiled: CompiledPack, case: Case) -> tuple[tuple[Found, ...], Evidence]:
    """Turn a case into evidence."""
    _refuse_unknown(compiled, case)
    repairs = repairs_of(case)
    complaints = tuple(dict.fromkeys(case.complaints))
    dated = counting(compiled, case)
    return tuple(one.found for one in dated), Evidence(
        sightings=tuple(_sighting(compiled, one) for one in dated),
        standings=tuple(_standing(compiled, complaint, complaints, repairs) for complaint in complaints),
        mends=tuple(mend_of(compiled, repairs[:place], one) for place, one in enumerate(repairs)),
    )


def _sighting(compiled: CompiledPack, one: Dated) -> Sighting:
    """Make a finding a sighting; one that was not seen clearly fits the other results as well, though less."""
    found, level = one.found, level_of(compiled, one.found)
    weights = found.fits
    if found.unsure:
        results = compiled.checks[found.check].results
        weights = tuple(1.0 if other == level else ONLY_THOUGHT for other in range(len(results)))
    if sum(weight > 0 for weight in weights) <= 1:
        return Sighting(found.check, level, one.after, one.since)
    return Sighting(found.check, level, one.after, weights=weights)


def mend_of(compiled: CompiledPack, before: tuple[Repaired, ...], repair: Repaired) -> Mapping[str, float]:
    """Give what a repair removes.

    One done but not tried, and told with its outcome at the next start, is not done a second time; after a start it is.
    """
    for earlier in reversed(before):
        if earlier.outcome != "not-tried":
            break
        if earlier.repair == repair.repair:
            return {}
    return compiled.mend(repair.repair)


def _standing(
    compiled: CompiledPack, complaint: str, complaints: tuple[str, ...], repairs: tuple[Repaired, ...]
) -> Standing:
    """Say until when a complaint stood and since when it is cured.

    A failed start takes an earlier cure back. A cure speaks of the complaints that what was repaired since the last
    failed start can cure; when that is none of them, it speaks of all.
    """
    stood, gone = 0, None
    for number, repair in enumerate(repairs, start=1):
        if repair.outcome == "not-cured":
            stood, gone = number, None
        elif repair.outcome == "cured" and gone is None:
            tried = repairs[stood:number]
            curable = [one for one in complaints if _can_cure(compiled, tried, one)] or complaints
            gone = number if complaint in curable else None
    return Standing(COMPLAINT + complaint, stood, gone)


def _can_cure(compiled: CompiledPack, repairs: tuple[Repaired, ...], complaint: str) -> bool:
    blocking = compiled.blocking((complaint,))
    fixed = {cause for one in repairs for cause in compiled.repairs[one.repair].fixes}
    return any(blocking[compiled.network.position[cause]] > 0 for cause in fixed)


def level_of(compiled: CompiledPack, found: Found) -> int:
    """Give the level of a result among its check's results, or refuse with those there are."""
    if found.check not in compiled.checks:
        raise NotFound(f"There is no check “{found.check}”. Pick one from the job's list.")
    results = [result.id for result in compiled.checks[found.check].results]
    if found.result not in results:
        choice = ", ".join(results)
        raise NotFound(f"“{found.result}” is no result of “{found.check}”. It must be one of {choice} or {NOT_SURE}.")
    return results.index(found.result)


def _refuse_unknown(compiled: CompiledPack, case: Case) -> None:
    for repair in repairs_of(case):
        if repair.repair not in compiled.repairs:
            raise NotFound(f"There is no repair “{repair.repair}”. Pick one from the job's list.")
    for complaint in case.complaints:
        if COMPLAINT + complaint not in compiled.network.findings:
            known = ", ".join(one.id for one in compiled.pack.complaints)
            raise NotFound(f"There is no complaint “{complaint}”. It must be one of {known}.")
