"""The whole job by tapping in a real browser, on a phone and on a tablet."""

import re

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
SIZES = [pytest.param(390, 844, id="phone"), pytest.param(1024, 768, id="tablet")]


def fits(page):
    """Nothing sticks out to the right, and nothing to tap is smaller than 44 px."""
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small = page.evaluate(
        """[...document.querySelectorAll('button, .button, summary, select, input:not([type=hidden])')]
           .filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5
                     && !e.closest('.chip')).map(e => e.outerHTML.slice(0, 90))"""
    )
    assert small == []


def tap_until_done(page):
    """Tick every step of the way in and out."""
    for _ in range(80):
        done = page.get_by_role("button", name="Done: next step")
        if not done.count():
            return
        heading = page.locator("h1").inner_text()
        fits(page)
        done.click()
        expect(page.locator("h1")).not_to_have_text(heading)
    raise AssertionError("the steps never end")


def prove_everything(page):
    """Answer the release list as a careful mechanic would."""
    for _ in range(60):
        line = page.locator(".proof.open, .proof.undecided").first
        if not line.count():
            return
        item = line.get_attribute("id")
        if line.get_by_label("Seconds of three releases or more").count():
            line.get_by_label("Seconds of three releases or more").fill("2.1 2.2 2.1")
            line.get_by_role("button", name="Judge it").click()
        elif line.get_by_label("Top speed without load").count():
            line.get_by_label("Top speed without load").fill("2950 rpm")
            line.get_by_label("Blade, tip to tip").fill("460 mm")
            line.get_by_role("button", name="Judge it").click()
        elif line.get_by_label("Torque put on, with its unit").count():
            line.get_by_label("Torque put on, with its unit").fill("48 N·m")
            line.get_by_role("button", name="Keep it").click()
        else:
            line.get_by_role("button", name="yes").click()
        expect(page.locator(f"#{item}")).to_have_class(re.compile("passed"))
    raise AssertionError("the release list never ends")


def take_it_in(page):
    """Half a story, a name in three scripts, and what may be spent."""
    page.get_by_role("link", name="Take in a machine").tap()
    expect(page.locator("h1")).to_have_text("Take in a machine")
    fits(page)
    page.get_by_label("What the customer says").fill("Ran onto a mooring ring, now it throws the cord back")
    page.get_by_label("kicks back on the cord").tap()
    page.get_by_label("hit something").tap()
    page.get_by_label("Name").fill("Michał 王 Ω")
    page.get_by_label("May be spent before we ask").fill("150")
    page.get_by_role("button", name="Take it in and give it a number").tap()
    expect(page.locator(".job-head")).to_contain_text("Ran onto a mooring ring")
    expect(page.locator("#causes .cause").first).to_contain_text("flywheel key sheared")
    fits(page)


def find_and_take_back(page):
    """One tap records a result; what was tapped can be taken back."""
    before = page.locator("#causes .cause .figure").first.inner_text()
    page.get_by_role("link", name="All checks and repairs").tap()
    expect(page.locator("h1")).to_contain_text("Everything")
    fits(page)
    page.get_by_text("look at the keyway", exact=False).first.tap()
    page.locator("details[open]").get_by_role("button", name=re.compile("clearly off")).tap()
    expect(page.locator("#causes .cause").first).to_contain_text("almost sure")
    page.get_by_role("button", name=re.compile("^Take back: the keyway")).first.tap()
    expect(page.locator("#causes .cause .figure").first).to_have_text(before)


def in_and_out(page):
    """The way in, the key, everything back, and it works."""
    page.get_by_label("Way in to the").select_option("key")
    page.get_by_role("button", name="Plan it").tap()
    expect(page.locator("h1")).to_contain_text("plug lead off")
    expect(page.locator(".caution.danger")).to_be_visible()
    tap_until_done(page)
    expect(page.locator(".plate")).to_contain_text("0 fasteners on the tray")
    page.get_by_role("link", name="Back to the sheet").tap()
    expect(page.locator("#next")).to_contain_text("Nothing is started before this, because it hit something")
    page.locator("#next").get_by_role("button", name=re.compile("nicked or blunt")).tap()
    expect(page.locator("#next")).not_to_contain_text("Nothing is started before this")
    page.get_by_role("link", name="All checks and repairs").tap()
    page.get_by_text("fit a new key", exact=False).first.tap()
    page.locator("details[open]").get_by_role("button", name="done: it works").tap()
    expect(page.locator("#next")).to_contain_text("cured it")
    expect(page.locator("#next")).to_contain_text("crankshaft bent")


def bill_it(page):
    """Lines from the work, the invoice."""
    page.get_by_role("button", name="Lines from the repairs done").tap()
    expect(page.locator("table.price")).to_contain_text("flywheel key")
    page.get_by_role("button", name="Write the invoice").tap()
    expect(page.locator("#price")).to_contain_text("is written")


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_whole_job_from_the_door_to_the_hand_back(open_page, width, height):
    page = open_page(width, height, has_touch=True)
    fits(page)
    take_it_in(page)
    find_and_take_back(page)
    in_and_out(page)
    bill_it(page)
    page.locator("#hand-back").get_by_role("link", name="Release list").tap()
    expect(page.locator("h1")).to_have_text("Safe to hand back?")
    fits(page)
    expect(page.get_by_role("button", name="Mark it ready")).to_have_count(0)
    prove_everything(page)
    page.get_by_role("button", name="Mark it ready").tap()
    expect(page.locator(".job-head")).to_contain_text("ready")
    page.get_by_role("link", name="Back to the bench").tap()
    expect(page.locator("main")).to_contain_text("Ready to go")


def test_ticks_survive_a_dropped_tablet(open_page, address):
    page = open_page(390, 844)
    page.get_by_text("mooring ring").click()
    expect(page.locator(".job-head")).to_be_visible()
    page.get_by_label("Way in to the").select_option("shroud")
    page.get_by_role("button", name="Plan it").click()
    page.get_by_role("button", name="Done: next step").click()
    expect(page.locator(".eyebrow").first).to_contain_text("step 2 of")
    expect(page.locator("html")).to_have_attribute("data-waiting", "0")
    other = open_page(1024, 768)
    other.goto(page.url)
    expect(other.locator(".eyebrow").first).to_contain_text("step 2 of")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_stands_out_by_day_and_by_night(open_page, scheme):
    page = open_page(390, 844, color_scheme=scheme)
    page.get_by_text("mooring ring").click()
    expect(page.locator(".job-head")).to_be_visible()
    ratios = page.evaluate(
        """() => {
          const light = c => { const v = c.map(x => { x /= 255; return x <= .03928 ? x/12.92 : ((x+.055)/1.055)**2.4 });
                               return .2126*v[0] + .7152*v[1] + .0722*v[2] };
          const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
          const rgb = css => { canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = css; canvas.fillRect(0, 0, 1, 1);
                               return [...canvas.getImageData(0, 0, 1, 1).data] };
          const ground = e => { for (; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor);
                                if (c[3] > 0) return c } return [255, 255, 255, 255] };
          return [...document.querySelectorAll('main p, main b, main h1, main h2, main button, main a, main summary')]
            .filter(e => e.offsetParent && e.textContent.trim())
            .map(e => { const a = light(rgb(getComputedStyle(e).color)), b = light(ground(e));
                        return [(Math.max(a, b) + .05) / (Math.min(a, b) + .05), e.outerHTML.slice(0, 80)] })
            .filter(([ratio]) => ratio < 7) }"""
    )
    assert ratios == []


def test_the_sheet_works_without_a_script(open_page):
    page = open_page(390, 844, java_script_enabled=False)
    page.get_by_text("mooring ring").click()
    expect(page.locator(".job-head")).to_be_visible()
    page.locator(".others summary").first.click()
    page.locator("details[open] .choice button").first.click()
    expect(page.locator(".history")).to_contain_text("take back")
    assert re.search(r"/jobs/\d+$", page.url)


def test_the_first_load_stays_under_100_kilobytes(browser, address):
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    sizes = []
    session.on("Network.loadingFinished", lambda event: sizes.append(event["encodedDataLength"]))
    page.goto(address, wait_until="networkidle")
    page.get_by_text("mooring ring").click()
    expect(page.locator(".job-head")).to_be_visible()
    page.wait_for_load_state("networkidle")
    context.close()
    assert 0 < sum(sizes) < 100_000


def test_axe_finds_nothing_on_any_page(open_page, address):
    page = open_page(390, 844)
    job = page.get_by_role("link", name="mooring ring").get_attribute("href")
    for path in ("/", "/take-in", job, f"{job}/checks", f"{job}/hand-back", "/numbers?thread=M6", "/settings"):
        page.goto(address + path)
        found = Axe().run(page)["violations"]
        assert [(path, one["id"], one["nodes"][0]["html"][:120]) for one in found] == []
