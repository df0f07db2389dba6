"""A drawn pull in a real browser: read along by slider and finger, and whole without a script."""

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

from bellcrank.web.guard import HEADERS
from bellcrank.web.rendering import _ENVIRONMENT
from tests.figures.of_engine import pulled_through

from .test_bench_by_tapping import fits

pytestmark = pytest.mark.browser
PAGE = """{% extends "base.html" %}{% import "parts.html" as parts %}
{% block main %}<h1>A pull</h1>{{ parts.pull_figure(page.drawn) }}{% endblock %}"""


@pytest.fixture
def open_pull(open_page, address):
    """Open a page that shows a pull, under the site's own security policy."""

    def opener(width, height, **options):
        page = open_page(width, height, **options)
        shown = _ENVIRONMENT.from_string(PAGE).render(page={"title": "A pull", "drawn": pulled_through()})
        headers = {**HEADERS, "content-type": "text/html; charset=utf-8"}
        page.route("**/a-pull", lambda route: route.fulfill(body=shown, headers=headers))
        page.goto(f"{address}/a-pull")
        return page

    return opener


def test_the_slider_reads_the_pull_with_the_keyboard_alone(open_pull):
    page = open_pull(390, 844)
    slider = page.get_by_role("slider", name="Along the pull")
    slider.focus()
    page.keyboard.press("End")
    expect(page.locator(".scrub p")).to_have_text("at 0.90 s: 0 rpm, 8 kPa under the air, cord 0 N")
    assert slider.get_attribute("aria-valuetext") == page.locator(".scrub p").inner_text()


@pytest.mark.parametrize(("width", "height"), [(390, 844), (1024, 768)])
def test_a_finger_on_the_drawing_reads_the_values_under_it(open_pull, width, height):
    page = open_pull(width, height, has_touch=True)
    shown = page.locator(".figure-pull-trace").bounding_box()
    across = (12 + 396 * 0.1 / 0.9) / 420  # where 0.1 s lies in the drawing
    page.touchscreen.tap(shown["x"] + across * shown["width"], shown["y"] + shown["height"] / 2)
    expect(page.locator(".scrub p")).to_contain_text("at 0.10 s: ")
    words = page.locator(".scrub p").inner_text().replace("\u00a0", " ")
    assert words.endswith(("cord 180 N", "cord 179 N", "cord 181 N"))
    stands = page.locator("path.drawn-scrub").bounding_box()
    assert stands["x"] + stands["width"] / 2 == pytest.approx(shown["x"] + across * shown["width"], abs=2)


def test_a_crank_that_turns_back_is_read_in_words(open_pull):
    page = open_pull(390, 844)
    page.get_by_role("slider").fill("138")  # 0.62 s of 0.9 s in 200 steps
    expect(page.locator(".scrub p")).to_contain_text("rpm back")


def test_the_slider_is_large_enough_and_nothing_sticks_out(open_pull):
    page = open_pull(390, 844)
    assert page.get_by_role("slider").bounding_box()["height"] >= 48
    fits(page)
    assert [one["id"] for one in Axe().run(page)["violations"]] == []


def test_without_a_script_the_drawing_stands_by_itself(open_pull):
    page = open_pull(390, 844, java_script_enabled=False)
    expect(page.locator(".figure-pull-trace")).to_contain_text("rpm backwards")
    assert page.locator(".scrub").count() == 0
