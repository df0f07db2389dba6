"""Whatever was found and done: nothing unsafe is asked for, and what is opened is counted once."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.allowed import forbidding, open_now
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.further import look_further
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.diagnosis.standpoint import standing_after, standing_at
from bellcrank.knowledge.model import Access, Complaint

from .small_pack import COMPILED, GUESS, cause, check, pack_of, repair

NAMES = [f"c{n}" for n in range(6)]


@st.composite
def packs(draw):
    """Draw a pack in which some checks run the engine, some forbid running it, and covers need each other."""
    chance, yes = st.floats(0.05, 0.95), st.booleans()
    covers = tuple(
        Access(f"o{n}", f"cover {n}", (f"o{n - 1}",) if n and draw(yes) else (), None, 2.0, 3.0, draw(yes))
        for n in range(3)
    )
    access = st.lists(st.sampled_from(covers), max_size=2, unique=True).map(lambda some: tuple(one.id for one in some))
    some_causes = st.dictionaries(st.sampled_from(NAMES), chance.map(lambda p: (1 - p, p)), min_size=1, max_size=3)
    checks = []
    for n in range(6):
        runs = draw(yes)
        forbids = not runs and draw(yes)
        rows, where = draw(some_causes), draw(access)
        checks.append(
            check(f"t{n}", ("fine", "odd"), (0.95, 0.05), rows, access=where, runs_engine=runs, forbids=forbids)
        )
    repairs = tuple(
        repair(f"mend-{name}", {name: draw(chance)}, draw(st.floats(2.0, 40.0)), draw(access)) for name in NAMES
    )
    return compile_pack(
        pack_of(
            causes=tuple(cause(name, name, {"runs-badly": 0.15}) for name in NAMES),
            checks=tuple(checks),
            repairs=repairs,
            accesses=covers,
            complaints=(Complaint("runs-badly", "runs badly", 1.0, True, GUESS),),
        )
    )


@st.composite
def jobs(draw):
    compiled = draw(packs())
    pack = compiled.pack
    found = st.sampled_from([Found(one.id, result.id) for one in pack.checks for result in one.results])
    done = st.sampled_from([Repaired(one.id, "not-tried") for one in pack.repairs])
    return compiled, Case(("runs-badly",), tuple(draw(st.lists(st.one_of(found, found, done), max_size=5))))


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_nothing_is_run_or_started_while_a_finding_forbids_it(job):
    compiled, case = job
    belief = believe(compiled, case)
    for steps in (rank(compiled, belief), look_further(compiled, belief, lambda: True).steps):
        asked = [compiled.checks[one.id] for one in steps if one.kind == "check"]
        if forbidding(compiled, case):
            assert not any(one.runs_engine or one.tries_to_start for one in asked)


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_one_step_is_never_worse_than_the_plan_it_looks_beyond(job):
    # Policy improvement: the first repair of the plan, or stopping, is among the steps.
    compiled, case = job
    belief = believe(compiled, case)
    shortest = min(one.expected_minutes for one in rank(compiled, belief))
    assert shortest <= standing_at(compiled, belief).ahead.minutes + 0.1  # hopeless repairs have no line


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_what_is_opened_is_counted_once(job):
    # Second route: open what a step needs, and what that needs, one cover after the other.
    compiled, case = job
    opened = {name for name, flag in zip(compiled.access_order, open_now(compiled, case), strict=True) if flag}
    for one in rank(compiled, believe(compiled, case)):
        if one.kind == "stop":
            continue
        needed = compiled.checks[one.id].access if one.kind == "check" else compiled.repairs[one.id].access
        missing, left = set(), list(needed)
        while left:
            name = left.pop()
            left.extend(compiled.accesses[name].needs)
            missing |= {name} - opened
        assert set(one.open_first) == missing
        assert one.access_minutes == pytest.approx(5.0 * len(missing))


def test_where_a_job_would_stand_is_where_it_stands_once_it_is_recorded():
    case = Case(("wont-start",), (Found("spark", "r2"), Repaired("mend-coil", "not-cured")))
    there, here = standing_after(COMPILED, case), standing_at(COMPILED, believe(COMPILED, case))
    assert np.allclose(there.culprits, here.culprits)
    assert there.ahead.minutes == pytest.approx(here.ahead.minutes)
