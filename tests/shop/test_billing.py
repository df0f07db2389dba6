import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from decimal import Decimal
from threading import Barrier

import pytest
from sqlalchemy import select

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.billing import add_line, drop_line, issue_invoice, price_ahead, propose_lines, record_agreement
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_repair, take_back
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.settings import write_settings
from bellcrank.shop.storage.tables import invoice
from bellcrank.shop.words import money


def price(shop, number):
    return job_sheet(shop, number).price


def add(shop, number, *, kind="part", words="flywheel key", quantity="1", unit_price="6.00"):
    return add_line(shop, number, kind=kind, words=words, quantity=quantity, unit_price=unit_price)


def test_lines_add_up_with_their_taxes(shop, job):
    write_settings(shop, {"parts_tax": "19", "labour_tax": "7"})
    add(shop, job, quantity="3", unit_price="2.35")
    add(shop, job, kind="labour", words="looking", quantity="0,5", unit_price="54")
    sheet = price(shop, job)
    # 7.05 + 27.00; 7 % of 27.00 = 1.89; 19 % of 7.05 = 1.3395, half up 1.34
    assert (sheet.net, sheet.total) == (Decimal("34.05"), Decimal("37.28"))
    assert [(tax.percent, tax.tax) for tax in sheet.taxes] == [
        (Decimal(7), Decimal("1.89")),
        (Decimal(19), Decimal("1.34")),
    ]


def test_a_dropped_line_is_gone_from_the_price_and_stays_in_the_history(shop, job):
    drop_line(shop, job, add(shop, job))
    assert price(shop, job).lines == ()
    assert job_sheet(shop, job).events[-1].taken_back


def test_the_same_part_twice_is_two_lines(shop, job):
    add(shop, job)
    add(shop, job)
    assert len(price(shop, job).lines) == 2


def test_proposes_labour_and_parts_of_the_repairs_done_once(shop, job):
    record_repair(shop, job, "fresh-fuel", "cured")
    propose_lines(shop, job)
    kinds = [line.kind for line in price(shop, job).lines]
    assert kinds == ["labour", "part"]
    with pytest.raises(NotAllowedNow, match="priced already"):
        propose_lines(shop, job)


def test_labour_is_proposed_in_whole_quarter_hours_at_the_shops_rate(shop, job):
    write_settings(shop, {"labour_rate": "60"})
    record_repair(shop, job, "fresh-fuel", "cured")
    propose_lines(shop, job)
    labour = price(shop, job).lines[0]
    assert labour.unit_price == 60
    assert labour.quantity % Decimal("0.25") == 0
    assert labour.quantity > 0


def test_a_line_dropped_can_be_proposed_again(shop, job):
    record_repair(shop, job, "fresh-fuel", "cured")
    propose_lines(shop, job)
    for line in price(shop, job).lines:
        drop_line(shop, job, line.id)
    assert propose_lines(shop, job) == 2


def test_refuses_to_propose_when_nothing_was_done(shop, job):
    with pytest.raises(NotAllowedNow, match="Record the repair first"):
        propose_lines(shop, job)


def test_invoices_are_numbered_without_a_gap(shop):
    numbers = []
    for _ in range(3):
        job = take_in(shop, Story(complaints=("hunts",)))
        add(shop, job)
        numbers.append(issue_invoice(shop, job))
    assert numbers == ["2026-0001", "2026-0002", "2026-0003"]


def test_refuses_an_invoice_without_a_line(shop, job):
    with pytest.raises(NotAllowedNow, match="nothing to bill yet"):
        issue_invoice(shop, job)


def test_refuses_an_invoice_above_what_was_agreed_until_it_is_agreed(shop):
    job = take_in(shop, Story(complaints=("hunts",), agreed_limit="20"))
    add(shop, job, unit_price="30")
    assert price(shop, job).over_limit
    with pytest.raises(NotAllowedNow, match="record the new agreement first"):
        issue_invoice(shop, job)
    record_agreement(shop, job, limit="35", how="Ms Quay by phone, 555 0100")
    assert issue_invoice(shop, job) == "2026-0001"


def test_a_line_right_at_what_was_agreed_is_within_it(shop):
    job = take_in(shop, Story(complaints=("hunts",), agreed_limit="30.00"))
    add(shop, job, unit_price="30")
    assert issue_invoice(shop, job)


def test_an_agreement_is_not_kept_without_who_and_how(shop, job):
    with pytest.raises(NotUnderstood, match="Write who agreed and how"):
        record_agreement(shop, job, limit="35", how=" ")
    with pytest.raises(NotUnderstood, match="What may be spent is missing"):
        record_agreement(shop, job, limit=" ", how="by phone")


def test_an_agreement_taken_back_gives_the_one_before(shop):
    job = take_in(shop, Story(complaints=("hunts",), agreed_limit="20"))
    record_agreement(shop, job, limit="35", how="by phone")
    take_back(shop, job)
    assert price(shop, job).agreed_limit == 20


def test_an_invoice_stands_as_written(shop, job):
    write_settings(shop, {"parts_tax": "19"})
    line = add(shop, job)
    issue_invoice(shop, job)
    before = price(shop, job)
    write_settings(shop, {"parts_tax": "7", "currency": "USD", "labour_rate": "99"})
    assert price(shop, job) == before
    for change in (lambda: add(shop, job), lambda: drop_line(shop, job, line), lambda: issue_invoice(shop, job)):
        with pytest.raises(NotAllowedNow, match="Invoice 2026-0001 is written"):
            change()
    with pytest.raises(NotAllowedNow):
        take_back(shop, job, line)


def test_money_stays_in_the_currency_the_job_began_with(shop):
    job = take_in(shop, Story(complaints=("hunts",), agreed_limit="20"))
    write_settings(shop, {"currency": "USD"})
    add(shop, job)
    assert price(shop, job).currency == "EUR"
    assert price(shop, take_in(shop, Story(complaints=("hunts",)))).currency == "USD"


@pytest.mark.parametrize(
    ("change", "error", "field"),
    [
        ({"unit_price": "-6"}, OutOfRange, "unit_price"),
        ({"unit_price": "six"}, NotUnderstood, "unit_price"),
        ({"unit_price": "6.000"}, NotUnderstood, "unit_price"),
        ({"quantity": "0"}, OutOfRange, "quantity"),
        ({"quantity": "NaN"}, NotUnderstood, "quantity"),
        ({"quantity": ""}, NotUnderstood, "quantity"),
        ({"words": "\x00 "}, NotUnderstood, "words"),
        ({"kind": "bribe"}, NotUnderstood, "kind"),
    ],
)
def test_refuses_a_line_that_cannot_be_at_its_field(shop, job, change, error, field):
    with pytest.raises(error) as refusal:
        add(shop, job, **change)
    assert refusal.value.field == field
    assert price(shop, job).lines == ()


@pytest.mark.parametrize("line", [0, -1, 99, 2**63])
def test_refuses_to_drop_a_line_that_is_not_there(shop, job, line):
    with pytest.raises(NotFound, match="has no price line"):
        drop_line(shop, job, line)


def test_the_expected_range_narrows_to_the_lines_when_it_is_cured(shop, job):
    before = price(shop, job)
    assert Decimal(0) < before.expected_low < before.expected_high
    record_repair(shop, job, "fresh-fuel", "cured")
    propose_lines(shop, job)
    after = price(shop, job)
    assert after.expected_low == after.expected_high == after.total


def test_warns_before_the_repair_when_it_will_likely_pass_what_was_agreed(shop):
    job = take_in(shop, Story(complaints=("wont-start",), agreed_limit="5"))
    assert "Ask before you start the repair" in price(shop, job).over_words


def test_lines_written_ahead_for_the_likely_repair_are_not_counted_twice(shop):
    job = take_in(shop, Story(complaints=("wont-start",)))
    before = price(shop, job)
    first = before.ahead[0]
    assert price_ahead(shop, job, first.id) > 0
    after = price(shop, job)
    assert after.total > 0
    assert before.expected_low <= after.total <= before.expected_high
    assert after.expected_low <= after.total <= after.expected_high <= before.expected_high
    assert first.id not in {one.id for one in after.ahead}
    record_repair(shop, job, first.id, "cured")
    with pytest.raises(NotAllowedNow, match="priced already"):
        propose_lines(shop, job)
    assert price(shop, job).total == after.total


def test_refuses_to_price_a_repair_it_does_not_know_or_twice(shop, job):
    with pytest.raises(NotFound, match="There is no repair"):
        price_ahead(shop, job, "new-wings")
    price_ahead(shop, job, "new-plug")
    with pytest.raises(NotAllowedNow, match="Drop its lines first"):
        price_ahead(shop, job, "new-plug")


def test_what_two_repairs_open_is_charged_once(shop, job):
    hours = {}
    for repair in ("new-key", "new-coil"):
        alone = take_in(shop, Story(complaints=("hunts",)))
        price_ahead(shop, alone, repair)
        hours[repair] = price(shop, alone).lines[0].quantity
        price_ahead(shop, job, repair)
    together = sum(line.quantity for line in price(shop, job).lines if line.kind == "labour")
    assert together < sum(hours.values())


@pytest.mark.parametrize(("currency", "told", "minor"), [("JPY", "1235 JPY", 1235), ("KWD", "1234.500 KWD", 1234500)])
def test_money_has_the_digits_of_its_currency(shop, currency, told, minor):
    """Yen have no sen and a dinar has a thousand fils: ISO 4217, from memory."""
    write_settings(shop, {"currency": currency})
    job = take_in(shop, Story(complaints=("hunts",)))
    add(shop, job, unit_price="1234.5")
    sheet = price(shop, job)
    assert money(sheet.total, sheet.currency) == told
    issue_invoice(shop, job)
    with shop.storage.reading() as connection:
        assert connection.execute(select(invoice.c.total_minor)).scalar_one() == minor


def test_two_at_once_propose_the_lines_once(shop, job):
    record_repair(shop, job, "new-plug", "cured")
    together = Barrier(2)

    def propose():
        together.wait()
        try:
            return propose_lines(shop, job)
        except NotAllowedNow:
            return 0

    with ThreadPoolExecutor(2) as pool:
        added = sorted(one.result() for one in [pool.submit(propose), pool.submit(propose)])
    assert added[0] == 0
    assert len(job_sheet(shop, job).price.lines) == added[1] > 0


@pytest.fixture
def new_york(monkeypatch):
    monkeypatch.setenv("TZ", "America/New_York")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def test_an_invoice_on_new_years_eve_counts_in_the_old_year(tmp_path, new_york):
    opened = open_shop(tmp_path / "eve", now=lambda: datetime(2027, 1, 1, 1, 0, tzinfo=UTC))  # 31 December, 20:00
    number = take_in(opened, Story(complaint_words="won't start", complaints=("wont-start",)))
    add_line(opened, number, kind="other", words="a wash", quantity="1", unit_price="5")
    assert issue_invoice(opened, number) == "2026-0001"
    opened.close()
