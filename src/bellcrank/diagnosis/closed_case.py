"""A case that is closed: which repair cured it, and which causes that leaves."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.network import NOT_LISTED, CompiledPack, compile_pack, pack_given


@dataclass(frozen=True, slots=True)
class ClosedCase:
    """A case whose machine has left, and what the mechanic said of it afterwards."""

    case: Case
    told: int = 0  # of its events were facts told at the door, before anything was looked at
    named: str = ""  # the cause, or NOT_LISTED; "" when nobody said
    minutes: float | None = None  # at the curing repair, without the way in and back [min]


@dataclass(frozen=True, slots=True)
class Cure:
    """What cured the machine of some complaints."""

    complaints: tuple[str, ...]
    place: int  # events before the first of the repairs
    repairs: tuple[str, ...]  # those done since the start before; none when only the cause was named
    causes: tuple[str, ...]  # any of them may have been it; one: the cause is known

    @property
    def cause(self) -> str:
        """The cause, when only one can have been it, else ""."""
        return self.causes[0] if len(self.causes) == 1 else ""


def cures_of(compiled: CompiledPack, closed: ClosedCase) -> tuple[Cure, ...]:
    """Give what cured a closed case, in order; nothing when it went without a cure and nobody named the cause."""
    complaints = tuple(dict.fromkeys(closed.case.complaints))
    cures: list[Cure] = []
    for place, repairs in _cured_by(closed.case):
        left = [one for one in complaints if not any(one in cure.complaints for cure in cures)]
        fixed = {cause for repair in repairs for cause in compiled.repairs[repair].fixes}
        told = {one: tuple(c for c in _blockers(compiled, one) if c in fixed) for one in left}
        curable = tuple(one for one in left if told[one]) or tuple(left)
        causes = dict.fromkeys(cause for one in curable for cause in told[one])
        known = tuple(causes) or tuple(sorted(fixed))
        if curable and known:
            cures.append(Cure(curable, place, repairs, known))
    if closed.named and cures:
        last = cures.pop()
        cures.append(Cure(last.complaints, last.place, last.repairs, (closed.named,)))
    elif closed.named and complaints:
        cures.append(Cure(complaints, len(closed.case.events), (), (closed.named,)))
    return tuple(cures)


def _cured_by(case: Case) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Give the repairs of each start that cured, none before the last start that failed."""
    cured: list[tuple[int, tuple[str, ...]]] = []
    first, group = 0, list[str]()
    for place, event in enumerate(case.events):
        if not isinstance(event, Repaired):
            continue
        first = place if not group else first
        group.append(event.repair)
        if event.outcome == "cured":
            cured.append((first, tuple(group)))
        elif event.outcome == "not-cured":
            cured.clear()
        if event.outcome != "not-tried":
            group = []
    yield from cured


def _blockers(compiled: CompiledPack, complaint: str) -> tuple[str, ...]:
    """Give the causes that can bring a complaint about."""
    chances = compiled.blocking((complaint,))
    return tuple(
        name for name, chance in zip(compiled.network.names, chances, strict=True) if chance > 0 and name != NOT_LISTED
    )


def holding(compiled: CompiledPack, complaints: tuple[str, ...]) -> CompiledPack:
    """Give the pack with the rows that hold while these complaints stand."""
    if not any(one.complaint in complaints for one in compiled.pack.given):
        return compiled
    return compile_pack(pack_given(compiled.pack, complaints))


def known_to(compiled: CompiledPack, closed: ClosedCase) -> ClosedCase:
    """Give a closed case without what the pack knows nothing of: a check or a cause of then that is no more."""
    events = closed.case.events
    kept = [place for place, event in enumerate(events) if _known(compiled, event)]
    complaints = {one.id for one in compiled.pack.complaints}
    return replace(
        closed,
        case=Case(
            tuple(one for one in closed.case.complaints if one in complaints), tuple(events[place] for place in kept)
        ),
        told=sum(place < closed.told for place in kept),
        named=closed.named if closed.named in compiled.network.position else "",
    )


def _known(compiled: CompiledPack, event: Found | Repaired) -> bool:
    if isinstance(event, Repaired):
        return event.repair in compiled.repairs
    check = compiled.checks.get(event.check)
    return check is not None and event.result in {NOT_SURE, *(one.id for one in check.results)}
