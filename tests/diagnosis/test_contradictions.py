"""Whatever is told of the program's own mower, true or not, together or not: there is an answer with reasons."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.because import reasons_for_all
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import OUTCOMES, Case, Found, Repaired
from bellcrank.diagnosis.combinations import likely_combinations
from bellcrank.diagnosis.next_step import rank
from bellcrank.diagnosis.verdict import leading, verdicts

from .test_shipped_pack import COMPILED, COMPLAINTS, PACK

founds = st.sampled_from(PACK.checks).flatmap(
    lambda one: st.builds(Found, st.just(one.id), st.sampled_from([each.id for each in one.results]), st.booleans())
)
repairs = st.builds(Repaired, st.sampled_from([one.id for one in PACK.repairs]), st.sampled_from(OUTCOMES))
complaints = st.lists(st.sampled_from(COMPLAINTS), min_size=1, max_size=2, unique=True).map(tuple)


@settings(max_examples=40, deadline=None)
@given(complaints, st.lists(founds | repairs, max_size=8))
def test_no_combination_of_findings_breaks_anything_or_gives_silent_zeros(told, events):
    belief = believe(COMPILED, Case(told, tuple(events)))
    assert belief.without.evidence[0] > 0
    assert all(0 <= one <= 1 + 1e-9 for one in belief.now.values())
    assert max(belief.on_arrival.values()) > 0.01
    if all(one.outcome == "not-cured" for one in events if isinstance(one, Repaired)):
        assert sum(belief.blocking.values()) > 0.99  # something keeps it standing
    if not belief.cured:
        assert rank(COMPILED, belief)
        assert likely_combinations(COMPILED, belief)
    likely = sorted(belief.now, key=lambda name: -belief.now[name])[:5]
    for reasons in reasons_for_all(COMPILED, belief, likely).values():
        for one in (*reasons.speaks_for, *reasons.speaks_against):
            assert math.isfinite(one.decibans)
            assert math.isfinite(one.alone)
    for verdict in verdicts(COMPILED, belief, (leading(COMPILED, belief), likely[-1])):
        for move in verdict.moves:
            assert sum(one.chance for one in move.results) == pytest.approx(1, abs=0.01 * 7 + 1e-9)
            assert all(0 <= one.after <= 1 for one in move.results)


def test_findings_that_contradict_each_other_are_named():
    jumps, returns = Found("spark-tester", "jumps"), Found("wire-off-coil", "returns")
    belief = believe(COMPILED, Case(("wont-start",), (jumps, returns)))
    assert "the spark comes back without the stop wire goes badly with this: the spark tester fires" in (
        belief.disagreement
    )
