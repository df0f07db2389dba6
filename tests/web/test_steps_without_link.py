"""The steps at the bench in a real browser while the link is down: gone on with, kept, sent once, refused in words."""

import io
import re

import pytest
from axe_core_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import expect

from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.records import read_record
from bellcrank.shop.work import choose_target, tick

from .test_bench_by_tapping import SIZES, fits

pytestmark = pytest.mark.browser


def whole_way_is_here(page):
    expect(page.locator("html")).to_have_attribute("data-way", "whole", timeout=15_000)


def nothing_waits(page):
    expect(page.locator("html")).to_have_attribute("data-waiting", "0", timeout=15_000)


@pytest.fixture
def number(shop):
    """A mower on its way in to the key."""
    taken_in = take_in(shop, Story(complaint_words="hit a root", complaints=("wont-start",), name="Ola Quay"))
    choose_target(shop, taken_in, "key")
    return taken_in


@pytest.fixture
def phone(browser, address, number):
    """Open the step that is next on a phone of its own; a failing script or a broken policy fails the test."""
    contexts, complaints = [], []

    def opener(width=390, height=844, **options):
        context = browser.new_context(viewport={"width": width, "height": height}, has_touch=True, **options)
        contexts.append(context)
        context.set_default_timeout(15_000)
        return on(context)

    def on(context):
        page = context.new_page()
        page.on("console", lambda m: complaints.append(m.text) if m.type in ("error", "warning") else None)
        page.on("pageerror", lambda e: complaints.append(str(e)))
        page.goto(f"{address}/jobs/{number}/steps")
        whole_way_is_here(page)
        return page

    opener.on = on
    yield opener
    for context in contexts:
        context.close()
    assert [text for text in complaints if not text.startswith("Failed to load resource")] == []


def ticks(shop, number):
    return [
        (e.body["direction"], e.body["operation"], e.body["done"]) for e in read_record(shop, number).standing("step")
    ]


def names(shop, number, way="in"):
    work = job_sheet(shop, number).work
    return [step.operation for step in (work.steps_in if way == "in" else work.steps_out)]


def done(page, times=1):
    for _ in range(times):
        heading = page.locator("h1").inner_text()
        page.get_by_role("button", name="Done: next step").tap()
        expect(page.locator("h1")).not_to_have_text(heading)


def look_again(page):
    page.evaluate("dispatchEvent(new Event('online'))")  # as when the radio comes back


def link(page, *, up):
    page.context.set_offline(not up)


def test_three_steps_are_ticked_without_the_link_and_arrive_once_each(phone, shop, number):
    page = phone()
    link(page, up=False)
    done(page, 3)
    expect(page.locator(".eyebrow")).to_contain_text("step 4 of")
    expect(page.locator("#kept")).to_contain_text("3 taps are kept on this phone, not yet on the bench computer")
    assert ticks(shop, number) == []
    link(page, up=True)
    expect(page.locator("#kept")).to_contain_text("all that was tapped here is on the bench computer")
    assert ticks(shop, number) == [("in", name, True) for name in names(shop, number)[:3]]
    expect(page.locator(".eyebrow")).to_contain_text("step 4 of")


def test_nothing_is_called_done_by_the_bench_computer_before_it_said_so(phone, number):
    page = phone()
    link(page, up=False)
    done(page)
    page.get_by_role("link", name=re.compile("Back")).tap()
    only_here = page.get_by_text("done, kept on this phone only").and_(page.locator(":visible"))
    expect(only_here).to_have_count(1)
    expect(page.locator(".facts-line .tick")).to_be_hidden()
    link(page, up=True)
    expect(only_here).to_have_count(0, timeout=15_000)
    expect(page.locator(".facts-line .tick")).to_be_visible()


def test_back_and_ahead_need_no_link(phone):
    page = phone()
    first = page.locator("h1").inner_text()
    link(page, up=False)
    page.get_by_role("link", name=re.compile("^Ahead")).tap()
    expect(page.locator(".eyebrow")).to_contain_text("step 2 of")
    page.get_by_role("link", name=re.compile("^Ahead")).tap()
    page.get_by_role("link", name=re.compile("Back")).tap()
    page.go_back()
    page.go_back()
    page.go_back()
    expect(page.locator("h1")).to_have_text(first)


def test_the_tray_is_counted_on_the_phone_as_by_the_shop(phone, shop, number):
    page = phone()
    link(page, up=False)
    steps = names(shop, number)
    for place, name in enumerate(steps, start=1):
        done(page)
        tick(shop, number, "in", name, done=True)  # the oracle: the same taps on the bench computer itself
        count = job_sheet(shop, number).work.on_the_tray
        words = "1 fastener" if count == 1 else f"{count} fasteners"
        expect(page.locator(".eyebrow")).to_contain_text(f"{words} on the tray")
        assert place < len(steps) or count > 0


def test_all_the_way_in_and_out_without_the_link_ends_with_an_empty_tray(phone, shop, number):
    page = phone()
    link(page, up=False)
    both = len(names(shop, number)) + len(names(shop, number, "out"))
    done(page, both)
    expect(page.locator(".plate")).to_contain_text("Every step is done, 0 fasteners on the tray", use_inner_text=True)
    expect(page.locator(".still-there")).to_be_hidden()
    link(page, up=True)
    nothing_waits(page)
    assert [one[:2] for one in ticks(shop, number)] == [
        (way, name) for way in ("in", "out") for name in names(shop, number, way)
    ]
    assert job_sheet(shop, number).work.on_the_tray == 0


def test_the_repair_at_the_end_is_kept_too_and_leads_to_the_sheet_once_it_is_taken(phone, shop, number):
    for way in ("in", "out"):
        for name in names(shop, number, way):
            tick(shop, number, way, name, done=True)
    page = phone()
    link(page, up=False)
    page.get_by_role("button", name="done: it works").first.tap()
    expect(page.locator("#kept")).to_contain_text("1 entry is kept on this phone")
    link(page, up=True)
    page.wait_for_url(re.compile(r"/jobs/\d+$"))
    assert len(list(read_record(shop, number).standing("repaired"))) == 1


def test_a_page_whose_taps_are_not_kept_does_not_say_they_are(phone, address):
    page = phone()
    page.goto(f"{address}/settings")
    page.evaluate("dispatchEvent(new Event('offline'))")
    expect(page.locator("#kept")).to_have_text("The bench computer cannot be reached now.")


def test_the_last_screen_says_what_still_lies_on_the_tray(phone, shop, number):
    page = phone()
    link(page, up=False)
    both = len(names(shop, number)) + len(names(shop, number, "out"))
    done(page, both - 2)
    for _ in range(2):
        page.get_by_role("link", name=re.compile("^Ahead")).tap()
    expect(page.locator(".plate")).to_contain_text("Not every step is done", use_inner_text=True)
    page.get_by_role("link", name="To the step that is open").tap()
    expect(page.get_by_role("button", name="Done: next step")).to_be_visible()


def test_a_tap_whose_answer_is_lost_is_there_once(phone, shop, number):
    page = phone()
    sent = []

    def lose(route):
        sent.append(route.request.headers["idempotency-key"])
        if len(sent) == 1:
            route.fetch(max_redirects=0)  # the bench computer has it ...
            route.abort()  # ... and the phone never hears
        else:
            route.continue_()

    page.route(re.compile(r"/jobs/\d+/steps$"), lose)
    done(page)
    nothing_waits(page)
    assert len(sent) == 2
    assert len(set(sent)) == 1
    assert ticks(shop, number) == [("in", names(shop, number)[0], True)]


def test_a_refused_tap_is_shown_in_the_shops_words_and_the_screen_follows_the_shop(phone, shop, number):
    page = phone()
    first = names(shop, number)[0]
    link(page, up=False)
    done(page)
    tick(shop, number, "in", first, done=True)
    link(page, up=True)
    refused = page.locator("#kept-refused .refusal")
    expect(refused).to_contain_text("is ticked already, from another phone or page. Nothing was added.")
    refused.get_by_role("button", name="Seen").tap()
    expect(refused).to_have_count(0)
    assert ticks(shop, number) == [("in", first, True)]


def test_a_tap_out_of_order_is_refused_by_the_shop_not_by_the_phone(phone, shop, number):
    page = phone()
    link(page, up=False)
    for _ in range(len(names(shop, number)) - 1):
        page.get_by_role("link", name=re.compile("^Ahead")).tap()
    page.get_by_role("button", name="Done: next step").tap()
    expect(page.locator("#kept")).to_contain_text("1 tap is kept")
    link(page, up=True)
    expect(page.locator("#kept-refused")).to_contain_text("Not yet: first “")
    assert ticks(shop, number) == []
    fits(page)
    assert [one["id"] for one in Axe().run(page)["violations"]] == []


def test_what_is_kept_survives_closing_the_page(phone, shop, number, address):
    page = phone()
    link(page, up=False)
    done(page, 2)
    page.close()
    context = page.context
    context.set_offline(False)
    bench = context.new_page()
    bench.goto(address)  # any page of the bench sends it
    nothing_waits(bench)
    bench.goto(f"{address}/jobs/{number}/steps")
    expect(bench.locator(".eyebrow")).to_contain_text("step 3 of")
    assert [name for _, name, _ in ticks(shop, number)] == names(shop, number)[:2]


def test_a_tick_and_its_taking_off_arrive_in_order(phone, shop, number):
    page = phone()
    link(page, up=False)
    done(page)
    page.get_by_role("link", name=re.compile("Back")).tap()
    page.get_by_role("button", name="Take this tick off").tap()
    expect(page.get_by_role("button", name="Done: next step")).to_be_visible()
    link(page, up=True)
    nothing_waits(page)
    first = names(shop, number)[0]
    assert ticks(shop, number) == [("in", first, True), ("in", first, False)]


def test_the_buttons_under_a_thumb_are_not_swapped_when_the_whole_way_comes(browser, address, number):
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto(f"{address}/jobs/{number}/steps", wait_until="commit")
    page.wait_for_selector("article.step")
    page.evaluate("window.first = document.querySelector('article.step')")
    whole_way_is_here(page)
    assert page.evaluate("window.first === document.querySelector('article.step')")
    page.close()


def test_a_thumb_that_bounces_ticks_one_step(phone, shop, number):
    page = phone()
    place = page.get_by_role("button", name="Done: next step").bounding_box()
    for _ in range(3):
        page.touchscreen.tap(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
    expect(page.locator(".eyebrow")).to_contain_text("step 2 of")
    nothing_waits(page)
    page.wait_for_timeout(800)
    assert len(ticks(shop, number)) == 1


def torque_form(page, shop, number):
    """The first step back that has a thread, its form open."""
    for _ in range(2 * len(names(shop, number))):
        summary = page.locator("summary", has_text="A torque is known for")
        if summary.count():
            summary.first.tap()
            return page.locator("details[open] form").first
        page.get_by_role("link", name=re.compile("^Ahead")).tap()
    raise AssertionError("no step has a thread")


def test_what_is_typed_without_the_link_arrives_too(phone, shop, number):
    page = phone()
    link(page, up=False)
    form = torque_form(page, shop, number)
    form.get_by_label("Torque with its unit").fill("9 N·m")
    form.get_by_label("Where it stands").fill("maker's manual, page 12")
    form.get_by_role("button", name="Keep it for this machine").tap()
    expect(page.locator("#kept")).to_contain_text("1 entry is kept on this phone")
    link(page, up=True)
    nothing_waits(page)
    (kept,) = read_record(shop, number).standing("torque")
    assert (kept.body["typed"], kept.body["source"]) == ("9 N·m", "maker's manual, page 12")
    expect(page.locator(".torque-window").first).to_contain_text("maker's manual, page 12")


def test_what_was_typed_and_refused_is_put_back_into_its_form(phone, shop, number):
    page = phone()
    link(page, up=False)
    form = torque_form(page, shop, number)
    form.get_by_label("Torque with its unit").fill("9 parsnips")
    form.get_by_label("Where it stands").fill("page 12")
    form.get_by_role("button", name="Keep it for this machine").tap()
    link(page, up=True)
    refused = page.locator("#kept-refused .refusal")
    expect(refused).to_contain_text("9 parsnips · published · page 12")
    refused.get_by_role("button", name="Put it back to change it").tap()
    expect(form.get_by_label("Torque with its unit")).to_have_value("9 parsnips")
    expect(form.get_by_label("Where it stands")).to_have_value("page 12")
    assert not list(read_record(shop, number).standing("torque"))


def photo(colour):
    out = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "JPEG")
    return {"name": f"{colour}.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def test_photos_and_a_note_taken_without_the_link_arrive_each_once(phone, shop, number):
    page = phone()
    link(page, up=False)
    page.get_by_text("Photo or note").tap()
    page.get_by_label("Take or pick a photo").set_input_files([photo("red"), photo("blue")])
    page.get_by_role("button", name="Keep the photo").tap()
    expect(page.locator("#kept")).to_contain_text("2 entries are kept on this phone")
    page.get_by_label("Note at this step").fill("boot is cracked")
    page.get_by_role("button", name="Keep the note").tap()
    expect(page.locator("#kept")).to_contain_text("3 entries are kept on this phone")
    page.close()
    page.context.set_offline(False)
    again = phone.on(page.context)
    nothing_waits(again)
    events = [event.kind for event in read_record(shop, number).events if event.stands]
    assert events.count("photo") == 2
    expect(again.locator(".step .capture")).to_contain_text("boot is cracked")
    expect(again.locator(".step .photos img")).to_have_count(2)


def test_a_refused_photo_does_not_take_a_good_one_with_it(phone, shop, number):
    page = phone()
    link(page, up=False)
    page.get_by_text("Photo or note").tap()
    bad = {"name": "no.jpg", "mimeType": "image/jpeg", "buffer": b"not a picture"}
    page.get_by_label("Take or pick a photo").set_input_files([photo("red"), bad, photo("blue")])
    page.get_by_role("button", name="Keep the photo").tap()
    link(page, up=True)
    refused = page.locator("#kept-refused .refusal")
    expect(refused).to_contain_text("no.jpg is not a picture")
    nothing_waits(page)
    assert [event.kind for event in read_record(shop, number).events].count("photo") == 2
    refused.get_by_role("button", name="Send it again").tap()
    expect(refused).to_have_count(1)
    nothing_waits(page)
    expect(refused).to_contain_text("no.jpg is not a picture")  # not taken for kept


def test_a_way_planned_anew_by_what_was_found_goes_on_with_its_open_step(phone, shop, number):
    page = phone()
    choose_target(shop, number, "carburettor")
    look_again(page)
    expect(page.locator(".eyebrow")).to_contain_text("Way in to the carburettor")
    assert job_sheet(shop, number).work.current.do in page.locator("h1").inner_text()


def test_half_a_line_typed_is_not_lost_when_another_phone_writes(phone, shop, number):
    page = phone()
    form = torque_form(page, shop, number)
    form.get_by_label("Torque with its unit").fill("9 N")
    tick(shop, number, "in", names(shop, number)[0], done=True)
    look_again(page)
    expect(page.locator(".eyebrow")).to_contain_text("fastener")
    page.get_by_role("link", name=re.compile("Back")).tap()
    page.get_by_role("link", name=re.compile("Ahead|Next")).tap()
    expect(form.get_by_label("Torque with its unit")).to_have_value("9 N")


def test_another_phones_tick_shows_here_without_a_reload(phone, shop, number):
    page = phone()
    tick(shop, number, "in", names(shop, number)[0], done=True)
    look_again(page)
    expect(page.locator(".facts-line .tick")).to_be_visible()
    expect(page.get_by_role("button", name="Take this tick off")).to_be_visible()


def test_a_link_that_would_lose_the_steps_is_held_while_the_link_is_down(phone):
    page = phone()
    link(page, up=False)
    done(page)
    expect(page.locator("#kept")).to_contain_text("the link is down")
    page.get_by_role("link", name="Bench", exact=True).tap()
    expect(page.locator("#stays")).to_contain_text("The steps stay open here")
    expect(page.locator(".step h1")).to_be_visible()


def test_two_phones_that_tick_at_once_give_one_tick(phone, shop, number):
    pages = [phone(), phone()]
    for page in pages:
        link(page, up=False)
        done(page)
    for page in pages:
        link(page, up=True)
        nothing_waits(page)
    assert len(ticks(shop, number)) == 1
    expect(pages[1].locator("#kept-refused")).to_contain_text("ticked already")


def test_without_a_database_on_the_phone_it_is_kept_as_text(browser, address, shop, number):
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    context.add_init_script("Object.defineProperty(window, 'indexedDB', {value: undefined})")
    page = context.new_page()
    page.goto(f"{address}/jobs/{number}/steps")
    whole_way_is_here(page)
    link(page, up=False)
    done(page, 2)
    page.close()
    context.set_offline(False)
    bench = context.new_page()
    bench.goto(address)
    nothing_waits(bench)
    context.close()
    assert len(ticks(shop, number)) == 2


def test_without_a_script_a_step_is_a_page(browser, address, shop, number):
    context = browser.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/jobs/{number}/steps")
    page.get_by_role("button", name="Done: next step").click()
    expect(page.locator(".eyebrow")).to_contain_text("step 2 of")
    page.get_by_role("link", name=re.compile("Back")).click()
    page.get_by_role("button", name="Take this tick off").click()
    expect(page.locator(".eyebrow")).to_contain_text("step 1 of")
    expect(page.get_by_role("button", name="Done: next step")).to_be_visible()
    context.close()
    assert len(ticks(shop, number)) == 2


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_what_is_to_be_done_is_the_largest_and_the_thumb_reaches_all(phone, shop, number, width, height, scheme):
    page = phone(width, height, color_scheme=scheme)
    for _ in range(2 * len(names(shop, number)) + 1):
        fits(page)
        low = page.evaluate(
            """[...document.querySelectorAll('.step-thumb a, .step-thumb button, summary, .step a.button')]
               .filter(e => e.offsetParent && e.getBoundingClientRect().height < 48)
               .map(e => e.outerHTML.slice(0, 80))"""
        )
        assert low == []
        larger = page.evaluate(
            """() => { const size = e => parseFloat(getComputedStyle(e).fontSize);
                const head = size(document.querySelector('.step h1'));
                return [...document.querySelectorAll('.step *')].filter(e => e.offsetParent && !e.closest('h1')
                  && size(e) >= head).map(e => e.outerHTML.slice(0, 80)) }"""
        )
        assert larger == []
        on = page.get_by_role("link", name=re.compile("^(Ahead|Next)"))
        if not on.count():
            break
        on.tap()
    expect(page.locator(".plate")).to_be_visible()
    link(page, up=False)
    page.get_by_role("link", name="To the step that is open").tap()
    done(page)
    expect(page.locator("#kept")).to_be_visible()
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page)["violations"]] == []


def test_the_whole_way_is_asked_for_anew_only_when_something_was_written(client, shop, number):
    first = client.get(f"/jobs/{number}/way")
    mark = {"if-none-match": first.headers["etag"]}
    assert client.get(f"/jobs/{number}/way", headers=mark).status_code == 304
    tick(shop, number, "in", names(shop, number)[0], done=True)
    assert client.get(f"/jobs/{number}/way", headers=mark).status_code == 200
    assert len(first.content) < 400_000


def test_a_job_without_a_way_has_no_whole_way(client, shop):
    bare = take_in(shop, Story(complaints=("wont-start",)))
    answer = client.get(f"/jobs/{bare}/way")
    assert answer.status_code == 404
    assert "Choose the part to get to" in answer.text
