from hypothesis import given
from hypothesis import strategies as st

from bellcrank.stats.passing_order import passing_order


@st.composite
def roads(draw):
    causes = draw(st.integers(1, 12))
    pressed = {cause: tuple(sorted(draw(st.sets(st.integers(0, 5), max_size=3)))) for cause in range(causes)}
    roots = {
        cause: tuple(sorted(draw(st.sets(st.integers(0, cause - 1), max_size=2)))) if cause else ()
        for cause in range(causes)
    }
    return pressed, roots


@given(roads())
def test_passes_every_cause_once_and_roots_first(road):
    pressed, roots = road
    order = [stop.cause for stop in passing_order(pressed, roots)]
    assert sorted(order) == sorted(pressed)
    assert all(order.index(root) < order.index(cause) for cause in order for root in roots[cause])


@given(roads())
def test_opens_every_finding_once_and_leaves_nothing_open(road):
    pressed, roots = road
    stops = passing_order(pressed, roots)
    opened = [bit for stop in stops for bit in stop.opens]
    drivers = {root for own in roots.values() for root in own}
    assert sorted(opened) == sorted({bit for own in pressed.values() for bit in own})
    closed = [bit for stop in stops for _, bit in stop.closes]
    assert sorted(bit for bit in closed if bit is not None) == sorted(opened)
    assert closed.count(None) == len(drivers)


def test_keeps_a_chain_of_findings_narrow():
    # By hand: cause n presses on findings n and n + 1, so two are open at any cause whatever the length of the chain.
    stops = passing_order({cause: (cause, cause + 1) for cause in range(30)}, {})
    assert max(stop.width for stop in stops) == 2
