"""A network of causes and findings: leaky noisy-MAX findings over causes that may bring each other about.

Findings follow the net convention (Díez): a row says what one cause alone does, without the leak, and with cumulative
rows L (leak) and C (cause c) a set s of present causes gives P(level <= l | s) = L_l * product of C_cl over s. With two
levels this is the leaky noisy-OR. Causes follow the noisy-OR: own probability p and roots j with strength pi_j give
P(absent | roots) = (1 - p) * product of (1 - pi_j) over the roots that are present. A cause that its roots bring about
in some other way (both are needed, one prevents it) has a table instead, over all combinations of them.

References
----------
F. J. Díez, Parameter adjustment in Bayes networks: the generalized noisy OR-gate, UAI 1993 (from memory).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from graphlib import CycleError, TopologicalSorter

import numpy as np
import numpy.typing as npt

from bellcrank.errors import KnowledgeFault

FloatArray = npt.NDArray[np.float64]
ROUNDING = 1e-6  # [-] how far typed level probabilities may miss a sum of one


@dataclass(frozen=True, slots=True)
class NetworkCause:
    """Something that may be present on its own or brought about by others."""

    name: str
    own: float  # probability that it is there with no root present [-]
    roots: Mapping[str, float] = field(default_factory=dict)  # root -> chance that it alone brings this about [-]
    table: tuple[float, ...] = ()  # chance for every combination of roots instead; see :func:`fault_network` [-]


@dataclass(frozen=True, slots=True)
class NetworkFinding:
    """Something seen at one of several levels; level 0 is "nothing wrong"."""

    name: str
    leak: tuple[float, ...]  # probability of each level when no cause is present [-]
    rows: Mapping[str, tuple[float, ...]]  # cause -> probability of each level from it alone, no leak [-]


@dataclass(frozen=True, slots=True, eq=False)
class FindingTable:
    """A finding as cumulative arrays over all causes of the network."""

    leak: FloatArray  # shape (levels,): P(level <= l | nothing present)
    rows: FloatArray  # shape (levels, causes): P(level <= l | only that cause, no leak), one where it has no say
    touched: tuple[int, ...]  # positions of the causes that have a say

    @property
    def levels(self) -> int:
        """How many levels it has."""
        return len(self.leak)


@dataclass(frozen=True, slots=True, eq=False)
class FaultNetwork:
    """Causes in a fixed order and the findings over them, ready for :func:`bellcrank.stats.weighing.weigh`."""

    names: tuple[str, ...]
    position: Mapping[str, int]
    own: FloatArray  # shape (causes,)
    roots: tuple[tuple[tuple[int, float], ...], ...]  # per cause: (position of root, strength)
    findings: Mapping[str, FindingTable]
    tables: tuple[FloatArray | None, ...]  # per cause: shape (2,) * roots, chance that it is there; None: noisy-OR
    followers: tuple[tuple[int, ...], ...]  # per cause: positions of what it can bring about
    roots_first: tuple[int, ...]  # positions in an order in which roots stand before what they bring about


def fault_network(causes: Iterable[NetworkCause], findings: Iterable[NetworkFinding]) -> FaultNetwork:
    """Check the records and lay them out as arrays.

    The table of a cause goes through the combinations of its roots with the last root changing fastest, absent before
    present; own chance and strengths say nothing then.

    >>> net = fault_network([NetworkCause("key", 0.1)], [NetworkFinding("spark", (0.95, 0.05), {"key": (0.3, 0.7)})])
    >>> net.findings["spark"].rows[:, 0].tolist()
    [0.3, 1.0]
    """
    causes = tuple(causes)
    names = tuple(cause.name for cause in causes)
    position = {name: place for place, name in enumerate(names)}
    if len(position) != len(names):
        raise KnowledgeFault("Two causes of the network have the same name; give each its own.")
    roots_first = _roots_first(causes)
    for cause in causes:
        _refuse_bad_chances(cause.name, (cause.own, *cause.roots.values()))
    return FaultNetwork(
        names=names,
        position=position,
        own=np.array([cause.own for cause in causes]),
        roots=tuple(
            tuple((_place(position, root, cause.name), strength) for root, strength in cause.roots.items())
            for cause in causes
        ),
        findings={finding.name: _table(finding, position) for finding in findings},
        tables=tuple(_over_roots(cause) for cause in causes),
        followers=tuple(
            tuple(place for place, other in enumerate(causes) if cause.name in other.roots) for cause in causes
        ),
        roots_first=tuple(position[name] for name in roots_first),
    )


def _over_roots(cause: NetworkCause) -> FloatArray | None:
    if not cause.table:
        return None
    _refuse_bad_chances(cause.name, cause.table)
    if len(cause.table) != 2 ** len(cause.roots):
        raise KnowledgeFault(
            f"“{cause.name}” has {len(cause.roots)} roots, but {len(cause.table)} chances. Give one for each of the "
            f"{2 ** len(cause.roots)} combinations of them."
        )
    return np.array(cause.table).reshape((2,) * len(cause.roots))


def _table(finding: NetworkFinding, position: Mapping[str, int]) -> FindingTable:
    rows = np.ones((len(finding.leak), len(position)))
    for cause, row in finding.rows.items():
        if len(row) != len(finding.leak):
            raise KnowledgeFault(
                f"“{finding.name}” has {len(finding.leak)} results, but its row for “{cause}” has {len(row)} chances. "
                "Give one chance for each result."
            )
        rows[:, _place(position, cause, finding.name)] = _cumulative(finding.name, row)
    touched = tuple(int(place) for place in np.flatnonzero((rows < 1).any(axis=0)))
    return FindingTable(leak=_cumulative(finding.name, finding.leak), rows=rows, touched=touched)


def _cumulative(name: str, row: tuple[float, ...]) -> FloatArray:
    _refuse_bad_chances(name, row)
    if abs(sum(row) - 1) > ROUNDING:
        raise KnowledgeFault(f"A row of “{name}” sums to {sum(row):g}; the chances of its results must sum to 1.")
    steps = np.cumsum(np.array(row))
    steps /= steps[-1]
    steps[-1] = 1.0
    return steps


def _refuse_bad_chances(name: str, chances: tuple[float, ...]) -> None:
    for chance in chances:
        if not 0 <= chance <= 1:
            raise KnowledgeFault(f"“{name}” has a chance of {chance:g}; it must lie between 0 and 1.")


def _roots_first(causes: tuple[NetworkCause, ...]) -> tuple[str, ...]:
    try:
        return tuple(TopologicalSorter({cause.name: tuple(cause.roots) for cause in causes}).static_order())
    except CycleError as circle:
        chain = " → ".join(circle.args[1])
        raise KnowledgeFault(f"Causes bring each other about in a circle: {chain}. Take one link out.") from None


def _place(position: Mapping[str, int], cause: str, where: str) -> int:
    if cause not in position:
        raise KnowledgeFault(
            f"“{where}” names the cause “{cause}”, which is not in the network. Add it or mend the name."
        )
    return position[cause]
