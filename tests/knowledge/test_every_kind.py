"""What every kind of machine must hold beside what ``packs check`` asks."""

import pytest

from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis

from .kind_rules import forbidding_that_stay, runs_while_forbidden, shares_missed

PACKS = read_library().packs
COMPILED = {kind: compile_pack(pack) for kind, pack in PACKS.items()}
COMPLAINTS = [(kind, one.id) for kind, pack in PACKS.items() for one in pack.complaints]
BY_OWN_TABLE = ("snow-thrower", "tiller", "generator")  # the others are held to the trade's table in tests of their own


@pytest.mark.parametrize("kind", PACKS)
def test_knows_at_least_thirty_five_causes_and_forty_five_checks(kind):
    assert len(PACKS[kind].causes) >= 35
    assert len(PACKS[kind].checks) >= 45


@pytest.mark.parametrize("kind", BY_OWN_TABLE)
def test_says_that_every_number_is_a_guess_from_memory(kind):
    pack = PACKS[kind]
    origins = {row.origin for check in pack.checks for row in check.likelihoods}
    origins |= {one.origin for one in (*pack.causes, *pack.links, *pack.repairs, *pack.complaints)}
    assert {(origin.basis, origin.source) for origin in origins} == {(Basis.GUESS, "trade-table")}


@pytest.mark.parametrize(("kind", "complaint"), [one for one in COMPLAINTS if one[0] in BY_OWN_TABLE])
def test_a_complaint_alone_gives_back_the_shares(kind, complaint):
    assert shares_missed(COMPILED[kind], complaint) == {}


@pytest.mark.parametrize(("kind", "complaint"), COMPLAINTS)
def test_no_run_is_asked_for_while_a_finding_forbids_it(kind, complaint):
    assert runs_while_forbidden(COMPILED[kind], complaint) == []


@pytest.mark.parametrize("kind", PACKS)
def test_what_forbids_a_start_can_be_put_right(kind):
    assert forbidding_that_stay(COMPILED[kind]) == []


@pytest.mark.parametrize("kind", PACKS)
def test_nothing_wrong_never_forbids_running(kind):
    assert [check.id for check in PACKS[kind].checks if check.results[0].forbids_running] == []
