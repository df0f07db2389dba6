"""The numbers bench by tapping in a real browser: three taps without a script, and from a job's step and back."""

import re

import pytest
from axe_core_python.sync_playwright import Axe
from playwright.sync_api import expect

from .test_bench_by_tapping import SIZES, fits

pytestmark = pytest.mark.browser
ANSWER = "/numbers?thread=M6&strength=8.8&into=cast-aluminium"
STRIP = "/numbers/strip?thread=M6&into=cast-aluminium&engaged=10+mm"
TAPER = "/numbers/taper?ratio=1%3A8&mean_diameter=20+mm&nut_force=20+kN"
KEY = "/numbers/key?key=606&shaft=20+mm&key_material=key-steel"
PULL = "/numbers/pull-off?nut_torque=60+ft%C2%B7lb&bolt=1%2F4-20&engaged=8+mm"
TIMING = "/numbers/timing?engine=overhead-valve-160&slip=-60+%C2%B0"
LEAK = "/numbers/leak-down?reading=70+psi"
GAUGE = "/numbers/compression?engine=overhead-valve-160&height=500+m"
JET = "/numbers/jet?height=2000+m&jet=0.70+mm"
GOVERNOR = "/numbers/governor?no_load=3600+rpm&loaded=3400+rpm&blade=530+mm"
SPARK = "/numbers/spark?engine=overhead-valve-160&gap=0.75+mm&tester=5+mm&slip=-60+%C2%B0"
CORD = "/numbers/cord?engine=overhead-valve-160&jerks=3&of=10&blade=tight&starts=0"
STRIKE = "/numbers/strike?stop_angle=45+%C2%B0&nut_torque=60+ft%C2%B7lb&flywheel_mass=2+kg"


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_three_taps_without_a_script(open_page, address, width, height):
    page = open_page(width, height, java_script_enabled=False)
    page.goto(f"{address}/numbers")
    for words in ("1/4-20", "3 lines, grade 5", "a nut"):
        page.get_by_role("link", name=words, exact=True).click()
    expect(page.locator(".plate")).to_contain_text("will do")
    expect(page.locator(".figure-joint")).to_be_visible()


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_nothing_sticks_out_and_nothing_is_too_small_to_tap(open_page, address, width, height):
    page = open_page(width, height)
    for path in (
        "/numbers",
        "/numbers?thread=M6",
        ANSWER,
        f"{ANSWER}&friction=slippery",
        "/numbers/strip",
        STRIP,
        TAPER,
        "/numbers/hand",
        "/numbers/hand?thread=M6",
        "/numbers/hand?thread=M6&wanted=9+N%C2%B7m",
        "/numbers/hand?person=Oda&thread=M5",
        "/numbers/hand?thread=M6&wanted=much",
        "/numbers/key",
        KEY,
        "/numbers/pull-off",
        PULL,
        f"{PULL}&state=wet",
        "/numbers/strike",
        "/numbers/timing",
        TIMING,
        LEAK,
        GAUGE,
        JET,
        "/numbers/governor",
        GOVERNOR,
        "/numbers/spark",
        SPARK,
        "/numbers/cord",
        CORD,
        "/numbers/cord?engine=overhead-valve-160&jerks=12&of=10",
        STRIKE,
    ):
        page.goto(address + path)
        fits(page)


@pytest.mark.parametrize(
    "answer",
    [
        ANSWER,
        STRIP,
        TAPER,
        KEY,
        PULL,
        STRIKE,
        TIMING,
        LEAK,
        GAUGE,
        JET,
        GOVERNOR,
        SPARK,
        CORD,
        "/numbers/hand?thread=M6",
    ],
)
def test_axe_finds_nothing_on_the_answer(open_page, address, answer):
    page = open_page(390, 844)
    page.goto(address + answer)
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in Axe().run(page)["violations"]] == []


def test_from_the_step_to_the_number_and_back(open_page, address):
    page = open_page(390, 844, has_touch=True)
    job = page.get_by_role("link", name="mooring ring").get_attribute("href")
    page.goto(address + job)
    page.get_by_label("Way in to the").select_option("key")
    page.get_by_role("button", name="Plan it").tap()
    expect(page.locator("h1")).to_contain_text("plug lead off")
    work_out = page.get_by_role("link", name=re.compile("^Work out a torque")).first
    for step in range(1, 20):
        page.goto(f"{address}{job}/steps?way=out&step={step}")
        if work_out.count():
            break
    fits(page)
    work_out.tap()
    expect(page.locator("h1")).to_have_text("A torque nobody published")
    fits(page)
    page.get_by_role("button", name=re.compile("as our own number")).tap()
    expect(page).to_have_url(re.compile(rf"{job}/steps\?way=out&step=\d+$"))
    expect(page.locator(".fasteners")).to_contain_text("computed on the numbers bench")


@pytest.mark.parametrize(
    ("path", "figure"), [(TIMING, "timing"), (GAUGE, "altitude"), (CORD, "timing"), (CORD, "kick-map")]
)
def test_the_engine_s_answers_are_drawn(client, path, figure):
    assert f'class="figure-{figure}"' in client.get(path).text
