from collections import Counter
from itertools import product

import numpy as np
import pytest

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.closed_case import ClosedCase, cures_of, known_to
from bellcrank.diagnosis.counts import added, weight_at
from bellcrank.diagnosis.lessons import lesson_of, parts_in
from bellcrank.diagnosis.network import NOT_LISTED
from bellcrank.diagnosis.told_again import replay
from bellcrank.knowledge.records import LEAK_ROW

from .simulated_shop import closed_cases
from .small_pack import COMPILED, PACK

CURED = Repaired("mend-coil", "cured")


def closed(*events, complaints=("wont-start",), **more):
    return ClosedCase(Case(complaints, events), **more)


def lesson(case):
    return lesson_of(COMPILED, case, cures_of(COMPILED, case))


def of_result(counts, check, cause, result):
    return counts.results.get((check, cause, result), 0.0)


def test_the_repair_that_cured_it_names_the_cause():
    told = lesson(closed(CURED))
    assert told.jobs == {"wont-start": 1.0}
    assert told.causes == {("wont-start", "coil"): 1.0}


def test_a_repair_that_did_not_cure_it_names_nothing():
    assert lesson(closed(Repaired("mend-coil", "not-cured"))).jobs == {}


def test_a_machine_that_went_without_a_cure_may_still_have_a_cause_the_mechanic_names():
    assert lesson(closed(Found("spark", "r2"), named="coil")).causes == {("wont-start", "coil"): 1.0}


def test_what_the_mechanic_names_counts_before_what_the_repair_mends():
    assert lesson(closed(CURED, named=NOT_LISTED)).causes == {("wont-start", NOT_LISTED): 1.0}


def test_a_start_that_failed_takes_an_earlier_cure_back():
    case = closed(CURED, Repaired("mend-jet", "not-cured"), Repaired("mend-plug", "cured"))
    assert [cure.cause for cure in cures_of(COMPILED, case)] == ["plug"]


def test_two_repairs_before_one_start_share_the_job_by_what_was_known():
    before = (Found("spark", "r2"),)  # no spark: the coil, hardly the plug
    told = lesson(closed(*before, Repaired("mend-plug", "not-tried"), Repaired("mend-coil", "cured")))
    assert sum(told.causes.values()) == pytest.approx(1.0)
    assert told.causes["wont-start", "coil"] > 0.8


def test_each_complaint_is_cured_by_what_can_cure_it():
    case = closed(CURED, Repaired("mend-filter", "cured"), complaints=("wont-start", "no-power"))
    assert lesson(case).causes == {("wont-start", "coil"): 1.0, ("no-power", "filter"): 1.0}


def test_a_result_belongs_to_the_only_confirmed_cause_the_check_looks_at():
    # by hand, with a leak of (.97, .02, .01): nothing of a weak spark is the coil's own when there is none at all
    told = lesson(closed(Found("spark", "r2"), CURED))
    own = sum(of_result(told, "spark", "coil", one) for one in ("r0", "r1", "r2"))
    assert own == pytest.approx(1.0, abs=2e-3)  # parts below a thousandth are not kept
    # the row's own no spark .80 against .20 x .01 that the leak showed it
    assert of_result(told, "spark", "coil", "r2") == pytest.approx(0.80 / (0.80 + 0.20 * 0.01), abs=1e-4)
    assert of_result(told, "spark", LEAK_ROW, "r2") == 0


def test_a_result_belongs_to_a_sound_machine_when_the_cause_was_elsewhere():
    told = lesson(closed(Found("smell", "r0"), CURED))
    assert of_result(told, "smell", LEAK_ROW, "r0") > 0.95


def test_nothing_is_absent_because_nobody_looked():
    # A black plug, and the cause was the coil: the air filter may be blocked all the same, and nobody looked further.
    told = lesson(closed(Found("plug-look", "r2"), CURED))
    assert 0.2 < of_result(told, "plug-look", LEAK_ROW, "r2") < 0.8
    assert sum(of_result(told, "plug-look", "filter", one) for one in ("r0", "r1", "r2")) > 0.1
    # It ran up cleanly, which a blocked filter would hardly let it: that much more a sound machine showed it.
    looked = lesson(closed(Found("plug-look", "r2"), Found("run-up", "r0"), CURED))
    assert of_result(looked, "plug-look", LEAK_ROW, "r2") > of_result(told, "plug-look", LEAK_ROW, "r2") + 0.03


def test_a_cure_speaks_against_what_would_have_kept_it_standing():
    # A sour smell, but with stale fuel it would not have started with a new coil alone.
    told = lesson(closed(Found("smell", "r1"), CURED))
    assert of_result(told, "smell", LEAK_ROW, "r1") > 0.95


def test_a_check_made_after_the_cure_shows_a_sound_machine():
    told = lesson(closed(Found("spark", "r2"), CURED, Found("spark", "r0")))
    assert of_result(told, "spark", LEAK_ROW, "r0") > 0.9
    assert of_result(told, "spark", "coil", "r0") < 0.1


def test_not_sure_counts_for_nothing():
    assert lesson(closed(Found("spark", "not-sure"), CURED)).results == {}


def test_minutes_count_for_the_repair_that_cured_it():
    told = lesson(closed(CURED, minutes=25.0))
    assert told.minutes["mend-coil"].count == 1
    assert np.exp(told.minutes["mend-coil"].logs) == pytest.approx(25)
    assert lesson(closed(CURED)).minutes == {}


def test_the_order_of_the_jobs_does_not_matter():
    cases = closed_cases(PACK, 40, np.random.default_rng(2))
    forward, backward = (added((lesson(one), 1.0) for one in some) for some in (cases, cases[::-1]))
    for name in ("jobs", "causes", "results"):
        assert getattr(forward, name) == pytest.approx(getattr(backward, name))


def test_old_jobs_count_less():
    told = added([(lesson(closed(CURED)), weight_at(0.0)), (lesson(closed(CURED)), weight_at(3.0))])
    assert told.jobs["wont-start"] == pytest.approx(1.5)


@pytest.mark.parametrize("level", [0, 1, 2])
def test_parts_of_a_result_are_those_of_every_way_it_can_have_come_about(level):
    # Oracle: all 16 ways the causes can be there, and all levels each and the sound machine can have gone to
    check = next(one for one in PACK.checks if one.id == "plug-look")
    chances = {"jet": 0.3, "stale": 0.2, "plug": 1.0, "filter": 0.05}
    rows = {row.cause: row.probabilities for row in check.likelihoods}
    ways, total = Counter(), 0.0
    for there in product((False, True), repeat=4):
        present = [name for name, here in zip(chances, there, strict=True) if here]
        chance = np.prod(
            [chances[name] if here else 1 - chances[name] for name, here in zip(chances, there, strict=True)]
        )
        for levels in product(range(3), repeat=1 + len(present)):
            way = (
                chance * check.leak[levels[0]] * np.prod([rows[n][m] for n, m in zip(present, levels[1:], strict=True)])
            )
            if max(levels) != level:
                continue
            total += way
            ways[LEAK_ROW, level] += way * (not present)
            ways.update(dict.fromkeys(zip(present, levels[1:], strict=True), way))
    parts = parts_in(check, chances, level)
    assert parts == {cell: pytest.approx(ways[cell] / total, abs=1e-12) for cell in parts}
    assert {cell for cell, way in ways.items() if way} <= set(parts)


def test_over_many_machines_each_row_gets_what_it_shows():
    # Machines that break as the pack says: what was counted of each row shows "nothing wrong" as often as it says.
    cases = closed_cases(PACK, 1500, np.random.default_rng(12))
    told = added((lesson(one), 1.0) for one in cases)
    for check in PACK.checks:
        for cause, row in ((LEAK_ROW, check.leak), *((one.cause, one.probabilities) for one in check.likelihoods)):
            seen = np.array([of_result(told, check.id, cause, one.id) for one in check.results])
            number = seen.sum()
            assert abs(seen[0] - number * row[0]) < 4 * np.sqrt(number * row[0] * (1 - row[0])) + 1, (check.id, cause)


def test_a_closed_case_is_told_again_at_two_moments():
    case = closed(Found("hit", "r0"), Found("spark", "r2"), CURED, told=1)
    said = replay(COMPILED, case, cures_of(COMPILED, case))
    assert said.causes == ("coil",)
    assert said.end["coil"] > said.story["coil"]
    assert sum(said.story.values()) == pytest.approx(1)
    # by hand: -ln of both
    assert said.surprise == pytest.approx(-np.log(said.story["coil"]) - np.log(said.end["coil"]))


def test_a_case_without_a_known_cure_is_not_told_again():
    case = closed(Found("spark", "r2"))
    assert replay(COMPILED, case, cures_of(COMPILED, case)) is None


def test_what_the_pack_no_longer_knows_is_left_out():
    case = closed(
        Found("sniff", "r0"), Found("spark", "r9"), Found("spark", "not-sure"), Found("hit", "r0"),
        Repaired("mend-mouse", "cured"), CURED, complaints=("wont-start", "sings"), told=1, named="mouse",
    )  # fmt: skip
    kept = known_to(COMPILED, case)
    assert kept.case == Case(("wont-start",), (Found("spark", "not-sure"), Found("hit", "r0"), CURED))
    assert (kept.told, kept.named) == (0, "")
