"""What is believed of a machine after all that was found and done on it."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.network import COMPLAINT, CompiledPack
from bellcrank.errors import NotFound
from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.weighing import Weighing, weigh

ODD = 0.02  # [-] a finding expected in fewer cases than this, given all others, is worth a second look


@dataclass(frozen=True, slots=True, eq=False)
class Belief:
    """Probabilities of every cause, and what each finding contributed."""

    case: Case
    evidence: Evidence
    findings: tuple[Found, ...]  # those that carry evidence, in order
    now: Mapping[str, float]  # cause -> probability that it is in the machine now [-]
    on_arrival: Mapping[str, float]  # cause -> probability that it came with it [-]
    without: Weighing  # row 0: all findings; row i + 1: finding i left out
    disagreement: str  # a sentence when a finding fits badly with the rest, else ""


def believe(compiled: CompiledPack, case: Case) -> Belief:
    """Weigh every cause by the complaints, findings and repairs of a case."""
    findings, evidence = gather(compiled, case)
    questions = (Question(), *(Question(without=frozenset({place})) for place in range(len(findings))))
    weighing = weigh(compiled.network, evidence, questions)
    names = compiled.network.names
    return Belief(
        case=case,
        evidence=evidence,
        findings=findings,
        now=dict(zip(names, weighing.now[0].tolist(), strict=True)),
        on_arrival=dict(zip(names, weighing.arrived[0].tolist(), strict=True)),
        without=weighing,
        disagreement=_disagreement(compiled, findings, weighing),
    )


def gather(compiled: CompiledPack, case: Case) -> tuple[tuple[Found, ...], Evidence]:
    """Turn a case into evidence; a check made again with no repair between replaces its earlier result."""
    kept: dict[tuple[str, int], Found] = {}
    mends: list[Mapping[str, float]] = []
    stood, gone = 0, None
    for event in case.events:
        if isinstance(event, Repaired):
            mends.append(_repair(compiled, event.repair))
            if event.outcome == "not-cured":
                stood = len(mends)
            gone = len(mends) if event.outcome == "cured" else None if event.outcome == "not-cured" else gone
        else:
            kept.pop((event.check, len(mends)), None)
            kept[event.check, len(mends)] = event
    findings = {place: event for place, event in kept.items() if event.result != NOT_SURE}
    sightings = tuple(Sighting(event.check, level_of(compiled, event), after) for (_, after), event in findings.items())
    standings = tuple(Standing(COMPLAINT + _complaint(compiled, one), stood, gone) for one in case.complaints)
    return tuple(findings.values()), Evidence(sightings, standings, tuple(mends))


def level_of(compiled: CompiledPack, found: Found) -> int:
    """Give the level of a result among its check's results, or refuse with those there are."""
    if found.check not in compiled.checks:
        raise NotFound(f"There is no check “{found.check}”. Pick one from the job's list.")
    results = [result.id for result in compiled.checks[found.check].results]
    if found.result not in results:
        choice = ", ".join(results)
        raise NotFound(f"“{found.result}” is no result of “{found.check}”. It must be one of {choice} or {NOT_SURE}.")
    return results.index(found.result)


def _repair(compiled: CompiledPack, repair: str) -> Mapping[str, float]:
    if repair not in compiled.repairs:
        raise NotFound(f"There is no repair “{repair}”. Pick one from the job's list.")
    return compiled.repairs[repair].fixes


def _complaint(compiled: CompiledPack, complaint: str) -> str:
    if COMPLAINT + complaint not in compiled.network.findings:
        known = ", ".join(one.id for one in compiled.pack.complaints)
        raise NotFound(f"There is no complaint “{complaint}”. It must be one of {known}.")
    return complaint


def _disagreement(compiled: CompiledPack, findings: tuple[Found, ...], weighing: Weighing) -> str:
    """Name the finding that fits worst with all the others, when it fits badly."""
    expected = [
        (float(weighing.evidence[0] / alone) if alone > 0 else 0.0, found)
        for found, alone in zip(findings, weighing.evidence[1:], strict=True)
    ]
    chance, worst = min(expected, key=lambda pair: pair[0], default=(1.0, None))
    if worst is None or chance >= ODD:
        return ""
    check = compiled.checks[worst.check]
    says = check.results[level_of(compiled, worst)].says
    share = f"1 machine in {round(1 / chance)}" if chance > 0.0001 else "almost no machine"
    return (
        f"That {says} was to be expected in {share}, given all else. Look at it once more, or something is wrong that "
        "is not on this list."
    )
