"""A closed case told again: what would have been said after the story, and before the repair that cured it."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.diagnosis.belief import gather
from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.closed_case import ClosedCase, Cure, holding
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import OutOfRange
from bellcrank.stats.scores import surprise
from bellcrank.stats.weighing import weigh

Blame = Mapping[str, float]  # cause -> chance that it is what keeps the complaint standing; together one [-]


@dataclass(frozen=True, slots=True)
class Replay:
    """What was said of a machine at two moments, and what it was."""

    story: Blame
    end: Blame
    causes: tuple[str, ...]  # one of them it was

    @property
    def surprise(self) -> float:
        """Log score of both moments together: -ln of what the causes that can have been it got. [nats]"""
        return sum(surprise(sum(said.get(cause, 0.0) for cause in self.causes)) for said in (self.story, self.end))


def replay(compiled: CompiledPack, closed: ClosedCase, cures: tuple[Cure, ...]) -> Replay | None:
    """Tell a closed case again by the numbers of any pack; None when no one cause or repair is known to tell of."""
    if len(cures) != 1:
        return None
    case, cure = closed.case, cures[0]
    weighed = holding(compiled, case.complaints)
    try:
        story = blame(weighed, Case(case.complaints, case.events[: closed.told]))
        end = blame(weighed, Case(case.complaints, case.events[: cure.place]))
    except OutOfRange:  # too much to be weighed exactly
        return None
    return Replay(story, end, cure.causes)


def blame(compiled: CompiledPack, case: Case) -> Blame:
    """Give how likely each cause is to blame for the complaints that stand, together one."""
    _, evidence = gather(compiled, case)
    blocking = weigh(compiled.network, evidence).blocking[0]
    total = float(blocking.sum()) or 1.0
    return {name: float(one) / total for name, one in zip(compiled.network.names, blocking, strict=True)}
