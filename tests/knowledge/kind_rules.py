"""What every kind of machine must hold beside what ``packs check`` asks, for the kinds' own tests."""

from bellcrank.diagnosis.allowed import checks_left
from bellcrank.diagnosis.belief import Belief, believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.next_step import NextStep, rank
from bellcrank.knowledge.model import Check, Pack, Repair

FEW_POINTS = 0.05  # [-] roots may bring about a little more of a cause than its share
LEAD = "plug lead"


def belief_of(compiled: CompiledPack, complaint: str, *events: Found | Repaired) -> Belief:
    """Weigh one complaint and what was found."""
    return believe(compiled, Case((complaint,), events))


def first_step(compiled: CompiledPack, complaint: str, *events: Found | Repaired) -> NextStep:
    """Give what stands on top of the list."""
    return rank(compiled, belief_of(compiled, complaint, *events))[0]


def likeliest(belief: Belief) -> str:
    """Give the cause that is most to blame."""
    return max(belief.blocking, key=lambda cause: belief.blocking[cause])


def runs_while_forbidden(compiled: CompiledPack, complaint: str) -> list[tuple[str, str, str]]:
    """Give every check that asks for a run or a start though a finding forbids it."""
    return [
        (check.id, result.id, left.id)
        for check in compiled.pack.checks
        for result in check.results
        if result.forbids_running
        for left in checks_left(compiled, Case((complaint,), (Found(check.id, result.id),)))
        if left.runs_engine or left.tries_to_start
    ]


def shares_missed(compiled: CompiledPack, complaint: str) -> dict[str, tuple[float, float]]:
    """Give causes whose blame, the complaint alone known, lies off their share of it: share and blame. [-]"""
    blocking = belief_of(compiled, complaint).blocking
    shares = {cause.id: cause.shares.get(complaint, 0.0) for cause in compiled.pack.causes}
    return {
        cause: (share, blocking[cause]) for cause, share in shares.items() if abs(blocking[cause] - share) > FEW_POINTS
    }


def forbidding_that_stay(compiled: CompiledPack) -> list[tuple[str, str]]:
    """Give findings that forbid a start and that no repair and no better look lifts."""
    quiet = next(one.id for one in compiled.pack.complaints if one.engine_runs)
    stay = []
    for check in compiled.pack.checks:
        for result in check.results:
            if result.forbids_running and not _lifted(compiled, quiet, Found(check.id, result.id)):
                stay.append((check.id, result.id))
    return stay


def _lifted(compiled: CompiledPack, complaint: str, found: Found) -> bool:
    runs = {check.id for check in compiled.pack.checks if check.runs_engine and check.id != found.check}
    for repair in compiled.pack.repairs:
        case = Case((complaint,), (found, Repaired(repair.id, "not-tried")))
        if runs & {check.id for check in checks_left(compiled, case)}:
            return True
    return any(found.check in result.lifts for check in compiled.pack.checks for result in check.results)


def without_lead(pack: Pack, hazards: set[str]) -> list[str]:
    """Give work with one of these hazards that does not take the plug lead off first."""
    return [one.id for one in _work(pack) if hazards & set(one.hazards) and LEAD not in one.off_first]


def without_hazard(pack: Pack, accesses: set[str], hazards: set[str]) -> list[str]:
    """Give work behind one of these covers that warns of none of these hazards."""
    return [one.id for one in _work(pack) if accesses & set(one.access) and not hazards & set(one.hazards)]


def _work(pack: Pack) -> list[Check | Repair]:
    return [one for one in (*pack.checks, *pack.repairs) if not (isinstance(one, Check) and one.runs_engine)]
