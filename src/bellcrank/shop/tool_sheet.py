"""What a sheet shows of a step that takes a tool the shop does not have."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LackingLine:
    """A tool, or several, that a step takes and the shop has not."""

    tools: tuple[str, ...]
    says: str  # what it is, where to get it, from what price
    price: str  # of all of them, to start from, decimal text in the shop's currency; a guess
    lend: bool  # whether all can be borrowed or hired
    saves_minutes: float  # in this job, against the best that can be done without; 0 when hardly any [min]
    worth: str  # those minutes against the price, "" when hardly any
    instead_kind: str  # check, repair; "" when nothing stands for it
    instead: str  # what tells or cures most of the same with the tools there are
    instead_words: str
