"""The program's own mower: the same answers as a general-purpose library, in every branch of a job."""

import numpy as np
import pytest

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.next_step import rank
from bellcrank.knowledge.pack import read_library

PACK = read_library().packs["walk-behind-mower"]
COMPILED = compile_pack(PACK)
COMPLAINTS = tuple(one.id for one in PACK.complaints)


def some_findings(seed, count):
    rng = np.random.default_rng(seed)
    checks = [PACK.checks[place] for place in rng.permutation(len(PACK.checks))[:count]]
    return tuple(Found(one.id, one.results[int(rng.integers(len(one.results)))].id) for one in checks)


@pytest.mark.parametrize("complaint", COMPLAINTS)
def test_the_causes_keep_the_shares_of_the_pack_as_blame(complaint):
    # Oracle: shares.csv. Roots may bring about a little more of a rare cause than its share, hence the band.
    blocking = believe(COMPILED, Case((complaint,))).blocking
    for cause in PACK.causes:
        assert blocking[cause.id] == pytest.approx(cause.shares.get(complaint, 0.0), rel=0.35, abs=0.015), cause.id


@pytest.mark.parametrize("complaint", COMPLAINTS)
def test_any_repair_may_be_recorded_as_the_cure(complaint):
    for repair in PACK.repairs:
        belief = believe(COMPILED, Case((complaint,), (Repaired(repair.id, "cured"),)))
        assert belief.without.evidence[0] > 0
        assert sum(belief.on_arrival.values()) > 0.5


@pytest.mark.parametrize("seed", range(4))
def test_a_job_with_many_odd_findings_can_still_be_ranked(seed):
    odd = [one for one in PACK.checks if len(one.likelihoods) > 1]
    chosen = [odd[place] for place in np.random.default_rng(seed).permutation(len(odd))[:16]]
    case = Case((COMPLAINTS[seed],), tuple(Found(one.id, one.results[-1].id) for one in chosen))
    belief = believe(COMPILED, case)
    assert rank(COMPILED, belief)[-1].expected_minutes > 0
    assert all(0 <= chance <= 1 + 1e-12 for chance in belief.now.values())
