"""Which sets of operations an optimum can lie in."""

from bellcrank.teardown.chart import chart, chart_of_ways
from bellcrank.teardown.what_comes_off import closed_sets, one_closed_set

from .small_models import machine, method, operation

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


def sets_of(wanted=(SHROUD,), done=0, chart_=CHART):
    return [one for _, one in closed_sets(chart_, wanted, done, chart_.everything, chart_.work) if one is not None]


def test_every_choice_is_a_set_the_cheapest_first():
    assert [names(one) for one in sets_of()] == [{"shroud-off", "tank-aside"}, {"shroud-off", "tank-off"}]


def test_what_comes_is_never_below_what_was_told_before():
    told = [minutes for minutes, _ in closed_sets(CHART, (SHROUD,), 0, CHART.everything, CHART.work)]
    assert told == sorted(told)


def test_what_is_done_already_is_not_done_again():
    assert [names(one) for one in sets_of(done=CHART.set_of(["tank-off"]))] == [{"shroud-off"}]


def test_no_set_does_a_step_in_two_ways():
    assembly = machine(
        operation("nut-off", methods=(method("impact"),)),
        operation("washer-off", ["nut-off"]),
        operation("wheel-off", ["nut-off", "washer-off"]),
    )
    laid_out = chart_of_ways(assembly)
    chosen = sets_of((laid_out.set_of(["wheel-off"]),), 0, laid_out)
    assert [one.bit_count() for one in chosen] == [3, 3]


def test_one_set_that_suffices_leaves_the_dear_and_the_needless_alone():
    assert names(one_closed_set(CHART, (SHROUD,), 0, CHART.everything)) == {"shroud-off", "tank-aside"}
