"""The story of a cause and the replay of a job in the browser."""

import html
import re

import pytest

from bellcrank.shop.findings import record_finding
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.replay import replay
from bellcrank.shop.why import why


@pytest.fixture
def number(shop):
    """A job with findings that contradict each other."""
    made = take_in(shop, Story(complaints=("wont-start",), facts={"hit-something": "yes"}))
    for check, result in (("fuel-look", "fresh"), ("spark-tester", "jumps"), ("wire-off-coil", "returns")):
        record_finding(shop, made, check, result)
    return made


def page_of(client, address):
    answer = client.get(address)
    assert answer.status_code == 200, address
    return " ".join(html.unescape(answer.text).split())


def test_the_sheet_leads_to_the_story_of_each_cause_and_to_the_replay(client, number):
    sheet = page_of(client, f"/jobs/{number}")
    for address in (f"/jobs/{number}/why/key-sheared", f"/jobs/{number}/replay"):
        assert f'href="{address}"' in sheet
        page_of(client, address)
    assert "What is likely there together" in sheet
    assert "What would change this" in sheet


def test_the_page_tells_of_a_cause_what_the_shop_knows(client, shop, number):
    told = why(shop, number, "key-sheared")
    page = page_of(client, f"/jobs/{number}/why/key-sheared")
    for reason in (*told.cause.reasons_for, *told.cause.reasons_against):
        assert reason.words in page
        assert reason.note in page
    for move in told.verdict.moves:
        assert move.words in page
    assert told.verdict.overturn_words in page
    for one in told.combinations:
        assert one.words in page


def test_contradicting_findings_are_told_on_every_page_that_shows_them(client, number):
    says = "goes badly with this: the spark tester fires"
    for address in ("", "/why/key-sheared", "/replay", "/replay?step=3"):
        assert says in page_of(client, f"/jobs/{number}{address}"), address
    assert says not in page_of(client, f"/jobs/{number}/replay?step=2")


def test_a_step_shows_what_was_known_and_believed_then(client, shop, number):
    sheet = replay(shop, number)
    for step in sheet.steps:
        page = page_of(client, f"/jobs/{number}/replay?step={step.number}")
        for cause in step.causes:
            assert cause.words in page
        if step.done:
            assert step.done.said in page
    assert "The fuel is clean and fresh" in page_of(client, f"/jobs/{number}/replay?step=1")


def test_one_goes_through_the_steps_by_thumb(client, number):
    page, seen = page_of(client, f"/jobs/{number}/replay"), 0
    address = re.search(r'href="([^"]+step=0)"', page)[1]
    while address:
        page, seen = page_of(client, address), seen + 1
        found = re.search(r'rel="next" href="([^"]+)"', page)
        address = found[1] if found else ""
    assert seen == 4
    assert re.search(r'rel="prev" href="[^"]+step=2"', page)


def test_the_advice_is_folded_away_until_it_is_tapped(open_page, address, number):
    page = open_page(390, 844, java_script_enabled=False)
    page.goto(f"{address}/jobs/{number}/replay?step=1")
    assert not page.get_by_text("Advised:").is_visible()
    assert not page.get_by_text("Done:").is_visible()
    page.get_by_text("What would you do next?").click()
    assert page.get_by_text("Advised:").is_visible()
    assert page.get_by_text("Done:").is_visible()


@pytest.mark.parametrize("place", ["/why/key-sheared", "/replay", "/replay?step=3"])
@pytest.mark.parametrize("width", [390, 1024])
def test_nothing_sticks_out_and_all_can_be_tapped(open_page, address, number, place, width):
    page = open_page(width, 844)
    page.goto(f"{address}/jobs/{number}{place}")
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for one in page.locator("main a:visible, main summary:visible, footer a:visible").all():
        assert one.bounding_box()["height"] >= 48


@pytest.mark.parametrize(("place", "said"), [("/why/gremlins", "There is no cause"), ("/replay?step=9", "no step 9")])
def test_what_is_not_there_is_a_sentence(client, number, place, said):
    answer = client.get(f"/jobs/{number}{place}")
    assert answer.status_code == 404
    assert said in answer.text


def test_a_job_without_a_known_complaint_is_told_to_name_one(client, shop):
    number = take_in(shop, Story(complaint_words="it just will not go"))
    for place in ("/why/key-sheared", "/replay"):
        answer = client.get(f"/jobs/{number}{place}")
        assert answer.status_code == 422
        assert "before a known complaint is named" in answer.text
    assert "/replay" not in client.get(f"/jobs/{number}").text
