"""Which sets of operations an optimum can lie in."""

from bellcrank.teardown.chart import chart
from bellcrank.teardown.what_comes_off import closed_sets, one_closed_set

from .small_models import machine, operation

MOWER = machine(
    operation("tank-off", minutes=2.0),
    operation("tank-aside", minutes=0.5),
    operation("starter-off", minutes=1.0),
    operation("shroud-off", [("tank-off", "tank-aside")]),
    operation("blade-off"),
)
CHART = chart(
    MOWER, dict.fromkeys((one.id for one in MOWER.operations), "hand"), {o.id: o.minutes for o in MOWER.operations}
)
SHROUD = CHART.set_of(["shroud-off"])


def names(operations):
    return {name for number, name in enumerate(CHART.ids) if operations >> number & 1}


def test_every_choice_is_a_set_the_cheapest_first():
    found = closed_sets(CHART, SHROUD, 0, most_work=10.0)
    assert [names(one) for one in found.sets] == [{"shroud-off", "tank-aside"}, {"shroud-off", "tank-off"}]
    assert found.least_work_unseen is None


def test_sets_that_take_too_long_are_left_out():
    assert len(closed_sets(CHART, SHROUD, 0, most_work=2.0).sets) == 1


def test_what_was_not_looked_at_is_told_by_its_least_work():
    found = closed_sets(CHART, SHROUD, 0, most_work=10.0, most_sets=2)
    assert found.least_work_unseen is not None
    assert found.least_work_unseen <= 1.5  # the cheapest set there is: tank aside, shroud off


def test_what_is_done_already_is_not_done_again():
    done = CHART.set_of(["tank-off"])
    assert [names(one) for one in closed_sets(CHART, SHROUD, done, most_work=10.0).sets] == [{"shroud-off"}]


def test_one_set_that_suffices_leaves_the_dear_and_the_needless_alone():
    assert names(one_closed_set(CHART, SHROUD, 0)) == {"shroud-off", "tank-aside"}
