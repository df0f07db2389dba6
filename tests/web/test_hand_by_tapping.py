"""Somebody's own hand measured in a real browser: a thread tapped, readings kept and taken back, and a job's step."""

import re

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

from .test_bench_by_tapping import SIZES, fits

pytestmark = pytest.mark.browser
TO_TAP = ".thumb button, .chips a, .reading input, .reading select, .readings button, .readings a, summary"
BY_HAND = ("6", "7", "7", "8", "7")  # by hand, in the docstring of hand_on: 3.9 to 10.1 N·m


def keep(page, reading):
    page.get_by_label("The wrench showed").fill(reading)
    page.get_by_role("button", name="Keep this reading").click()


def to_tap(page):
    """Heights of what is tapped on the way to a measured hand."""
    return page.evaluate(
        """what => [...document.querySelectorAll(what)].filter(e => e.offsetParent)
           .map(e => e.getBoundingClientRect().height)""",
        TO_TAP,
    )


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_five_readings_without_a_script_give_a_window(open_page, address, width, height):
    page = open_page(width, height, java_script_enabled=False)
    page.goto(f"{address}/numbers")
    page.get_by_role("link", name="my own hand").click()
    page.get_by_role("link", name="M5", exact=True).click()
    for count, reading in enumerate(BY_HAND):
        expect(page.get_by_label("The wrench showed")).to_have_value("")
        expect(page.locator("main")).to_contain_text(f"({count} of 5)")
        keep(page, reading)
    expect(page.locator(".plate")).to_contain_text("3.9 to 10.1 N·m")
    page.get_by_label("What should it be?").fill("5")
    page.get_by_role("button", name="Hold my hand against it").click()
    expect(page.locator(".plate")).to_contain_text("too hard: 7.0 N·m where 5.0 N·m is wanted")


def test_the_unit_is_chosen_once(open_page, address):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/hand?thread=%2310-24")
    page.get_by_label("in", exact=True).select_option("in·lb")
    keep(page, "30")
    expect(page.get_by_label("in", exact=True)).to_have_value("in·lb")
    keep(page, "32")
    expect(page.locator(".readings").first).to_contain_text("32 in·lb")


def test_the_one_reading_that_was_wrong_is_taken_back(open_page, address):
    page = open_page(390, 844, has_touch=True)
    page.goto(f"{address}/numbers/hand?thread=M5")
    for reading in ("6", "9", "7"):
        keep(page, reading)
    page.get_by_role("button", name="take back 9 N·m").tap()
    expect(page.get_by_role("button", name="take back 9 N·m")).to_have_count(0)
    expect(page.locator(".readings .gone")).to_contain_text("9 N·m")
    expect(page.locator("main")).to_contain_text("(2 of 5)")


@pytest.mark.parametrize("times", [2, 3])
def test_a_thumb_that_bounces_on_take_back_takes_the_row_it_meant(open_page, address, times):
    page = open_page(390, 1600, has_touch=True)
    page.goto(f"{address}/numbers/hand?thread=M5")
    for reading in ("6", "9", "7"):
        keep(page, reading)
    expect(page.locator("main")).to_contain_text("(3 of 5)")
    before = [one.bounding_box() for one in page.locator(".readings").first.locator("li").all()]
    place = page.get_by_role("button", name="take back 6 N·m").bounding_box()
    for _ in range(times):  # on the same place of the glass, the page come back in between
        page.touchscreen.tap(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
        expect(page.locator(".readings .gone")).to_have_count(1)
    page.reload()
    expect(page.locator(".readings .gone")).to_have_text(re.compile("6 N·m"))
    expect(page.locator("main")).to_contain_text("(2 of 5)")
    after = [one.bounding_box() for one in page.locator(".readings").first.locator("li").all()]
    assert [one["y"] for one in after] == pytest.approx([one["y"] for one in before], abs=4)  # far less than a thumb


def test_a_thumb_that_bounces_keeps_one_reading(open_page, address):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/hand?thread=M5")
    for count in (1, 2):  # the same figure twice over
        page.get_by_label("The wrench showed").fill("7")
        page.get_by_role("button", name="Keep this reading").dblclick(delay=40)
        expect(page.locator("main")).to_contain_text(f"({count} of 5)")
        page.get_by_role("button", name="Keep this reading").click()  # once more, on the empty field
        expect(page.get_by_role("alert")).to_have_count(0)
    page.reload()
    expect(page.locator("main")).to_contain_text("(2 of 5)")


def test_what_is_wanted_is_answered_where_she_looks(open_page, address):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/hand?thread=M6")
    page.get_by_label("What should it be?").fill("8")
    page.get_by_role("button", name="Hold my hand against it").click()
    expect(page.get_by_text("You tighten M6×1 a third too hard")).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("readings", [BY_HAND[:3], (*BY_HAND[:3], "tight"), BY_HAND])
def test_the_next_reading_is_typed_without_scrolling_on_a_phone(open_page, address, readings):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/hand?thread=M5")
    for reading in readings:
        keep(page, reading)
    field, button = page.get_by_label("The wrench showed"), page.get_by_role("button", name="Keep this reading")
    below = field.bounding_box()["y"] + field.bounding_box()["height"]
    assert page.evaluate("scrollY") == 0
    assert below < button.bounding_box()["y"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_it_fits_and_nothing_is_too_small_to_tap_with_gloves_on(open_page, address, width, height, scheme):
    page = open_page(width, height, color_scheme=scheme)
    for path in ("/numbers/hand", "/numbers/hand?thread=M5", "/numbers/hand?thread=M6&wanted=9+N%C2%B7m"):
        page.goto(address + path)
        fits(page)
        assert min(to_tap(page)) >= 48
        assert [(one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page)["violations"]] == []


def test_a_refused_reading_stands_as_it_was_typed(open_page, address):
    page = open_page(390, 844)
    page.goto(f"{address}/numbers/hand?thread=M5")
    keep(page, "tight")
    expect(page.get_by_role("alert")).to_contain_text("“tight” cannot be read")
    expect(page.get_by_label("The wrench showed")).to_have_value("tight")
    fits(page)
    assert [one["id"] for one in Axe().run(page)["violations"]] == []


def test_the_hand_stands_beside_the_torque_in_a_step_of_the_way_back(open_page, address):
    page = open_page(390, 844)
    job = page.get_by_role("link", name=re.compile("hunts|speed goes up and down")).first.get_attribute("href")
    by_hand = page.locator(".by-hand")
    for step in range(1, 20):
        page.goto(f"{address}{job}/steps?way=out&step={step}")
        if by_hand.count():
            break
    expect(by_hand.first).to_contain_text("By Ina's hand it gets 8.7 to 12.8 N·m")
    fits(page)
    assert [one["id"] for one in Axe().run(page)["violations"]] == []
