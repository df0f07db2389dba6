"""Job 201 of the demo: ran onto a mooring ring, since then it throws the cord back now and then."""

import pytest

from bellcrank.errors import NotAllowedNow, NotUnderstood
from bellcrank.shop.billing import add_line, issue_invoice, propose_lines, record_agreement
from bellcrank.shop.findings import record_finding, record_repair
from bellcrank.shop.release import hand_back, picked_up, record_proof
from bellcrank.shop.typed_torque import record_torque
from bellcrank.shop.work import choose_target, tick

JOB = 201


def test_the_sheet_opens_on_the_blow_and_what_it_may_have_done(ina):
    sheet = ina.sheet(JOB)
    assert sheet.state == "waiting"
    assert sheet.facts == ("hit something: yes",)
    assert sheet.causes[0].words == "flywheel key sheared"
    assert "it hit something" in sheet.causes[0].reasons_for[0].words
    assert sheet.release.triggers == ("hit something",)


def test_the_next_thing_says_what_it_tells_apart_and_what_to_see_to_first(ina):
    first = ina.sheet(JOB).next[0]
    assert first.kind in ("check", "repair")
    assert first.why.endswith(".")
    hands_in = next(line for line in ina.sheet(JOB).next if "plug lead" in line.off_first)
    assert "lead off" in hands_in.cautions[0].control.lower()


def test_on_the_way_to_the_key_the_lead_is_off_before_anything_is_turned(ina):
    choose_target(ina.shop, JOB, "key", by="Ina")
    with pytest.raises(NotAllowedNow, match="Not yet: first “"):
        tick(ina.shop, JOB, "in", "nut-off", done=True)
    steps = ina.do_steps(JOB, "in")
    assert "plug lead off" in steps[0].do
    assert steps[-1].operation == "key-out"
    turning = [step for step in steps if "turn" in " ".join(c.control for c in step.cautions)]
    assert turning
    assert all(step.number > 1 for step in turning)
    assert ina.sheet(JOB).work.on_the_tray > 0
    assert ina.sheet(JOB).state == "on the bench"


def test_a_key_that_is_clearly_off_settles_it(ina):
    record_finding(ina.shop, JOB, "key-look", "offset", "Ina")
    key = ina.cause(JOB, "flywheel key sheared")
    assert key.how_sure == "almost sure"
    assert "the keyway is clearly off" in key.reasons_for[0].words
    best = ina.sheet(JOB).next[0]
    assert (best.kind, best.id) == ("repair", "new-key")


def test_the_flywheel_nut_takes_the_makers_torque_only_with_its_unit_and_place(ina):
    choose_target(ina.shop, JOB, "key", by="Ina")
    nut = next(f for step in ina.sheet(JOB).work.steps_in for f in step.fasteners if f.fastener.id == "flywheel-nut")
    assert nut.torque.basis == "computed"
    assert nut.torque.governs
    with pytest.raises(NotUnderstood, match="“lbs” is a mass, not a torque"):
        record_torque(ina.shop, JOB, "flywheel-nut", "55 lbs", basis="published", source="maker's manual, p. 31")
    record_torque(ina.shop, JOB, "flywheel-nut", "55 ft·lb", basis="published", source="maker's manual, p. 31")
    nut = next(f for step in ina.sheet(JOB).work.steps_out for f in step.fasteners if f.fastener.id == "flywheel-nut")
    assert (nut.torque.typed, nut.torque.basis, nut.torque.source) == ("55 ft·lb", "published", "maker's manual, p. 31")


def test_a_repair_can_only_be_called_done_before_the_blade_was_looked_at(ina):
    choose_target(ina.shop, JOB, "key", by="Ina")
    record_finding(ina.shop, JOB, "key-look", "offset", "Ina")
    assert {line.outcomes for line in ina.sheet(JOB).next if line.kind == "repair"} == {("not-tried",)}
    assert {line.outcomes for line in ina.sheet(JOB).work.repairs} == {("not-tried",)}
    record_finding(ina.shop, JOB, "blade-look", "nicked", "Ina")
    new_key = next(line for line in ina.sheet(JOB).work.repairs if line.id == "new-key")
    assert new_key.outcomes == ("cured", "not-cured", "not-tried")


def test_the_whole_job(ina):
    shop = ina.shop
    assert ina.sheet(JOB).next[0].id == "blade-look"
    choose_target(shop, JOB, "key", by="Ina")
    ina.do_steps(JOB, "in")
    record_finding(shop, JOB, "key-look", "offset", "Ina")
    back = ina.do_steps(JOB, "out")
    assert "plug lead on" in back[-1].do
    assert ina.sheet(JOB).work.on_the_tray == 0

    with pytest.raises(NotAllowedNow, match="must not be started yet, because it hit something"):
        record_repair(shop, JOB, "new-key", "cured", "Ina")
    record_finding(shop, JOB, "blade-look", "nicked", "Ina")
    record_repair(shop, JOB, "new-key", "cured", "Ina")
    cure = ina.sheet(JOB).cure
    assert cure.state == "cured"
    assert "hit something" in cure.words
    assert {"blade bent or out of balance", "crankshaft bent"} <= {line.words for line in cure.look_also}

    record_finding(shop, JOB, "crank-runout", "steady", "Ina")
    record_repair(shop, JOB, "new-blade", "cured", "Ina")
    assert "crankshaft bent" not in {line.words for line in ina.sheet(JOB).cure.look_also}

    with pytest.raises(NotAllowedNow, match="cannot be marked ready"):
        hand_back(shop, JOB, ready=True, by="Ina")
    ina.prove(JOB, but=("stop-time",))
    record_proof(shop, JOB, "stop-time", {"times": "2.8 2.9 2.8", "timing": "stopwatch"}, "Ina")
    with pytest.raises(NotAllowedNow, match=r"Blade stops in time.+film it"):
        hand_back(shop, JOB, ready=True, by="Ina")
    record_proof(shop, JOB, "stop-time", {"times": "2.8 2.9 2.8", "timing": "video-120"}, "Ina")
    assert hand_back(shop, JOB, ready=True, by="Ina") == "ready"

    propose_lines(shop, JOB, "Ina")
    add_line(shop, JOB, kind="other", words="old oil and parts taken care of", quantity="1", unit_price="9", by="Ina")
    assert ina.sheet(JOB).price.over_limit
    with pytest.raises(NotAllowedNow, match="record the new agreement first"):
        issue_invoice(shop, JOB, "Ina")
    record_agreement(shop, JOB, limit="190", how="Zofia Łoboda by phone, 555 0107", by="Ina")
    assert issue_invoice(shop, JOB, "Ina") == "2026-0002"

    picked_up(shop, JOB, "Ina")
    assert ina.bench().gone[0].number == JOB
    assert ina.sheet(JOB).price.invoice_number == "2026-0002"


def test_every_line_of_its_history_says_who_and_when(ina):
    record_finding(ina.shop, JOB, "blade-look", "bent", "Ina")
    for line in ina.sheet(JOB).events:
        assert line.words
        assert line.by == "Ina"
        assert line.at.startswith("2026-04-1")
