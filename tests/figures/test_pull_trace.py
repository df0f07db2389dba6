"""One pull of the cord against time."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.figures.pull_trace import pull_trace

from .drawn import SVG, paths, read_svg, refuse_a_muddle, texts, told
from .of_engine import ENGINES, pulled_through

KICK = ENGINES["pull trace, kicks back"]


def traces(figure):
    return [one for one in read_svg(figure).iter(f"{SVG}path") if one.get("class") == "drawn-trace"]


def read_back(trace):
    """Give the values of a trace from where it is drawn, as the page's script does."""
    zero, per = float(trace.get("data-zero")), float(trace.get("data-per"))
    pairs = (pair.split(" ") for pair in trace.get("d")[1:].split("L"))
    return [(float(x), (zero - float(y)) / per) for x, y in pairs]


def test_a_spike_of_one_point_among_two_thousand_is_drawn_in_full():
    seconds = [0.001 * one for one in range(2000)]
    flat = [100.0] * 2000
    spiked = [900.0 if one == 1234 else 100.0 for one in range(2000)]
    dented = [-50.0 if one == 777 else 100.0 for one in range(2000)]
    speed, pressure, cord = traces(pull_trace(seconds, dented, spiked, flat, ()))
    assert min(value for _, value in read_back(speed)) == pytest.approx(-50, abs=0.5)
    assert max(value for _, value in read_back(pressure)) == pytest.approx(900, abs=1)
    assert {round(value) for _, value in read_back(cord)} == {100}


def test_two_thousand_points_make_no_heavy_page():
    assert len(pulled_through(number=2000)) < 20_000


def test_the_traces_share_their_time():
    starts_and_ends = {(line[0][0], line[-1][0]) for line in paths(KICK, "drawn-trace")}
    assert starts_and_ends == {(12.0, 408.0)}


def test_the_script_s_numbers_give_back_what_was_drawn():
    speed, pressure, cord = (read_back(one) for one in traces(KICK))
    assert max(value for _, value in speed) == pytest.approx(330, abs=1)
    assert min(value for _, value in speed) == pytest.approx(-290, abs=2)
    assert max(value for _, value in pressure) == pytest.approx(1600, abs=5)
    assert max(value for _, value in cord) == pytest.approx(700, abs=2)
    scale = next(one for one in read_svg(KICK).iter(f"{SVG}g"))
    assert (float(scale.get("data-start")), float(scale.get("data-end"))) == (0.0, 0.9)


def test_events_stand_at_their_time():
    lines = sorted({line[0][0] for line in paths(KICK, "drawn-event")})
    assert lines == pytest.approx([12 + 396 * second / 0.9 for second in (0.12, 0.3, 0.55, 0.6)], abs=0.1)


def test_every_event_reaches_the_axis():
    foot = max(line[-1][1] for line in paths(KICK, "drawn-event"))
    for x in {line[0][0] for line in paths(KICK, "drawn-event")}:
        assert max(line[-1][1] for line in paths(KICK, "drawn-event") if line[0][0] == x) == foot


def test_the_largest_values_are_said_where_no_script_runs():
    words = " ".join(one.words for one in texts(KICK)).replace("\u00a0", " ")
    assert "330 rpm on, 290 rpm back" in words
    assert "most 1600 kPa at 0.60 s" in words
    title, twin = told(KICK)
    assert title == "Kicked back: 290 rpm backwards at 0.62 s"
    assert "(232 psi)" in twin  # 1600 kPa over 6.894757 kPa
    assert "(157 lbf)" in twin  # 700 N over 4.448222 N
    assert "What happened: cord tight at 0.12 s; over the top at 0.30 s; main spark" in twin


def test_a_pull_that_went_well_says_its_largest_values():
    assert told(ENGINES["pull trace, nothing happened"])[0].startswith("Up to 330 rpm, ")
    assert "What happened" not in told(ENGINES["pull trace, nothing happened"])[1]


def test_a_crank_that_turns_back_is_told_from_one_that_turns_on_by_words():
    assert not any(sign in one.words for one in texts(KICK) for sign in "-−")


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0, 0.9), st.sampled_from(["fires", "cord goes solid", "m" * 9, "1 2 3 " * 9])), max_size=7
    ),
    st.integers(9, 400),
    st.booleans(),
    st.floats(-5, 20),
    st.floats(0.01, 30),
)
def test_nothing_lies_over_anything(events, number, kicks, start, long):
    there = [(start + long * share, words) for share, words in events]
    figure = pulled_through(there, number, kicks=kicks, start=start, long=long)
    refuse_a_muddle(figure)
    assert all(math.isfinite(y) for line in paths(figure) for _, y in line)
