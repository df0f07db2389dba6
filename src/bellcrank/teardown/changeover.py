"""What it costs to change the tool in the hand and to turn the machine over."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import product

from bellcrank.errors import OutOfRange
from bellcrank.knowledge.assembly import Assembly

TOOL_CHANGE_MINUTES = 0.1  # [min] six seconds to lay one tool down and take another; guess
TURN_MINUTES = 0.75  # [min] 45 s to tip or stand up a walk-behind machine and prop it; guess
HAND = "hand"  # the tool that changes no tool
UPRIGHT = "upright"  # how a machine comes in and must go out


@dataclass(frozen=True, slots=True)
class Changeover:
    """Minutes for a change of tool and for turning the machine between two ways of lying.

    The planner is exact only when no detour is shorter than the direct change, so turning minutes are closed by
    shortest paths: see :meth:`turns_between`.

    Parameters
    ----------
    tool_minutes : float
        To lay one tool down and take any other; handwork changes no tool. [min]
    turn_minutes : float
        To turn the machine between two ways of lying not named in ``turns``. [min]
    turns : mapping of pairs of names to float
        Minutes for single pairs, the same both ways. [min]
    """

    tool_minutes: float = TOOL_CHANGE_MINUTES
    turn_minutes: float = TURN_MINUTES
    turns: Mapping[tuple[str, str], float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse a change that gives time back."""
        for minutes in (self.tool_minutes, self.turn_minutes, *self.turns.values()):
            if minutes < 0:
                raise OutOfRange(f"A changeover takes {minutes} min; it must be zero or more. Type it again.")

    def tool(self, held: str, wanted: str) -> float:
        """Minutes to have the wanted tool at hand, holding another or none (``""``)."""
        return 0.0 if wanted in (HAND, held) else self.tool_minutes

    def turns_between(self, ways: Iterable[str]) -> Mapping[tuple[str, str], float]:
        """Minutes to turn the machine between each two of the ways it can lie, by a detour where that is shorter."""
        names = tuple(dict.fromkeys((*ways, *(name for pair in self.turns for name in pair))))
        table = {(a, b): self._direct(a, b) for a, b in product(names, repeat=2)}
        for middle, a, b in product(names, repeat=3):
            table[a, b] = min(table[a, b], table[a, middle] + table[middle, b])
        return table

    def _direct(self, lies: str, wanted: str) -> float:
        if lies == wanted:
            return 0.0
        both_ways = [self.turns[pair] for pair in ((lies, wanted), (wanted, lies)) if pair in self.turns]
        return min(both_ways, default=self.turn_minutes)


USUAL = Changeover()


def changeover_of(assembly: Assembly) -> Changeover:
    """Give what changing tools and turning takes on this machine; as usual where its model does not say."""
    tool, turn = assembly.tool_minutes, assembly.turn_minutes
    return Changeover(
        TOOL_CHANGE_MINUTES if tool is None else tool, TURN_MINUTES if turn is None else turn, assembly.turns
    )
