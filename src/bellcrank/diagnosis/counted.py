"""What counts when steps are ranked: a shop's own terms, and a pack's repairs counted in them.

Steps are ranked by one number, minutes: parts count as the minutes the shop must work for them. Expectations of money
are floats here, not coins; what is shown or billed is rounded above, in ``quote``.
"""

from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.allowed import Flags, forbidding
from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.stats.fault_network import FloatArray


@dataclass(frozen=True, slots=True)
class Terms:
    """What a shop counts with; what it does not say is the pack's guess."""

    minutes_per_price: float | None = None  # work that one unit of parts money is worth; None: the pack's [min]
    worth_minutes: float | None = None  # what the machine is worth, as work; None: the pack's for giving up [min]
    over: tuple[float, ...] = ()  # one a repair: chance that the job then passes what may be spent; empty: no limit [-]


USUAL = Terms()
NOTHING_DONE = Case(())


@dataclass(frozen=True, slots=True, eq=False)
class Counted:
    """The repairs of a pack as they count on one job; arrays follow the order of the pack's repairs."""

    cures: FloatArray  # shape (repairs, causes) [-]
    work: FloatArray  # shape (repairs,): typical, hands-on, and the start that tries it [min]
    parts: FloatArray  # shape (repairs,): money, before tax
    minutes: FloatArray  # shape (repairs,): work, parts counted as minutes [min]
    needs: Flags  # shape (repairs, accesses), what they need included
    need_minutes: FloatArray  # shape (repairs, accesses): to open and close each that is needed [min]
    shut_to_run: Flags  # shape (accesses,)
    used: Flags  # shape (repairs,): done and tried: whether it takes is drawn once, so it is not counted on again
    give_up: float  # counted for a machine that is not cured [min]
    over: FloatArray  # shape (causes,): chance that mending it passes what may be spent; zero without a limit [-]


def counted(compiled: CompiledPack, case: Case = NOTHING_DONE, terms: Terms = USUAL) -> Counted:
    """Count the repairs of a pack for a case."""
    pack = compiled.pack
    per_price = pack.minutes_per_price if terms.minutes_per_price is None else terms.minutes_per_price
    work = compiled.repair_work + pack.start_check_minutes
    used = tried(compiled, case)
    return Counted(
        cures=compiled.repair_cures,
        work=work,
        parts=compiled.repair_parts,
        minutes=work + per_price * compiled.repair_parts,
        needs=compiled.repair_needs,
        need_minutes=compiled.repair_needs * compiled.access_minutes,
        shut_to_run=compiled.shut_to_run,
        used=np.array([repair.id in used for repair in pack.repairs], bool),
        give_up=pack.give_up_minutes if terms.worth_minutes is None else terms.worth_minutes,
        over=_over_by_cause(compiled, terms),
    )


def _over_by_cause(compiled: CompiledPack, terms: Terms) -> FloatArray:
    over = np.zeros(len(compiled.network.names))
    by_repair = dict(zip((repair.id for repair in compiled.pack.repairs), terms.over, strict=False))
    for name, cause in compiled.causes.items():
        over[compiled.network.position[name]] = by_repair.get(cause.repair or "", 0.0)
    return over


def tried(compiled: CompiledPack, case: Case) -> dict[str, bool]:
    """Give the repairs that were done and tried, and whether a finding since shows what they fix."""
    waiting: set[str] = set()  # done, and not tried yet
    shown: dict[str, bool] = {}
    for event in case.events:
        if isinstance(event, Repaired):
            waiting.add(event.repair)
            if event.outcome != "not-tried":
                shown.update(dict.fromkeys(waiting, False))
                waiting.clear()
        elif event.result != NOT_SURE:
            seen = _shown_by(compiled, event)
            shown = {name: old or not seen.isdisjoint(compiled.repairs[name].fixes) for name, old in shown.items()}
    return shown


def waiting(compiled: CompiledPack, case: Case) -> frozenset[str]:
    """Give the repairs done since the last start while nothing may be started: done, they are not proposed again."""
    if not forbidding(compiled, case):
        return frozenset()
    done: set[str] = set()
    for event in case.events:
        if isinstance(event, Repaired):
            done.add(event.repair)
            if event.outcome != "not-tried":
                done.clear()
    return frozenset(done)


def _shown_by(compiled: CompiledPack, found: Found) -> frozenset[str]:
    """Give the causes that show as this result more often than a machine without fault."""
    check = compiled.checks[found.check]
    level = [result.id for result in check.results].index(found.result)
    return frozenset(row.cause for row in check.likelihoods if row.probabilities[level] > check.leak[level])
