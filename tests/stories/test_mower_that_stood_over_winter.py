"""Job 202 of the demo: stood over winter with a full tank, hunts; on the bench, half way to the carburettor."""

from bellcrank.bootstrap import open_shop
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_repair, take_back
from bellcrank.shop.release import hand_back

JOB = 202


def test_the_bench_says_which_step_is_next(ina):
    line = next(one for one in ina.bench().on_the_bench if one.number == JOB)
    step = ina.step(JOB)
    assert line.customer == "王海"
    assert line.next.removeprefix("next: ") == step.do[:1].lower() + step.do[1:]


def test_what_was_found_speaks_for_old_fuel(ina):
    stale = ina.cause(JOB, "stale or gummed fuel")
    assert stale.how_sure in ("likely", "almost sure")
    assert any("sour" in reason.words for reason in stale.reasons_for)


def test_a_wrong_tap_is_taken_back_and_the_sheet_is_as_before(ina):
    before = ina.sheet(JOB)
    record_finding(ina.shop, JOB, "hold-throttle", "steady", "Ina")
    assert ina.sheet(JOB).causes != before.causes
    take_back(ina.shop, JOB, by="Ina")
    after = ina.sheet(JOB)
    assert (after.causes, after.next, after.work) == (before.causes, before.next, before.work)
    assert after.events[-1].taken_back


def test_the_work_goes_on_where_it_stood_after_the_tablet_was_switched_off(ina):
    before = ina.step(JOB)
    ina.shop.close()
    again = open_shop(ina.shop.folder, now=ina.shop.now)
    assert job_sheet(again, JOB).work.current == before
    again.close()


def test_a_repair_that_does_not_help_sends_her_on(ina):
    record_repair(ina.shop, JOB, "fresh-fuel", "not-cured", "Ina")
    sheet = ina.sheet(JOB)
    assert sheet.cure.state == "not cured"
    assert sheet.next[0].id in ("clean-carburettor", "new-carburettor")


def test_the_whole_job(ina):
    steps = ina.do_steps(JOB, "in")
    assert steps[-1].operation == "carburettor-off"
    ina.do_steps(JOB, "out")
    record_repair(ina.shop, JOB, "clean-carburettor", "not-tried", "Ina")
    assert "not tried" in ina.sheet(JOB).cure.words
    record_repair(ina.shop, JOB, "clean-carburettor", "cured", "Ina")
    assert ina.sheet(JOB).cure.state == "cured"
    asked = {line.id for line in ina.sheet(JOB).release.lines}
    assert {"fuel-tight", "governor", "tip-speed"} <= asked
    assert "crank-straight" not in asked
    ina.prove(JOB)
    assert hand_back(ina.shop, JOB, ready=True, by="Ina") == "ready"
    assert [line.number for line in ina.bench().ready] == [JOB]
