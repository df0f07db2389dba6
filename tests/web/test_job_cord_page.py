"""What the cord told of a job's machine: it knows what the job knows, and keeps what was counted."""

import html
import re
from urllib.parse import urlencode

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

from bellcrank.shop.findings import record_finding
from tests.counting import counting, without_counting

from .test_bench_by_tapping import SIZES, fits

TOLD = {"engine": "overhead-valve-160", "jerks": "3", "of": "10"}


@pytest.fixture
def shop(shop):
    """Give the demo shop with the check that counts jerks."""
    return counting(shop)


def number_of(client, words):
    """Give the number of the demo's job that came in with such words."""
    rows = html.unescape(client.get("/").text).split("<li")
    return int(re.search(r'href="/jobs/(\d+)"', next(one for one in rows if words in one))[1])


@pytest.fixture
def ring(client):
    """Give the number of the demo's mower that ran onto a mooring ring."""
    return number_of(client, "mooring ring")


@pytest.mark.browser
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_two_taps_count_it_and_one_keeps_it_without_a_script(open_page, address, shop, width, height):
    page = open_page(width, height, java_script_enabled=False)
    page.get_by_role("link", name="mooring ring").click()
    job = page.url
    page.get_by_role("link", name=re.compile("what the cord told you")).click()
    fits(page)
    for words in ("3", "10"):
        page.get_by_role("link", name=words, exact=True).click()
    fits(page)
    page.get_by_role("button", name="Keep it in job").click()
    expect(page).to_have_url(job)
    expect(page.locator(".history")).to_contain_text("3 of 10 pulls")


@pytest.mark.browser
def test_axe_finds_nothing(open_page, address):
    page = open_page(390, 844)
    page.get_by_role("link", name="mooring ring").click()
    page.goto(f"{page.url}/cord?{urlencode(TOLD)}")
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page)["violations"]] == []


def test_what_the_job_knows_is_said_already(client, shop, ring):
    record_finding(shop, ring, "key-look", "offset")
    page = html.unescape(client.get(f"/jobs/{ring}/cord").text)
    assert "The job says: hit something: yes; the keyway is clearly off." in page
    assert f"/jobs/{ring}/cord?engine=overhead-valve-160&key=sheared&struck=yes&jerks=3" in page


def test_what_is_said_on_the_page_goes_over_what_the_job_knows(client, shop, ring):
    record_finding(shop, ring, "key-look", "offset")
    page = html.unescape(client.get(f"/jobs/{ring}/cord", params=TOLD | {"key": "whole"}).text)
    assert 'name="key" value="whole"' in page


def test_the_cautions_stand_before_anything_is_asked(client, ring):
    page = client.get(f"/jobs/{ring}/cord").text
    assert page.index("No further pulls") < page.index('class="question"')


def test_a_refusal_stands_at_its_field(client, ring):
    answer = client.post(f"/jobs/{ring}/cord", data=TOLD | {"jerks": "12"})
    assert answer.status_code == 422
    assert "Of 10 pulls, 12 cannot be" in answer.text
    assert re.search(r'id="jerks"[^>]*aria-invalid="true"', answer.text)


def test_an_unknown_job_has_no_cord(client):
    assert client.get("/jobs/99999/cord").status_code == 404


def test_the_job_shows_the_way_to_it_beside_the_next_thing_when_it_kicks(client, ring):
    assert "Count the jerks: what the cord told you" in client.get(f"/jobs/{ring}").text


def test_every_other_job_shows_the_way_to_it_too(client):
    other = number_of(client, "winter")
    page = client.get(f"/jobs/{other}").text
    assert f'href="/jobs/{other}/cord"' in page
    assert "Count the jerks" not in page


class TestWhereTheMachineHasNoSuchCheck:
    @pytest.fixture
    def shop(self, shop):
        return without_counting(shop)

    def test_it_is_told_all_the_same_and_nothing_is_offered_to_keep(self, client, ring):
        page = client.get(f"/jobs/{ring}/cord", params=TOLD).text
        assert "3 of 10 pulls jerked" in page
        assert "Keep it in job" not in page
        assert f"Back to job {ring}" in page
