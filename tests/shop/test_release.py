import pytest

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.fill_sheet import bench_sheet, job_sheet
from bellcrank.shop.findings import record_finding, record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.release import hand_back, picked_up, record_proof
from bellcrank.shop.typed_torque import record_torque
from bellcrank.shop.work import choose_target, tick


def line(shop, number, item):
    return next(one for one in job_sheet(shop, number).release.lines if one.id == item)


def asked(shop, number):
    return {one.id for one in job_sheet(shop, number).release.lines}


def test_a_machine_nobody_proved_is_not_ready_and_the_refusal_names_what_is_open(shop, job):
    with pytest.raises(NotAllowedNow, match=rf"Job {job} cannot be marked ready: .+ And \d+ more"):
        hand_back(shop, job, ready=True)
    assert job_sheet(shop, job).state == "waiting"


def test_a_machine_with_every_item_proven_is_ready(shop, job, prove_all):
    prove_all(job)
    assert hand_back(shop, job, ready=True) == "ready"
    assert [one.number for one in bench_sheet(shop).ready] == [job]


def test_an_open_soft_item_goes_with_it_as_a_note(shop, job, prove_all):
    soft = next(one.id for one in job_sheet(shop, job).release.lines if not one.hard)
    prove_all(job, but=(soft,))
    assert hand_back(shop, job, ready=True) == "ready with notes"


def test_an_open_hard_item_holds_the_machine(shop, job, prove_all):
    prove_all(job, but=("stop-time",))
    with pytest.raises(NotAllowedNow, match="Blade stops in time"):
        hand_back(shop, job, ready=True)


@pytest.mark.parametrize(
    ("times", "timing", "status"),
    [
        ("2.0 2.1 2.2", "video-60", "passed"),
        ("2.9 2.8 2.9", "stopwatch", "undecided"),
        ("3.6 3.5 3.4", "video-60", "failed"),
    ],
)
def test_the_blade_stop_is_judged_with_its_uncertainty(shop, job, prove_all, times, timing, status):
    prove_all(job, but=("stop-time",))
    record_proof(shop, job, "stop-time", {"times": times, "timing": timing})
    assert line(shop, job, "stop-time").status == status


def test_a_failed_proof_after_ready_takes_ready_away(shop, job, prove_all):
    prove_all(job)
    hand_back(shop, job, ready=True)
    record_proof(shop, job, "guards", {"answer": "no"})
    sheet = job_sheet(shop, job)
    assert (sheet.state, sheet.release.ready) == ("on the bench", False)


def test_taking_a_proof_back_after_ready_takes_ready_away(shop, job, prove_all):
    proof = record_proof(shop, job, "guards", {"answer": "yes"})
    prove_all(job)
    hand_back(shop, job, ready=True)
    take_back(shop, job, proof)
    sheet = job_sheet(shop, job)
    assert (sheet.state, sheet.release.ready) == ("on the bench", False)


def test_ready_itself_can_be_taken_back(shop, job, prove_all):
    prove_all(job)
    hand_back(shop, job, ready=True)
    take_back(shop, job)
    assert job_sheet(shop, job).state == "on the bench"


def test_somebody_who_says_it_hit_something_is_believed_however_unlikely(shop):
    for complaint in [one.id for one in shop.library.packs["walk-behind-mower"].complaints]:
        number = take_in(shop, Story(complaints=(complaint,), facts={"hit-something": "yes"}))
        assert "crank-straight" in asked(shop, number), complaint


def test_it_is_believed_also_when_the_complaint_is_not_known_yet(shop):
    number = take_in(shop, Story(complaint_words="poorly", facts={"hit-something": "yes"}))
    assert {"crank-straight", "blade-adapter"} <= asked(shop, number)


def test_a_machine_that_hit_nothing_is_not_asked_for_a_straight_crank(shop, job):
    assert "crank-straight" not in asked(shop, job)


def test_work_on_the_fuel_side_asks_for_a_tight_fuel_side(shop, job):
    assert "fuel-tight" not in asked(shop, job)
    record_repair(shop, job, "fresh-fuel", "cured")
    assert "fuel-tight" in asked(shop, job)


def test_a_repair_after_the_proof_opens_what_it_touches_again(shop, job):
    record_proof(shop, job, "fuel-leak", {"answer": "yes"})
    assert line(shop, job, "fuel-leak").status == "passed"
    record_repair(shop, job, "fresh-fuel", "cured")
    assert line(shop, job, "fuel-leak").status == "open"


def test_a_machine_with_parts_off_is_not_ready(shop, job, prove_all):
    choose_target(shop, job, "blade")
    tick(shop, job, "in", job_sheet(shop, job).work.current.operation, done=True)
    with pytest.raises(NotAllowedNow, match="Not all is back on the machine: 1 step of the way back is open"):
        hand_back(shop, job, ready=True)


def test_goes_back_not_ready_with_what_was_declined(shop, job):
    assert hand_back(shop, job, ready=False, reason="brake cable declined by O. Quay") == "returned not ready"
    assert job_sheet(shop, job).events[-1].words == "returned not ready: brake cable declined by O. Quay"


def test_refuses_to_give_it_back_not_ready_without_a_word_why(shop, job):
    with pytest.raises(NotUnderstood, match="Write what was declined"):
        hand_back(shop, job, ready=False, reason=" ")


def test_only_a_ready_machine_is_picked_up(shop, job, prove_all):
    with pytest.raises(NotAllowedNow, match="not marked ready"):
        picked_up(shop, job)
    prove_all(job)
    hand_back(shop, job, ready=True)
    picked_up(shop, job)
    assert [one.number for one in bench_sheet(shop).gone] == [job]


def test_no_work_is_recorded_on_a_machine_that_has_gone(shop, job, prove_all):
    prove_all(job)
    hand_back(shop, job, ready=True)
    picked_up(shop, job)
    with pytest.raises(NotAllowedNow, match="has left the shop"):
        record_finding(shop, job, "spark-tester", "none")


def test_a_machine_marked_gone_by_mistake_is_ready_again_when_that_is_taken_back(shop, job, prove_all):
    prove_all(job)
    hand_back(shop, job, ready=True)
    picked_up(shop, job)
    take_back(shop, job)
    assert job_sheet(shop, job).state == "ready"


@pytest.mark.parametrize(
    ("item", "answer", "error"),
    [
        ("stop-time", {"times": "quick"}, NotUnderstood),
        ("stop-time", {"times": "-2"}, OutOfRange),
        ("stop-time", {}, OutOfRange),
        ("guards", {"answer": "perhaps"}, NotUnderstood),
        ("guards", {"answer": "\ud800"}, NotUnderstood),
        ("blade-bolt", {"torque": "55 lbs"}, NotUnderstood),
        ("paint", {"answer": "yes"}, NotFound),
    ],
)
def test_refuses_an_answer_that_cannot_be_read_and_keeps_nothing(shop, job, item, answer, error):
    before = job_sheet(shop, job).events
    with pytest.raises(error):
        record_proof(shop, job, item, answer)
    assert job_sheet(shop, job).events == before


def test_inch_pounds_on_a_blade_bolt_are_asked_about(shop, job):
    with pytest.raises(OutOfRange, match="Were ft·lb, in·lb and N·m mixed up"):
        record_proof(shop, job, "blade-bolt", {"torque": "40 in·lb"})
    record_proof(shop, job, "blade-bolt", {"torque": "37 ft·lb"})


def test_nothing_is_proven_running_before_all_is_proven_standing_still(shop, job):
    with pytest.raises(NotAllowedNow, match="First, standing still: Blade free of cracks"):
        record_proof(shop, job, "stop-time", {"times": "2.0 2.1 2.2", "timing": "video-60"})
    record_proof(shop, job, "kill-switch", {"answer": "no"})


def test_nothing_is_proven_running_with_parts_off(shop, job):
    choose_target(shop, job, "blade")
    tick(shop, job, "in", job_sheet(shop, job).work.current.operation, done=True)
    with pytest.raises(NotAllowedNow, match="Not all is back on the machine"):
        record_proof(shop, job, "tip-speed", {"speed": "3000 rpm", "blade": "460 mm"})


def test_what_was_found_to_forbid_a_start_holds_the_machine(shop, job, prove_all):
    prove_all(job)
    record_finding(shop, job, "dipstick", "glitter")
    with pytest.raises(NotAllowedNow, match="must not be started yet"):
        hand_back(shop, job, ready=True)
    with pytest.raises(NotAllowedNow, match="must not be started yet"):
        record_proof(shop, job, "stop-time", {"times": "2.0 2.0 2.0", "timing": "video-60"})


@pytest.mark.parametrize("lifts_nothing", ["fill-oil", "change-oil", "new-blade"])
def test_only_its_own_repair_takes_away_what_forbids_a_start(shop, job, prove_all, lifts_nothing):
    record_finding(shop, job, "dipstick", "glitter")
    record_repair(shop, job, lifts_nothing, "not-tried")
    record_finding(shop, job, "dipstick", "not-sure")
    with pytest.raises(NotAllowedNow, match="must not be started yet"):
        hand_back(shop, job, ready=True)
    record_repair(shop, job, "short-block", "not-tried")
    prove_all(job)
    assert hand_back(shop, job, ready=True) == "ready"


def test_a_blade_bolt_far_too_loose_holds_the_machine(shop, job, prove_all):
    record_repair(shop, job, "new-blade", "not-tried")
    prove_all(job)
    record_proof(shop, job, "blade-bolt", {"torque": "25 N·m"})
    assert line(shop, job, "blade-bolt").status == "failed"
    with pytest.raises(NotAllowedNow, match="25 N·m with a torque wrench against"):
        hand_back(shop, job, ready=True)


def test_a_printed_bolt_torque_that_cannot_be_meant_proves_nothing(shop, job):
    record_repair(shop, job, "new-blade", "not-tried")
    record_torque(shop, job, "blade-bolt", "50 in·lb", basis="published", source="maker's sheet, page 3")
    record_proof(shop, job, "blade-bolt", {"torque": "50 in·lb"})
    assert line(shop, job, "blade-bolt").status == "failed"


@pytest.fixture
def saw(shop):
    """Give a saw that bogs."""
    return take_in(shop, Story(complaint_words="saw bogs", kind="two-stroke-handheld"))


def test_a_saw_is_ready_when_its_own_list_is_proven(shop, saw, prove_all):
    prove_all(saw)
    assert hand_back(shop, saw, ready=True) == "ready"


def test_a_saw_whose_chain_brake_fails_is_held(shop, saw, prove_all):
    prove_all(saw)
    record_proof(shop, saw, "chain-brake", {"answer": "no"})
    with pytest.raises(NotAllowedNow, match="Chain brake, set, holds the chain"):
        hand_back(shop, saw, ready=True)


def test_a_blower_without_a_chain_brake_is_not_held_by_it(shop, saw):
    record_proof(shop, saw, "chain-brake", {"answer": "none"})
    assert (line(shop, saw, "chain-brake").status, line(shop, saw, "chain-brake").detail) == (
        "passed",
        "it has no such thing",
    )


def test_no_proof_is_run_before_chain_brake_and_guards_are_proven_standing_still(shop, saw):
    with pytest.raises(NotAllowedNow, match="The engine is not run for a proof yet"):
        record_proof(shop, saw, "still-at-idle", {"answer": "yes"})


def test_a_chain_fitted_after_the_proofs_opens_brake_idle_and_plug_lead_again(shop, saw, prove_all):
    prove_all(saw)
    record_repair(shop, saw, "new-chain", "cured")
    opened = {one.id for one in job_sheet(shop, saw).release.lines if one.status == "open"}
    assert {"chain-brake", "chain-brake-stops", "still-at-idle", "tool-sound", "plug-lead-last"} <= opened


def test_a_mended_stop_wire_opens_the_proof_of_the_switch_again(shop, job, prove_all):
    prove_all(job)
    record_repair(shop, job, "stop-wire", "cured")
    assert line(shop, job, "kill-switch").status == "open"


def test_an_item_of_another_kind_of_machine_is_refused(shop, saw):
    with pytest.raises(NotFound, match="no item “blade-crack” on the release list of this machine"):
        record_proof(shop, saw, "blade-crack", {"answer": "yes"})
