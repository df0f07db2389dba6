"""Taking in another kind of machine: its own complaints, facts, parts and release list, no cord."""

import re
from dataclasses import replace

import pytest
from axe_core_python.sync_playwright import Axe
from fastapi.testclient import TestClient
from playwright.sync_api import expect

from bellcrank.web.app import create_app

from .test_bench_by_tapping import SIZES, fits

SAW = {"complaint_words": "saw bogs", "kind": "two-stroke-handheld", "fact:which-machine": "saw"}


def test_another_kind_shows_its_own_complaints_and_facts_and_keeps_what_was_typed(client):
    typed = {"complaint_words": "it bogs", "name": "Żofia 王", "complaint": "vibrates", "kind": "walk-behind-mower"}
    page = client.post("/take-in/kind", data={**typed, "other_kind": "two-stroke-handheld"})
    assert page.status_code == 200
    assert 'name="kind" value="two-stroke-handheld"' in page.text
    assert "bogs: no power on the throttle" in page.text
    assert "tipped over" not in page.text
    assert 'value="Żofia 王"' in page.text
    assert ">it bogs<" in page.text
    assert re.search('value="vibrates" checked', page.text)


def test_a_fact_with_many_answers_offers_them_all(client):
    page = client.get("/take-in?kind=two-stroke-handheld").text
    offered = re.search(r'id="fact-which-machine".*?</select>', page, re.DOTALL)[0]
    assert re.findall(r'option value="([^"]*)"', offered) == ["", "blower", "trimmer", "saw"]


def test_a_refused_saw_stays_a_saw(client):
    answer = client.post("/take-in", data={"kind": "two-stroke-handheld", "name": "Ola"})
    assert answer.status_code == 422
    assert 'name="kind" value="two-stroke-handheld"' in answer.text


@pytest.mark.parametrize("ask", ["get", "post"])
def test_a_kind_nobody_knows_is_a_sentence(client, ask):
    answer = (
        client.get("/take-in?kind=submarine")
        if ask == "get"
        else client.post("/take-in/kind", data={"other_kind": "submarine"})
    )
    assert answer.status_code == 404
    assert "There is no kind of machine “submarine”" in answer.text


def test_a_saw_offers_its_own_parts_to_get_to_and_no_cord_to_work_out(client):
    job = client.post("/take-in", data=SAW).headers["location"]
    page = client.get(job).text
    offered = re.search(r'id="target".*?</(select|fieldset|ul|form)>', page, re.DOTALL)[0]
    assert "crank seals" in offered
    assert "blade" not in offered
    assert f"{job}/cord" not in page
    assert client.get(f"{job}/cord").status_code == 404


def test_a_kind_that_is_not_drawn_up_says_so_in_place_of_parts_to_get_to(shop):
    kind = SAW["kind"]
    undrawn = replace(shop.library.packs[kind], assemblies=())
    library = replace(shop.library, packs={**shop.library.packs, kind: undrawn})
    app = create_app(replace(shop, library=library), ("testserver",))
    with TestClient(app, follow_redirects=False) as client:
        page = client.get(client.post("/take-in", data=SAW).headers["location"]).text
    assert "not drawn up step by step yet" in page
    assert 'id="target"' not in page


def test_the_list_of_a_saw_offers_that_it_has_none_where_it_may_have_none(client):
    job = client.post("/take-in", data=SAW).headers["location"]
    page = client.get(f"{job}/hand-back").text
    lines = re.finditer(r'<li id="([a-z-]+)" class="proof.*?(?=<li id=|</ol>)', page, re.DOTALL)
    by_item = {found[1]: found[0] for found in lines}
    assert 'value="none"' in by_item["chain-brake"]
    assert 'value="none"' not in by_item["fuel-leak"]
    assert "blade" not in " ".join(by_item)


def take_in_a_saw(page):
    """Go to the form of a two-stroke hand-held machine; what was typed before stays."""
    page.get_by_role("link", name=re.compile("take in", re.IGNORECASE)).first.click()
    page.get_by_label("What the customer says").fill("saw bogs")
    page.get_by_role("button", name="two-stroke hand-held").click()
    expect(page.get_by_label("What the customer says")).to_have_value("saw bogs")
    fits(page)


@pytest.mark.browser
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_one_tap_on_the_kind_and_one_on_the_machine_take_in_a_saw_without_a_script(open_page, width, height):
    page = open_page(width, height, java_script_enabled=False)
    take_in_a_saw(page)
    page.get_by_label("which machine").select_option("saw")
    page.get_by_role("button", name="Take it in").click()
    expect(page.locator("h1").first).to_contain_text("Two-stroke hand-held")
    fits(page)
    page.goto(page.url + "/hand-back")
    fits(page)


@pytest.mark.browser
def test_enter_in_a_field_takes_it_in_and_changes_no_kind(open_page):
    page = open_page(390, 844)
    take_in_a_saw(page)
    page.get_by_label("Name").press("Enter")
    expect(page.locator("h1").first).to_contain_text("Two-stroke hand-held")


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_the_form_and_on_the_list_of_a_saw(open_page, scheme):
    page = open_page(390, 844, color_scheme=scheme)
    take_in_a_saw(page)
    violations = list(Axe().run(page)["violations"])
    page.get_by_label("Name").press("Enter")
    expect(page.locator("h1").first).to_contain_text("Two-stroke hand-held")
    page.goto(page.url + "/hand-back")
    violations += Axe().run(page)["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in violations] == []
