"""The same search on sequential ordering instances, whose optima others have published."""

import itertools

import pytest
from bench.sop import INSTANCES, read_matrix, sequencing_of

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
    assert sum(matrix[a][b] for a, b in itertools.pairwise(nodes)) == optimum
    assert all(nodes.index(b) < nodes.index(a) for a, row in enumerate(matrix) for b, c in enumerate(row) if c == -1)
