"""The large machine of the benches: long ways in are legal and proven."""

import pytest
from bench.models import TARGETS, large_mower

from bellcrank.teardown.legality import plan_problems
from bellcrank.teardown.way_in import way_in

MOWER = large_mower()


@pytest.mark.parametrize("target", TARGETS)
def test_a_long_way_in_is_legal_and_proven(target):
    way = way_in(MOWER, (target,))
    assert plan_problems(MOWER, [step.operation.id for step in way.steps]) == []
    assert way.steps[-1].operation.id == target
    assert way.proven


def test_the_longest_is_as_long_as_the_bench_says():
    assert [len(way_in(MOWER, (target,)).steps) for target in (TARGETS[0], TARGETS[-1])] == [12, 66]
