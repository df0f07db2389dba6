"""One pull of the cord on a page: worked out beside the pages, waited for in plain words, kept."""

import html
import re
import threading
from urllib.parse import urlencode

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

from bellcrank.errors import OutOfRange
from bellcrank.shop.one_pull import OnePull
from bellcrank.web.pulls_at_work import KEPT, PullsAtWork

from .test_bench_by_tapping import SIZES, fits

ASKED = {"engine": "overhead-valve-160", "slip": "-60 °", "state": "sound", "ignition": "module"}
PULL = OnePull(
    engine="an engine",
    slip="60° early",
    outcome="kicks back",
    seconds=(0.0, 0.1, 0.2, 0.3),
    speed_rpm=(0.0, 400.0, -200.0, 0.0),
    pressure_kpa=(0.0, 20.0, 1200.0, 0.0),
    cord_force_n=(0.0, 200.0, 600.0, 0.0),
    events=((0.1, "a spark lights it 80° before the top"), (0.15, "fire throws the crank back")),
    cautions=("No further pulls.",),
    notes=("Computed.",),
)


@pytest.fixture
def pulls(client):
    """Give what works out the pulls, to be replaced in a test; each is told when it is to end."""
    ended, begun = threading.Event(), []

    def pull(_, asked):
        begun.append(asked)
        assert ended.wait(20)
        return PULL

    at_work = PullsAtWork(client.app.state.shop.library, pull)
    client.app.state.pulls = at_work
    at_work.ended, at_work.begun = ended, begun
    yield at_work
    ended.set()


@pytest.mark.browser
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_page_comes_by_itself_without_a_script(open_page, address, width, height):
    page = open_page(width, height, java_script_enabled=False)
    page.goto(f"{address}/numbers/pull?{urlencode(ASKED)}")
    expect(page.locator(".figure-pull-trace")).to_be_visible(timeout=90_000)
    fits(page)
    expect(page.locator(".figure-pull-trace")).to_contain_text("fire throws the crank")


@pytest.mark.browser
def test_axe_finds_nothing_on_a_pull(open_page, address):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/pull?{urlencode(ASKED)}")
    expect(page.get_by_role("slider")).to_be_visible(timeout=90_000)
    fits(page)
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page)["violations"]] == []


def test_says_that_it_is_being_got_ready_and_looks_again(client, pulls):
    page = client.get("/numbers/pull", params=ASKED).text
    assert "The equations are being got ready" in page
    assert '<meta http-equiv="refresh"' in page
    assert page.index("No further pulls") < page.index("got ready")
    pulls.ended.set()
    page = client.get("/numbers/pull", params=ASKED).text
    assert "refresh" not in page
    assert 'class="figure-pull-trace"' in page


def test_a_pull_is_worked_out_once(client, pulls):
    pulls.ended.set()
    for slip in ("-60 °", "-60", "-90 °"):
        client.get("/numbers/pull", params=ASKED | {"slip": slip})
    assert [one.slip for one in pulls.begun] == [-60, -90]


def test_keeps_the_last_ones_only(client):
    begun = []
    at_work = PullsAtWork(client.app.state.shop.library, lambda _, asked: begun.append(asked) or PULL)
    for number in [*range(KEPT + 1), KEPT, 0]:
        at_work.ask(number, 10)
    assert begun == [*range(KEPT + 1), 0]


def test_what_goes_wrong_with_a_pull_is_told_and_it_may_be_asked_again(client):
    def pull(_, asked):
        raise OutOfRange("This engine cannot be pulled.", "slip")

    client.app.state.pulls = PullsAtWork(client.app.state.shop.library, pull)
    for _ in range(2):
        answer = client.get("/numbers/pull", params=ASKED)
        assert answer.status_code == 422
        assert "This engine cannot be pulled." in answer.text


def test_refuses_in_words_with_the_questions_open_to_put_it_right(client):
    answer = client.get("/numbers/pull", params=ASKED | {"slip": "far"})
    assert answer.status_code == 422
    assert "far" in answer.text
    assert 'id="slip"' in answer.text


def test_asks_first_for_the_engine_and_where_the_flywheel_stands(client):
    page = html.unescape(client.get("/numbers/pull").text)
    assert "The flywheel stands" in page
    assert "got ready" not in page


@pytest.mark.parametrize(
    ("back", "leads"),
    [
        (
            "/jobs/201/cord?engine=overhead-valve-160&jerks=3&of=10",
            "/jobs/201/cord?engine=overhead-valve-160&jerks=3&of=10",
        ),
        ("https://elsewhere.example/cord", "/numbers/cord"),
        ("javascript:alert(1)", "/numbers/cord"),
        ("//elsewhere.example/numbers/cord", "/numbers/cord"),
    ],
)
def test_leads_back_to_a_cord_and_nowhere_else(client, back, leads):
    page = html.unescape(client.get("/numbers/pull", params={"back": back}).text)
    assert re.search(r'<a href="([^"]*)">Back to what the cord told', page)[1] == leads


def test_the_cord_links_one_such_pull_and_comes_back_with_what_was_said(client, pulls):
    pulls.ended.set()
    told = {"engine": "overhead-valve-160", "jerks": "4", "of": "10", "blade": "tight"}
    page = html.unescape(client.get("/numbers/cord", params=told).text)
    pull = html.unescape(client.get(re.search(r'href="(/numbers/pull\?[^"]*)"', page)[1]).text)
    assert f'href="/numbers/cord?{urlencode(told)}"' in pull
