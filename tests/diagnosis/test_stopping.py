import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.by_repairs import Ahead, Expected
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.counted import USUAL, Terms, counted
from bellcrank.diagnosis.next_step import rank
from bellcrank.diagnosis.stopping import AFTER_A_NO, ASKING, asking, or_ask

from .small_pack import COMPILED, PACK

NAMES = [one.id for one in PACK.repairs]


def over(*names):
    return Terms(over=tuple(float(name in names) for name in NAMES))


def steps(terms, *events, complaint="wont-start"):
    return rank(COMPILED, believe(COMPILED, Case((complaint,), events)), terms)


def named(ranked, name):
    return next(one for one in ranked if one.id == name)


def test_asking_costs_the_call_and_saves_the_rest_when_the_answer_is_no():
    # By hand: 40 min ahead, one job in four comes to too much: 6 + .25 * 10 + .75 * 40.
    asked = asking(0.25, Expected(minutes=40.0, work=30.0, parts=12.0, given_up=0.2))
    assert (ASKING, AFTER_A_NO) == (6.0, 10.0)
    assert asked == Expected(minutes=38.5, work=31.0, parts=9.0, given_up=pytest.approx(0.4))


def test_without_a_limit_asking_saves_nothing_and_stands_behind_the_best_step():
    ranked = steps(USUAL)
    best = min(one.expected_minutes for one in ranked if one.id not in ("quote", "stop"))
    quote = named(ranked, "quote")
    assert quote.expected_minutes == pytest.approx(best + ASKING)
    assert "No limit is known" in quote.why


def test_asks_before_any_work_when_most_such_jobs_come_to_more_than_may_be_spent():
    ranked = steps(over(*NAMES))
    assert ranked[0].id == "quote"
    assert ranked[0].says_no > 0.9  # the rest is what is not on the list
    assert "more than may be spent: asking before any more work saves about" in ranked[0].why


def test_looks_first_when_a_check_tells_the_dear_jobs_from_the_cheap_ones():
    # A dead coil and a new key are dear: one job in four. The first looks are a minute or two each: no call before.
    ranked = steps(over("mend-coil", "mend-key"))
    assert named(ranked, "quote").says_no == pytest.approx(0.25, rel=0.1)  # the pack: .15 and .10 of such machines
    assert ranked[0].kind == "check"
    assert named(ranked, "quote").why.endswith("first pays for itself.")
    shown = steps(over("mend-coil", "mend-key"), Found("spark", "r2"))
    assert named(shown, "quote").says_no > 0.5
    names = [one.id for one in shown]
    assert names.index("quote") < names.index("mend-coil")  # nobody fits a dear coil before the customer was asked


def test_refuses_when_more_is_ahead_than_the_machine_is_worth():
    ranked = steps(Terms(worth_minutes=4.0))
    assert (ranked[0].id, ranked[0].expected_minutes) == ("stop", 4.0)
    assert "than the machine is worth" in ranked[0].why


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.floats(0.0, 1.0), min_size=len(NAMES), max_size=len(NAMES)),
    st.lists(st.floats(0.0, 300.0), min_size=3, max_size=3),
)
def test_asking_is_only_done_where_it_is_shorter(chances, minutes):
    repairs = counted(COMPILED, terms=Terms(over=tuple(chances)))
    blame = np.random.default_rng(1).dirichlet(np.ones(len(COMPILED.network.names)), size=3)
    ahead = Ahead(np.array(minutes), np.array(minutes), np.zeros(3), np.zeros(3))
    asked = or_ask(repairs, blame, ahead)
    assert (asked.minutes <= ahead.minutes).all()
    assert (asked.minutes[asked.minutes < ahead.minutes] >= ASKING).all()


@pytest.mark.parametrize("terms", [USUAL, over("mend-coil", "mend-key"), Terms(worth_minutes=60.0)])
def test_expected_minutes_are_work_parts_as_minutes_and_giving_up(terms):
    # The pack's parts cost nothing, so what counts beyond work is giving up; after a no nothing is charged.
    for one in steps(terms):
        refused = 150.0 if terms.worth_minutes is None else terms.worth_minutes
        least, most = one.work_minutes, one.work_minutes + one.given_up * refused
        assert least - 1e-9 <= one.expected_minutes <= most + 1e-9
