"""Job 203 of the demo: the blade went on turning; mended and priced, held at the blade stop."""

import pytest

from bellcrank.errors import NotAllowedNow
from bellcrank.shop.billing import add_line
from bellcrank.shop.findings import record_repair
from bellcrank.shop.release import hand_back, record_proof

JOB = 203


def line(ina, item):
    return next(one for one in ina.sheet(JOB).release.lines if one.id == item)


def test_the_bench_says_that_it_must_be_proven(ina):
    bench = next(one for one in ina.bench().on_the_bench if one.number == JOB)
    assert (bench.customer, bench.next) == ("Ωmega Moorings Ltd", "next: prove it is safe to hand back")


def test_a_thumb_on_a_stopwatch_cannot_settle_the_blade_stop(ina):
    assert line(ina, "stop-time").status == "undecided"
    with pytest.raises(NotAllowedNow, match=r"Blade stops in time.+film it"):
        hand_back(ina.shop, JOB, ready=True, by="Ina")


def test_a_filmed_stop_lets_it_go(ina):
    record_proof(ina.shop, JOB, "stop-time", {"times": "2.4 2.5 2.4", "timing": "video-120"}, "Ina")
    assert line(ina, "stop-time").status == "passed"
    assert hand_back(ina.shop, JOB, ready=True, by="Ina") == "ready"


def test_a_stop_that_is_too_long_cannot_be_talked_away(ina):
    record_proof(ina.shop, JOB, "stop-time", {"times": "3.4 3.5 3.6", "timing": "video-120"}, "Ina")
    with pytest.raises(NotAllowedNow, match="It failed"):
        hand_back(ina.shop, JOB, ready=True, reason="the customer is in a hurry", by="Ina")
    assert hand_back(ina.shop, JOB, ready=False, reason="Ms Roe declines a new brake", by="Ina") == "returned not ready"
    assert ina.sheet(JOB).events[-1].words == "returned not ready: Ms Roe declines a new brake"


def test_touching_the_brake_again_opens_its_proofs_again(ina):
    record_proof(ina.shop, JOB, "stop-time", {"times": "2.4 2.5 2.4", "timing": "video-120"}, "Ina")
    record_repair(ina.shop, JOB, "flywheel-brake", "cured", "Ina")
    assert not ina.sheet(JOB).release.ready


def test_its_invoice_is_written_and_within_what_was_agreed(ina):
    price = ina.sheet(JOB).price
    assert price.invoice_number == "2026-0001"
    assert price.total <= price.agreed_limit
    assert price.total == price.net + sum(tax.tax for tax in price.taxes)
    with pytest.raises(NotAllowedNow, match="Invoice 2026-0001 is written"):
        add_line(ina.shop, JOB, kind="part", words="forgotten spring", quantity="1", unit_price="3")


def test_everything_that_came_off_went_back_on(ina):
    work = ina.sheet(JOB).work
    assert work.current is None
    assert work.on_the_tray == 0
