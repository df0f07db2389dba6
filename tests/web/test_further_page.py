"""The look two steps ahead as a page, and what a machine is worth as a form."""

from types import SimpleNamespace

import pytest

from bellcrank.shop.further import FurtherLine
from bellcrank.web.views.job import further_page

STILL_OPEN = 201  # a demo job whose cause is not found yet


def test_the_sheet_leads_to_a_look_further_ahead_that_says_what_it_changes(client):
    number = STILL_OPEN
    assert f'href="/jobs/{number}/further"' in client.get(f"/jobs/{number}").text
    page = client.get(f"/jobs/{number}/further?seconds=1")
    assert page.status_code == 200
    assert "Two steps ahead" in page.text
    assert "with parts to a cured machine" in page.text


@pytest.mark.parametrize(("looked_at", "more"), [(4, "20"), (13, "")])
def test_more_time_is_offered_when_the_time_was_up(looked_at, more):
    sheet = SimpleNamespace(number=7, price=SimpleNamespace(currency="EUR"))
    looked = FurtherLine("It stays the same.", False, "spark", "spark", 0.0, looked_at, 13, ())
    assert further_page(sheet, looked).more == more


def test_seconds_that_cannot_be_are_a_sentence(client):
    page = client.get(f"/jobs/{STILL_OPEN}/further?seconds=long")
    assert page.status_code == 422
    assert "“long” is no number of seconds" in page.text


def test_what_a_machine_is_worth_is_kept_and_a_bad_amount_stays_in_its_field(client):
    number = STILL_OPEN
    assert client.post(f"/jobs/{number}/worth", data={"worth": "180"}).status_code == 303
    assert "The machine is worth <b" in client.get(f"/jobs/{number}").text
    refused = client.post(f"/jobs/{number}/worth", data={"worth": "a lot"})
    assert refused.status_code == 422
    assert 'value="a lot"' in refused.text
