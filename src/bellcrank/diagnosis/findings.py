"""Which findings of a job count, and when they were made.

A check made again is no new evidence as long as no repair touched anything it looks at: then its last answer counts
alone. After such a repair both answers count. The same answer once more is one finding that lasted: what made it is
still there, most likely, and its chance noise is the same. Another answer is a finding of its own, for its own time.
"""

from dataclasses import dataclass

from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.network import CompiledPack


@dataclass(frozen=True, slots=True)
class Dated:
    """A finding that counts, with the number of repairs done before it was made."""

    found: Found
    after: int
    since: int  # the same when it was first made and answered alike ever since


def counting(compiled: CompiledPack, case: Case) -> tuple[Dated, ...]:
    """Give the findings that count, in order; "not sure" takes an earlier answer away."""
    lasting: list[Dated] = []
    for one in _answers(compiled, case):
        before = next((other for other in reversed(lasting) if other.found.check == one.found.check), None)
        if before is not None and before.found == one.found:
            lasting.remove(before)
            lasting.append(Dated(one.found, one.after, before.since))
        else:
            lasting.append(one)
    return tuple(one for one in lasting if one.found.result != NOT_SURE)


def answered(compiled: CompiledPack, case: Case) -> frozenset[Found]:
    """Give the answers, "not sure" among them, since which no repair touched what the check looks at."""
    repairs = repairs_of(case)
    return frozenset(
        one.found for one in _answers(compiled, case) if not touched(compiled, one.found.check, repairs[one.after :])
    )


def repairs_of(case: Case) -> tuple[Repaired, ...]:
    """Give the repairs in order."""
    return tuple(event for event in case.events if isinstance(event, Repaired))


def touched(compiled: CompiledPack, check: str, repairs: tuple[Repaired, ...]) -> bool:
    """Whether one of these repairs fixes something the check looks at."""
    looks_at = compiled.looks_at.get(check, frozenset())
    return any(not looks_at.isdisjoint(compiled.repairs[one.repair].fixes) for one in repairs)


def _answers(compiled: CompiledPack, case: Case) -> list[Dated]:
    repairs = repairs_of(case)
    kept: list[Dated] = []
    done = 0
    for event in case.events:
        if isinstance(event, Repaired):
            done += 1
            continue
        kept = [
            one
            for one in kept
            if one.found.check != event.check or touched(compiled, event.check, repairs[one.after : done])
        ]
        kept.append(Dated(event, done, done))
    return kept
