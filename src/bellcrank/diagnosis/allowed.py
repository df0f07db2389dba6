"""What may be done now: which checks are still open, whether the engine may run, what is already open."""

import numpy as np
import numpy.typing as npt

from bellcrank.diagnosis.case import NOT_SURE, OUTCOMES, Case, Found, Outcome, Repaired
from bellcrank.diagnosis.findings import answered
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.knowledge.model import Check, Result
from bellcrank.knowledge.own import PREFIX

Flags = npt.NDArray[np.bool_]
OF_A_LOOK = 0.6  # [-] of the likelihood of the cause that shows most: what can be looked at again is looked at: guess
OF_A_TRIAL = 0.1  # [-] the same for a check that takes a start, which cannot be made again before: guess
NOTHING_SAID = Result("", "", "", forbids_running=False)


def checks_left(compiled: CompiledPack, case: Case) -> tuple[Check, ...]:
    """Give the checks that may be made: none that stands answered, none that starts what must not be started."""
    forbids = {found.check for found in forbidding(compiled, case)}
    done = {one.check for one in answered(compiled, case) if one.result != NOT_SURE or one.check not in forbids}
    done |= compiled.pack.retired
    running, starting = may_run(compiled, case), not forbids and _may_be_started(compiled, case)
    return tuple(
        check
        for check in compiled.pack.checks
        if check.id not in done and (running or not check.runs_engine) and (starting or not check.tries_to_start)
    )


def may_run(compiled: CompiledPack, case: Case) -> bool:
    """Whether a check may ask for the engine to run: not when it cannot, nor while a finding forbids starting it."""
    runs = {complaint.id: complaint.engine_runs for complaint in compiled.pack.complaints}
    return all(runs[complaint] for complaint in case.complaints) and not forbidding(compiled, case)


def _may_be_started(compiled: CompiledPack, case: Case) -> bool:
    """Whether none of the complaints is one with which nothing is started: it would not stop, or burn."""
    return all(complaint.may_start for complaint in compiled.pack.complaints if complaint.id in case.complaints)


def forbidding(compiled: CompiledPack, case: Case) -> tuple[Found, ...]:
    """Give the findings after which nothing is started and which still stand.

    One stands until the same check is answered otherwise, a result lifts it, or a repair puts right what shows so;
    "not sure" and a repair of something else lift nothing.
    """
    standing: list[Found] = []
    for event in case.events:
        if isinstance(event, Repaired):
            standing = [one for one in standing if not _puts_right(compiled, event.repair, one)]
        elif event.result != NOT_SURE:
            result = _result(compiled, event)
            standing = [one for one in standing if one.check != event.check and one.check not in result.lifts]
            if result.forbids_running:
                standing.append(event)
    return tuple(standing)


def _puts_right(compiled: CompiledPack, repair: str, found: Found) -> bool:
    """Whether a repair fixes a cause that shows as this result, among those that most often do.

    A cause the shop added lifts nothing: what it explains was ticked by hand, and a blade may be cracked beside it.
    """
    check = compiled.checks[found.check]
    level = [result.id for result in check.results].index(found.result)
    shows = {row.cause: row.probabilities[level] for row in check.likelihoods}
    needs_a_start = check.runs_engine or check.tries_to_start
    least = max(shows.values(), default=1.0) * (OF_A_TRIAL if needs_a_start else OF_A_LOOK)
    fixes = {cause for cause in compiled.repairs[repair].fixes if not cause.startswith(PREFIX)}
    return any(p >= least and p > check.leak[level] for cause, p in shows.items() if cause in fixes)


def forbidding_after(compiled: CompiledPack, case: Case, repair: str) -> tuple[Found, ...]:
    """Give the findings after which nothing is started, once a repair has been done."""
    return forbidding(compiled, Case(case.complaints, (*case.events, Repaired(repair, "not-tried"))))


def outcomes_open(compiled: CompiledPack, case: Case, repair: str) -> tuple[Outcome, ...]:
    """Give what can be said of a repair: only that it is not tried yet, while nothing may be started."""
    return ("not-tried",) if forbidding_after(compiled, case, repair) else OUTCOMES


def _result(compiled: CompiledPack, found: Found) -> Result:
    results = compiled.checks[found.check].results if found.check in compiled.checks else ()
    return next((one for one in results if one.id == found.result), NOTHING_SAID)


def open_now(compiled: CompiledPack, case: Case) -> Flags:
    """Tell what is open by what was done: a check leaves it open, a start has closed it; shape (accesses,)."""
    flags = np.zeros(len(compiled.access_order), bool)
    for event in case.events:
        if isinstance(event, Repaired):
            flags |= compiled.access_set(compiled.repairs[event.repair].access)
            if event.outcome != "not-tried":
                flags &= ~compiled.shut_to_run
        elif event.result != NOT_SURE:
            flags = open_after_check(compiled, compiled.checks[event.check], flags)
    return flags


def open_after_check(compiled: CompiledPack, check: Check, flags: Flags) -> Flags:
    """Tell what is open after a check."""
    after: Flags = flags | compiled.access_set(check.access)
    return after & ~compiled.shut_to_run if check.runs_engine else after


def to_open(compiled: CompiledPack, access: tuple[str, ...], flags: Flags) -> tuple[str, ...]:
    """Give the accesses still to be opened for something, in the pack's order."""
    needed = compiled.access_set(access) & ~flags
    return tuple(name for name, flag in zip(compiled.access_order, needed, strict=True) if flag)


def access_minutes(compiled: CompiledPack, access: tuple[str, ...], flags: Flags) -> float:
    """Minutes to open, and later close, what is not open yet. [min]"""
    return float((compiled.access_set(access) & ~flags) @ compiled.access_minutes)
