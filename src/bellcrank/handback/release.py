"""May the machine go back as ready? A hard item that is open, failed or undecided says no; only a proof lifts it.

An answer holds until something it depends on is touched again: the blade taken off after the stop test opens the
stop test anew. An item may also depend on another item: guards looked at after the plug lead went on open “lead last”.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.handback.proofs import BoltWindow, ProofResult, Status, judge
from bellcrank.handback.triggers import WORDS as THINGS
from bellcrank.handback.triggers import Asked

OPEN = ProofResult(Status.OPEN, "")
DO = {
    Status.OPEN: "it was not looked at yet",
    Status.FAILED: "it failed",
    Status.UNDECIDED: "it could not be decided",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered, and where in the job's order of events."""

    values: Mapping[str, str]
    order: int


@dataclass(frozen=True, slots=True)
class ProofState:
    """A line of the release list as it stands."""

    asked: Asked
    result: ProofResult


@dataclass(frozen=True, slots=True)
class Decision:
    """What may be done with the machine."""

    lines: tuple[ProofState, ...]
    ready: bool  # every hard item is proven
    blocking: tuple[str, ...]  # which hard item, why, and what to do
    notes: tuple[str, ...]  # soft items that go with it in writing
    beside: tuple[str, ...] = ()  # of what blocks, what is no item of the list: a step still open, a forbidden start


def decide(
    asked: tuple[Asked, ...],
    answers: Mapping[str, Answer],
    touched_at: Mapping[str, int],
    bolt: BoltWindow | None = None,
) -> Decision:
    """Decide from the answers; ``touched_at`` tells when each thing was last touched, in the order of events."""
    happened = _happened(answers, touched_at)
    lines = tuple(ProofState(one, _state(one, answers.get(one.item.id), happened, bolt)) for one in asked)
    blocking = tuple(_blocks(line) for line in lines if line.asked.item.hard and not _passed(line))
    notes = tuple(_notes(line) for line in lines if not line.asked.item.hard and not _passed(line))
    return Decision(lines, not blocking, blocking, notes)


def _happened(answers: Mapping[str, Answer], touched_at: Mapping[str, int]) -> Mapping[str, int]:
    """Give when each thing was last touched and each item last answered; a name that is both means the thing."""
    answered = {name: answer.order for name, answer in answers.items() if name not in THINGS}
    return {**answered, **touched_at}


def _state(asked: Asked, answer: Answer | None, happened: Mapping[str, int], bolt: BoltWindow | None) -> ProofResult:
    if answer is None:
        return OPEN
    later = [name for name in asked.item.redo_after if happened.get(name, -1) > answer.order]
    if later:
        return ProofResult(Status.OPEN, f"answered before, but then touched: {', '.join(later)}")
    return judge(asked.item, answer.values, bolt)


def _passed(line: ProofState) -> bool:
    return line.result.status is Status.PASSED


def _blocks(line: ProofState) -> str:
    item, result = line.asked.item, line.result
    detail = f" ({result.detail})" if result.detail and result.status is not Status.OPEN else ""
    again = f" {result.detail}." if result.detail and result.status is Status.OPEN else ""
    what = "Put it right and prove it again." if result.status is Status.FAILED else item.how
    return f"{item.words} {DO[result.status].capitalize()}{detail}.{again} {what}"


def _notes(line: ProofState) -> str:
    detail = f": {line.result.detail}" if line.result.detail else ""
    return f"{line.asked.item.words} {DO[line.result.status].capitalize()}{detail}."
