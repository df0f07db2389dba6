"""What happened on a job, as diagnosis sees it: a list of findings and repairs in their order."""

from dataclasses import dataclass
from typing import Literal, get_args

NOT_SURE = "not-sure"  # a result that says nothing
Outcome = Literal["cured", "not-cured", "not-tried"]
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)


@dataclass(frozen=True, slots=True)
class Found:
    """A check was made."""

    check: str
    result: str
    unsure: bool = False  # who looked only thinks so
    fits: tuple[float, ...] = ()  # of a reading: how well each result fits what the instrument showed [-]


@dataclass(frozen=True, slots=True)
class Repaired:
    """A repair was done, and whether the complaint stood after it."""

    repair: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Case:
    """A machine's complaints and what was found and done since; replaying it gives the same belief."""

    complaints: tuple[str, ...]
    events: tuple[Found | Repaired, ...] = ()

    @property
    def cured(self) -> bool:
        """Whether the last repair that was tried cured it."""
        tried = [event for event in self.events if isinstance(event, Repaired) and event.outcome != "not-tried"]
        return bool(tried) and tried[-1].outcome == "cured"
