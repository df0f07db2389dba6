"""What the cord told, on the numbers bench: three taps, cautions first, what was seen narrows it."""

import html
import re

import pytest
from playwright.sync_api import expect

ENGINE = "overhead-valve-160"
TOLD = {"engine": ENGINE, "jerks": "3", "of": "10"}


@pytest.fixture
def told(client):
    def ask(**typed):
        return html.unescape(client.get("/numbers/cord", params=TOLD | typed).text)

    return ask


@pytest.mark.browser
def test_three_taps_without_a_script_tell_it(open_page, address):
    page = open_page(390, 844, java_script_enabled=False)
    page.goto(f"{address}/numbers/cord")
    page.get_by_role("link", name=re.compile("160 cm³")).click()
    for words in ("3", "10"):
        page.get_by_role("link", name=words, exact=True).click()
    expect(page.locator(".plate .eyebrow")).to_contain_text("3 of 10 pulls jerked")
    expect(page.locator(".figure-kick-map")).to_be_visible()
    page.locator(".question", has_text="The blade, rocked").locator("summary").click()
    page.get_by_role("link", name="tight", exact=True).click()
    expect(page.locator(".plate")).to_contain_text("Look at the key")


def test_the_cautions_stand_before_what_is_told(told):
    page = told()
    assert page.index("No further pulls") < page.index("Plug lead off") < page.index('class="plate')


def test_a_sheared_key_that_was_seen_leaves_little_else(told):
    percent = re.compile(r"stands forward, the spark is early</span> <b class=\"figure\">(\d+)%")
    before, after = (int(percent.search(page)[1]) for page in (told(), told(key="sheared")))
    assert after > before


def test_what_was_said_can_be_left_unsaid_again(told):
    assert "blade=&" not in told()
    unsay = re.search(r'href="([^"]*)">not known', told(blade="loose"))[1]
    assert "jerks=3" in unsay
    assert "blade=loose" not in unsay


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"jerks": "12"}, "jerks", "Of 10 pulls, 12 cannot be"),
        ({"jerks": "some"}, "jerks", "“some” is no count of pulls"),
        ({"of": "0"}, "of", "it must be 1 to 200"),
        ({"key": "gone"}, "key", "Key “gone” is not known"),
        ({"engine": "rotary"}, "engine", "rotary"),
    ],
)
def test_refuses_at_the_field_in_words(client, typed, field, words):
    answer = client.get("/numbers/cord", params=TOLD | typed)
    page = html.unescape(answer.text)
    assert answer.status_code == 422
    assert words in page
    assert re.search(rf'id="{field}"[^>]*aria-invalid="true"', page)
