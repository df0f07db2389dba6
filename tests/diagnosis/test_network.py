import numpy as np
import pytest

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.network import COMPLAINT, NOT_LISTED, compile_pack

from .small_pack import COMPILED, PACK, cause, pack_of


@pytest.mark.parametrize("complaint", ["wont-start", "no-power", "vibrates"])
def test_among_jobs_with_a_complaint_the_causes_keep_their_shares(complaint):
    # Oracle: the shares typed into the pack. Two causes blocking at once make each a little likelier than its share.
    blocking = believe(COMPILED, Case((complaint,))).blocking
    shares = {one.id: one.shares.get(complaint, 0.0) for one in PACK.causes}
    for name, share in shares.items():
        assert blocking[name] == pytest.approx(share, rel=0.10, abs=1e-12), name
    assert blocking[NOT_LISTED] == pytest.approx(1 - sum(shares.values()), rel=0.10)


def test_a_background_cause_keeps_the_prevalence_the_pack_gives():
    place = COMPILED.network.position["filter"]
    assert COMPILED.network.own[place] == pytest.approx(0.06)
    # By hand: a share of 0.40 of no-power jobs, .2 of all, scaled by .15, and .95 at most: .95 * .012 / .06.
    strength = 1 - COMPILED.network.findings[COMPLAINT + "no-power"].rows[0, place]
    assert strength == pytest.approx(0.19)


def test_what_its_roots_bring_is_taken_off_a_cause():
    # By hand: .15 * .4 * .10 = .006 less .004 * .5 = .002.
    assert COMPILED.network.own[COMPILED.network.position["key"]] == pytest.approx(0.004)
    # By hand: .15 * .4 * .25 = .015 (won't start is the larger) less .015 * .3 = .0045.
    assert COMPILED.network.own[COMPILED.network.position["jet"]] == pytest.approx(0.0105)


def test_a_cause_keeps_a_tenth_of_its_own_whatever_its_roots_bring():
    # By hand: crank .15 * .1 * .30 = .0045 less .004 * .2 = .0008; with a prevalence of .0005 a tenth of it is left.
    causes = tuple(
        one if one.id != "crank" else cause("crank", "crank bent", {"vibrates": 0.3}, prevalence=0.0005)
        for one in PACK.causes
    )
    compiled = compile_pack(pack_of(causes=causes, links=PACK.links, complaints=PACK.complaints))
    assert compiled.network.own[compiled.network.position["crank"]] == pytest.approx(0.00005)


def test_something_not_on_the_list_keeps_a_share_even_of_a_full_list():
    compiled = compile_pack(pack_of(causes=(cause("plug", "plug fouled", {"wont-start": 1.0}),)))
    assert 0 < compiled.network.own[compiled.network.position[NOT_LISTED]] < 0.01


def test_an_access_brings_along_what_comes_before_it():
    flags = COMPILED.access_set(("flywheel-off",))
    assert [name for name, flag in zip(COMPILED.access_order, flags, strict=True) if flag] == [
        "shroud-off",
        "flywheel-off",
    ]
    assert not np.any(COMPILED.access_set(()))
