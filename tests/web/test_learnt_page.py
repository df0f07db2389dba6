"""The page of what closed jobs taught, without a browser and with one."""

import json
import re

from playwright.sync_api import expect

from bellcrank.shop.fill_learnt import learnt_sheet


def upload(client, data, do="take", name="reeve.json"):
    return client.post("/learnt/counts", data={"do": do}, files={"file": (name, data, "application/json")})


def test_it_shows_what_moved_and_how_right_it_was(client):
    page = client.get("/learnt").text
    assert "48 closed jobs, of 48 the cause is known" in page
    assert "water in the fuel" in page
    assert "How right it was" in page
    assert page.count('class="figure-reliability"') == 2
    assert "These do not change by themselves" in page
    assert 'class="basis basis-own-shop"' in page


def test_every_page_leads_there(client):
    assert '<a href="/learnt">' in client.get("/").text


def test_own_counts_are_a_file_to_take_along(client):
    answer = client.get("/learnt/counts.json")
    assert answer.headers["content-disposition"] == 'attachment; filename="bellcrank-counts-walk-behind-mower.json"'
    assert json.loads(answer.text)["kind"] == "walk-behind-mower"


def test_a_file_is_looked_at_taken_in_and_taken_back(client, shop):
    own = client.get("/learnt/counts.json").text.encode()
    looked = upload(client, own, "look").text
    assert "It would bring 48 jobs with a known cure" in looked
    assert learnt_sheet(shop).imports == ()
    text = re.search(r'name="text" value="([^"]*)"', looked)[1].replace("&#34;", '"')
    taken = client.post("/learnt/counts", data={"do": "take", "name": "reeve.json", "text": text})
    assert taken.status_code == 303
    assert "reeve.json" in client.get(taken.headers["location"]).text
    number = str(learnt_sheet(shop).imports[0].id)
    assert client.post("/learnt/take-back", data={"kind": "walk-behind-mower", "number": number}).status_code == 303
    assert learnt_sheet(shop).imports[0].taken_back


def test_rubbish_is_a_sentence_at_the_field(client):
    answer = upload(client, b"hello")
    assert answer.status_code == 422
    assert "This file is no file of counts" in answer.text
    assert 'aria-invalid="true"' in answer.text
    nothing = client.post("/learnt/counts", data={"do": "take"})
    assert nothing.status_code == 422
    assert "No file was chosen" in nothing.text
    none = client.post("/learnt/take-back", data={"number": "²"})
    assert none.status_code == 422
    assert client.get("/learnt", params={"kind": "tractor"}).status_code == 404


def test_a_cured_job_asks_which_it_was_and_how_long_it_took(client):
    client.post("/jobs/202/repaired", data={"repair": "clean-carburettor", "outcome": "cured"})
    page = client.get("/jobs/202").text
    assert "mends several. Which was it?" in page
    assert client.post("/jobs/202/was", data={"cause": "idle-circuit-blocked"}).status_code == 303
    assert "It was: <b>idle circuit blocked</b>" in client.get("/jobs/202").text
    refused = client.post("/jobs/202/was", data={"minutes": "an hour"})
    assert refused.status_code == 422
    assert 'value="an hour"' in refused.text
    client.post("/jobs/202/was", data={"minutes": "25"})
    assert 'value="25"' in client.get("/jobs/202").text


def test_nothing_sticks_out_and_everything_is_big_enough_for_a_thumb(open_page, address):
    for width, height in ((390, 844), (1024, 768)):
        page = open_page(width, height, color_scheme="dark")
        page.goto(f"{address}/learnt")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        small = page.evaluate(
            "[...document.querySelectorAll('main a, main button, main summary, main input:not([type=hidden])')]"
            ".map(e => e.getBoundingClientRect()).filter(r => r.height && r.height < 48).length"
        )
        assert small == 0


def test_a_file_is_chosen_and_taken_in_by_tapping(open_page, address, shop, tmp_path, client):
    file = tmp_path / "reeve.json"
    file.write_text(client.get("/learnt/counts.json").text, "utf-8")
    page = open_page(390, 844)
    page.goto(f"{address}/learnt")
    page.set_input_files("#file", file)
    page.get_by_role("button", name="Only look").click()
    page.get_by_role("button", name="Take them in").click()
    page.get_by_role("button", name="take back reeve.json").click()
    expect(page.get_by_text("taken back")).to_be_visible()
    assert learnt_sheet(shop).imports[0].taken_back
