"""Every pack of the program: the same answers as a general-purpose library, whatever was found and however surely."""

import numpy as np
import pytest

from bellcrank.diagnosis.belief import ONLY_THOUGHT, believe, level_of
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.network import COMPLAINT, compile_pack
from bellcrank.knowledge.pack import read_library
from tests.stats.general_library import as_bayes_net, posteriors

COMPILED = {kind: compile_pack(pack) for kind, pack in read_library().packs.items()}


@pytest.mark.parametrize("kind", COMPILED)
@pytest.mark.parametrize("seed", range(5))
def test_agrees_with_a_general_purpose_library(kind, seed):
    # Oracle: pyAgrum, variable elimination; what was only thought is its soft evidence.
    compiled = COMPILED[kind]
    rng = np.random.default_rng(seed)
    complaint = compiled.pack.complaints[seed % len(compiled.pack.complaints)].id
    checks = [compiled.pack.checks[place] for place in rng.permutation(len(compiled.pack.checks))[:5]]
    findings = tuple(
        Found(one.id, one.results[int(rng.integers(len(one.results)))].id, unsure=bool(rng.random() < 0.3))
        for one in checks
    )
    belief = believe(compiled, Case((complaint,), findings))
    net = as_bayes_net(compiled.network, [*(one.check for one in findings), COMPLAINT + complaint])
    seen = {one.check: evidence(compiled, one) for one in findings} | {COMPLAINT + complaint: 1}
    assert list(belief.now.values()) == pytest.approx(posteriors(net, seen, compiled.network.names), abs=1e-9)


def evidence(compiled, found):
    level = level_of(compiled, found)
    if not found.unsure:
        return level
    return [1.0 if other == level else ONLY_THOUGHT for other in range(compiled.network.findings[found.check].levels)]


@pytest.mark.parametrize("kind", COMPILED)
def test_every_complaint_alone_gives_a_belief_that_names_something(kind):
    compiled = COMPILED[kind]
    for complaint in compiled.pack.complaints:
        belief = believe(compiled, Case((complaint.id,)))
        assert belief.without.evidence[0] > 0
        assert sum(belief.blocking.values()) > 0.9
