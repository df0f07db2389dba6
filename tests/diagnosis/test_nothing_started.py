"""While nothing may be started the list comes to an end: what was done is not proposed again, idle checks come last."""

import numpy as np
import pytest

from bellcrank.diagnosis.allowed import forbidding
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.counted import waiting
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.knowledge.pack import read_library

COMPILED = compile_pack(read_library().packs["walk-behind-mower"])
FORBIDS = [
    Found(check.id, result.id)
    for check in COMPILED.pack.checks
    for result in check.results
    if result.forbids_running and not check.runs_engine
]


@pytest.mark.parametrize("found", FORBIDS, ids=lambda one: f"{one.check}-{one.result}")
def test_following_the_list_comes_to_an_end_though_nothing_may_be_started(found):
    rng = np.random.default_rng(1)
    events = [found]
    for _ in range(40):
        case = Case(("wont-start",), tuple(events))
        if not forbidding(COMPILED, case):
            return
        step = rank(COMPILED, believe(COMPILED, case))[0]
        if step.kind not in ("check", "repair"):
            return
        if step.kind == "repair":
            assert step.id not in waiting(COMPILED, case)
            events.append(Repaired(step.id, "not-tried"))
        else:
            results = [one.id for one in COMPILED.checks[step.id].results]
            events.append(Found(step.id, results[int(rng.integers(len(results)))]))
    raise AssertionError([getattr(one, "check", None) or one.repair for one in events])


def test_a_repair_done_but_not_tried_can_be_told_with_its_outcome_once_a_start_is_allowed():
    case = Case(("wont-start",), (Repaired("new-plug", "not-tried"),))
    assert not forbidding(COMPILED, case)
    assert waiting(COMPILED, case) == frozenset()
