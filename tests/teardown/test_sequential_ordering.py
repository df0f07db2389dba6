"""The same search on sequential ordering instances, whose optima others have published."""

from itertools import pairwise, permutations

import pytest
from bench.sop import INSTANCES, read_matrix, sequencing_of
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.teardown.search import least_order

# Optima as published for TSPLIB (Reinelt 1991; known values in a public benchmark script, see sop/sources.md).
PUBLISHED = {"ESC07": 2125, "ESC11": 2075, "br17.10": 55}


@pytest.mark.parametrize(("name", "optimum"), PUBLISHED.items())
def test_the_published_optimum_is_found_and_proven(name, optimum):
    matrix = read_matrix(INSTANCES / f"{name}.sop")
    everything = (1 << len(matrix)) - 1
    found = least_order(sequencing_of(matrix), iter([(0.0, everything)]))
    assert found.proven
    assert found.minutes == optimum
    nodes = [number for number, _ in found.order()]
    assert sorted(nodes) == list(range(len(matrix)))
    assert sum(matrix[a][b] for a, b in pairwise(nodes)) == optimum
    assert all(nodes.index(b) < nodes.index(a) for a, row in enumerate(matrix) for b, c in enumerate(row) if c == -1)


@st.composite
def matrices(draw, most=7):
    """Random costs, which need not obey the triangle, and random orders forced between the nodes."""
    size = draw(st.integers(3, most))
    matrix = [[draw(st.integers(0, 9)) for _ in range(size)] for _ in range(size)]
    for a in range(size):
        for b in range(a):
            if b == 0 or a == size - 1 or draw(st.integers(0, 3)) == 0:
                matrix[a][b] = -1
    return matrix


@settings(max_examples=150, deadline=None)
@given(matrices())
def test_no_order_of_the_nodes_costs_less(matrix):
    nodes = range(len(matrix))
    least = min(
        sum(matrix[a][b] for a, b in pairwise(order))
        for order in permutations(nodes)
        if all(order.index(b) < order.index(a) for a in nodes for b in nodes if matrix[a][b] == -1)
    )
    found = least_order(sequencing_of(matrix), iter([(0.0, (1 << len(matrix)) - 1)]))
    assert (found.proven, found.minutes) == (True, least)
