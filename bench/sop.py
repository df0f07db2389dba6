"""Sequential ordering instances as the planner's problem: every node is a setup of its own.

A row tells what it costs to go from one node to each other; -1 says that the other comes before. The first node is
first, the last one last. Costs need not obey the triangle: doing all that a setup allows is no choice where each setup
serves one node, so the search stays exact.

Reference: G. Reinelt, TSPLIB: a traveling salesman problem library, ORSA Journal on Computing 3 (1991), 376-384.
"""

from pathlib import Path

from bellcrank.teardown.sequencing import Aspect, Sequencing

INSTANCES = Path(__file__).parents[1] / "tests" / "teardown" / "sop"
NEVER = 1e7  # what a way costs that the needs forbid


def read_matrix(path: Path) -> list[list[int]]:
    return [[int(cost) for cost in line.split()] for line in path.read_text().splitlines() if line.strip()]


def sequencing_of(matrix: list[list[int]]) -> Sequencing:
    before = all_before(matrix)
    costs = tuple(
        tuple(NEVER if not _next(before, a, b) else float(cost) for b, cost in enumerate(row))
        for a, row in enumerate(matrix)
    )
    return Sequencing(
        needs=tuple(tuple(1 << b for b, cost in enumerate(row) if cost == -1) for row in matrix),
        minutes=(0.0,) * len(matrix),
        aspects=(Aspect(costs, tuple(1 << node for node in range(len(matrix))), 0),),
    )


def all_before(matrix: list[list[int]]) -> list[set[int]]:
    """For each node all that comes before it, also through others."""
    before = [{b for b, cost in enumerate(row) if cost == -1} for row in matrix]
    for middle in range(len(matrix)):
        for node in range(len(matrix)):
            if middle in before[node]:
                before[node] |= before[middle]
    return before


def _next(before: list[set[int]], a: int, b: int) -> bool:
    """Whether one node may follow the other with none between."""
    return a != b and b not in before[a] and not any(a in before[m] for m in before[b])
