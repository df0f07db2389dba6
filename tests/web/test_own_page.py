"""“It was something else”, a check of one's own, and their list, as pages."""

import csv
import io
import zipfile

from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding

NEST = {"words": "mouse nest under the shroud", "minutes": "20", "access": "shroud-off", "price": "4"}


def test_the_sheet_leads_to_both_forms(client):
    page = client.get("/jobs/202").text
    assert 'href="/jobs/202/something-else"' in page
    assert 'href="/jobs/202/own-check"' in page


def test_the_odd_findings_of_the_job_are_ticked_beforehand(client, shop):
    record_finding(shop, 202, "spark-tester", "jumps")
    page = client.get("/jobs/202/something-else").text
    assert 'value="fuel-look" checked' in page
    assert "spark-tester" not in page  # it shows nothing wrong


def test_something_else_goes_into_the_pack_and_back_to_the_sheet(client, shop):
    sent = client.post("/jobs/202/something-else", data=NEST | {"outcome": "cured", "explains": "fuel-look"})
    assert (sent.status_code, sent.headers["location"]) == (303, "/jobs/202#next")
    assert job_sheet(shop, 202).events[-1].words == "Put right: mouse nest under the shroud: it works"
    assert "mouse nest under the shroud" in client.get("/own").text


def test_a_refusal_keeps_all_that_was_typed_and_ticked(client):
    sent = client.post("/jobs/202/something-else", data=NEST | {"minutes": "long", "outcome": "not-cured"})
    assert sent.status_code == 422
    assert 'value="long" placeholder="15" aria-invalid="true"' in sent.text
    assert 'value="shroud-off" checked' in sent.text
    assert 'value="not-cured" checked' in sent.text
    assert 'value="fuel-look" checked' not in sent.text  # it was unticked


def test_not_tried_is_ticked_while_nothing_may_be_started(client):
    assert 'value="not-tried" checked' in client.get("/jobs/201/something-else").text
    assert 'value="cured" checked' in client.get("/jobs/202/something-else").text


def test_an_own_check_is_kept_changed_and_taken_back(client, shop):
    typed = {"words": "Mirror", "cause-0": "cooling-blocked", "how-0": "nearly always", "result": "no"}
    refused = client.post("/jobs/202/own-check", data=typed)
    assert refused.status_code == 422
    assert 'href="#results"' in refused.text
    client.post("/jobs/202/own-check", data=typed | {"result": ["no", "straw"], "runs_engine": "yes"})
    page = client.get("/own/own-mirror").text
    assert 'value="straw"' in page
    assert '<option value="nearly always" selected>' in page
    assert 'name="runs_engine" value="yes" checked' in page
    client.post("/own/own-mirror", data=typed | {"words": "Mirror and torch", "result": ["no", "hay"]})
    assert "Mirror and torch" in client.get("/own").text
    assert client.post("/own/own-mirror/take-back").headers["location"] == "/own"
    assert "taken back" in client.get("/own").text
    assert client.get("/own/own-mirror").status_code == 404


def test_what_was_added_is_given_as_tables_of_a_pack(client):
    client.post("/jobs/202/something-else", data=NEST)
    packed = zipfile.ZipFile(io.BytesIO(client.get("/own/tables.zip").content))
    lines = csv.DictReader(packed.read("walk-behind-mower/causes.csv").decode().splitlines())
    assert [line["id"] for line in lines] == ["own-mouse-nest-under-the-shroud"]


def test_with_nothing_added_the_page_says_how(client):
    assert "It was something else" in client.get("/own").text
    assert client.get("/own/tables.zip").status_code == 404


def test_words_with_tags_in_them_stay_words(client):
    client.post("/jobs/202/something-else", data={"words": "<b>nest</b> & co"})
    page = client.get("/own").text
    assert "<b>nest" not in page
    assert "&lt;b&gt;nest" in page


def test_it_goes_by_tapping_without_scripts(open_page, address, shop):
    page = open_page(390, 844, java_script_enabled=False)
    page.goto(f"{address}/jobs/202")
    page.get_by_role("link", name="It was something else").click()
    page.get_by_label("What it was").fill("wasps in the air box")
    page.get_by_label("shroud off").check()
    page.get_by_role("button", name="That was it").click()
    assert page.url.endswith("/jobs/202#next")
    assert job_sheet(shop, 202).cure.state == "cured"
