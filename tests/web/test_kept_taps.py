"""What the server answers to a tap a phone had kept: once, refused in words, or kept before."""

import re

import pytest

from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.records import read_record
from bellcrank.web.forms import TAP

from .test_pages import demo_number

KEY = {TAP: "ab" * 16}
LEAD = {"direction": "in", "operation": "lead-off", "number": "1", "done": "yes"}


@pytest.fixture
def number(client):
    """A job on its way in to the key."""
    found = demo_number(client)
    client.post(f"/jobs/{found}/target", data={"target": "key"})
    return found


def ticks(shop, number):
    return len(list(read_record(shop, number).standing("step")))


def test_a_tap_whose_answer_was_lost_is_kept_once(client, shop, number):
    before = ticks(shop, number)
    assert client.post(f"/jobs/{number}/steps", data=LEAD, headers=KEY).status_code == 303
    assert client.post(f"/jobs/{number}/steps", data=LEAD, headers=KEY).status_code == 204
    assert ticks(shop, number) == before + 1


def test_any_form_can_be_marked_with_a_key(client, shop, number):
    torque = {"fastener": "flywheel-nut", "torque": "52 ft·lb", "basis": "own shop", "direction": "out", "number": "1"}
    answers = [client.post(f"/jobs/{number}/torques", data=torque, headers=KEY).status_code for _ in range(2)]
    assert answers == [303, 204]
    assert len(list(read_record(shop, number).standing("torque"))) == 1


def test_a_step_ticked_from_elsewhere_is_said(client, number):
    client.post(f"/jobs/{number}/steps", data=LEAD)
    answer = client.post(f"/jobs/{number}/steps", data=LEAD, headers=KEY)
    assert answer.status_code == 422
    assert "is ticked already, from another phone or page" in re.search(r'id="refusal">(.*?)</p>', answer.text)[1]


def test_a_tap_for_a_job_without_a_way_is_refused_not_sent_on(client, shop):
    found = take_in(shop, Story(complaints=("wont-start",)))
    answer = client.post(f"/jobs/{found}/steps", data=LEAD, headers=KEY)
    assert answer.status_code == 422
    assert "has no way in yet" in answer.text


def test_a_mark_that_is_none_is_refused_in_words(client, number):
    answer = client.post(f"/jobs/{number}/steps", data=LEAD, headers={TAP: "1"})
    assert answer.status_code == 422
    assert "Tap it again" in answer.text
