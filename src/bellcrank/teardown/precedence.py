"""What must come before what within one set of operations that is done as a whole."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.teardown.sequencing import Sequencing, bits_of


@dataclass(frozen=True, slots=True)
class Precedence:
    """The order the needs force on a chosen set; every operation is a bit."""

    chosen: int
    must: Mapping[int, int]  # what comes before, without a choice and not through another [bit -> set]
    either: Mapping[int, tuple[int, ...]]  # groups of which one comes before [bit -> sets]
    opens: Mapping[int, tuple[int, ...]]  # whose needs name it [bit -> bits]
    before: Mapping[int, int]  # all that is forced before it [bit -> set]
    after: Mapping[int, int]  # all it is forced before [bit -> set]

    def ready(self, done: int) -> int:
        """Give what can be done next."""
        return sum(bit for bit in self.must if not done & bit and self.may_do(bit, done))

    def may_do(self, bit: int, done: int) -> bool:
        """Whether all that must come before it is done."""
        return not self.must[bit] & ~done and all(done & group for group in self.either[bit])

    def do_all(self, done: int, ready: int, free: int) -> tuple[int, int]:
        """Do all that is free of any change, and what becomes ready by it; give what is done and ready then."""
        while now := ready & free:
            bit = now & -now
            done |= bit
            ready ^= bit
            for other in self.opens[bit]:
                if not (done | ready) & other and self.may_do(other, done):
                    ready |= other
        return done, ready

    def sequence(self, done: int, then: int) -> list[int]:
        """Give the bits done between two moments of one campaign, in an order that is legal."""
        order = []
        while left := then & ~done:
            bit = next(bit for bit in bits_of(left) if self.may_do(bit, done))
            order.append(bit)
            done |= bit
        return order


def precedence(problem: Sequencing, chosen: int) -> Precedence:
    """Work out what the needs force on a chosen set; what is done before needs nothing any more."""
    must, either = {}, {}
    for bit in bits_of(chosen):
        groups = [g & chosen for g in problem.needs[bit.bit_length() - 1] if not g & problem.done]
        must[bit] = _union(group for group in groups if group.bit_count() == 1)
        either[bit] = tuple(group for group in groups if group.bit_count() != 1)
    named = {bit: must[bit] | _union(either[bit]) for bit in must}
    before = _all_before(must)
    return Precedence(
        chosen=chosen,
        must=must,
        either=either,
        opens={bit: tuple(other for other in named if named[other] & bit) for bit in must},
        before=before,
        after={bit: _union(other for other, first in before.items() if first & bit) for bit in must},
    )


def _all_before(must: Mapping[int, int]) -> dict[int, int]:
    """Follow what must come before through all its steps."""
    before = dict(must)
    grew = True
    while grew:
        grew = False
        for bit, first in before.items():
            wider = first | _union(before[other] for other in bits_of(first))
            if wider != first:
                before[bit] = wider
                grew = True
    return before


def _union(sets: Iterable[int]) -> int:
    union = 0
    for one in sets:
        union |= one
    return union
