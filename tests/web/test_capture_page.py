"""What is found at a step and what is recorded, tapped on the page."""

import io
import re
import tomllib
import zipfile

import pytest
from PIL import Image

from bellcrank.knowledge.assembly_text import assembly
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.recording import recording

HERE = "/jobs/202/steps?way=in&step=6"
BOLTS = {"at": "filter-base-off", "direction": "in", "number": "6", "fastener": "filter-base-bolts"}


def keep(client, **fields):
    return client.post("/jobs/202/capture", data={**BOLTS, **fields})


def found(shop, number=202):
    return [one.words for one in job_sheet(shop, number).work.captured.found]


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"what": "length", "length": "25", "which": "2"}, "filter base bolts, number 2 of 2: 25 mm long, not 18 mm"),
        ({"what": "missing", "missing": "1"}, "1 of 2 filter base bolts missing"),
        ({"what": "note", "words": "lock washer left"}, "lock washer left"),
    ],
)
def test_what_is_kept_stands_at_its_step_and_one_stays_there(client, shop, fields, words):
    answer = keep(client, **fields)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{HERE}#found")
    assert found(shop) == [words]
    assert words in client.get(HERE).text


def test_a_seized_bolt_goes_on_with_the_step_that_is_next(client, shop):
    assert keep(client, what="condition", condition="seized").headers["location"] == "/jobs/202/steps"
    assert found(shop) == ["filter base bolts: seized"]


def test_kept_for_every_machine_it_says_which(client, shop):
    assert "Keep it for every Saltmarsh Avocet 53" in client.get(HERE).text
    keep(client, what="length", length="25", for_all="yes")
    assert "kept for every Saltmarsh Avocet 53" in found(shop)[0]
    page = client.get("/own/models").text
    (number,) = re.findall(r"/own/models/(\d+)/take-back", page)
    assert client.post(f"/own/models/{number}/take-back").status_code == 303
    assert "/take-back" not in client.get("/own/models").text


def test_what_was_found_is_taken_back_at_its_step(client, shop):
    keep(client, what="note", words="lock washer left")
    entry = job_sheet(shop, 202).work.captured.found[0].entry
    keep(client, what="take-back", entry=str(entry))
    assert found(shop) == []


def test_a_photo_at_a_step_is_shown_on_the_way_back_too(client):
    picture = io.BytesIO()
    Image.new("RGB", (60, 40), "teal").save(picture, "JPEG")
    files = {"photo": ("bolts.jpg", picture.getvalue(), "image/jpeg")}
    client.post("/jobs/202/capture", data={**BOLTS, "what": "photo"}, files=files)
    back = next(s.number for s in job_sheet_steps_out(client) if s.operation == "filter-base-off")
    for address in (HERE, f"/jobs/202/steps?way=out&step={back}"):
        assert 'alt="Photo taken at this step"' in client.get(address).text


def job_sheet_steps_out(client):
    return job_sheet(client.app.state.shop, 202).work.steps_out


def test_a_refusal_stands_at_the_step_with_what_was_typed(client, shop):
    answer = keep(client, what="length", length="thumb")
    assert answer.status_code == 422
    assert "cannot be read as a number" in answer.text
    assert 'value="thumb"' in answer.text
    assert found(shop) == []


def test_the_way_back_asks_for_a_new_bolt_where_one_is_missing(client):
    keep(client, what="missing", missing="1")
    back = next(s.number for s in job_sheet_steps_out(client) if s.operation == "filter-base-off")
    assert (
        "1 of 2 is missing: put a new one in, M5, 18 mm long."
        in client.get(f"/jobs/202/steps?way=out&step={back}").text
    )


def test_a_machine_is_recorded_from_the_plug_lead_to_a_kept_model(client, shop):
    assert "/jobs/201/record" in client.get("/jobs/201").text
    assert 'id="part"' not in client.get("/jobs/201/record").text
    refused = client.post("/jobs/201/record", data={"part": "belt cover"})
    assert (refused.status_code, recording(shop, 201)) == (422, None)
    client.post("/jobs/201/record/lead-off")
    answer = client.post(
        "/jobs/201/record",
        data={"part": "belt cover", "count": "3", "thread": "M6", "length": "16", "note": "one is stiff"},
    )
    assert answer.headers["location"] == "/jobs/201/record"
    client.post("/jobs/201/record", data={"part": "belt", "aside": "yes"})
    assert [one.part for one in recording(shop, 201).operations] == ["plug-lead", "belt-cover", "belt"]
    assert job_sheet(shop, 201).work.on_the_tray == 3
    assert found(shop, 201) == ["one is stiff"]
    assert "Swing the belt back" in client.get("/jobs/201/steps").text
    assert client.post("/jobs/201/record/keep").headers["location"] == "/own/models"
    archive = zipfile.ZipFile(io.BytesIO(client.get("/own/models.zip").content))
    (name,) = archive.namelist()
    read = assembly(name, tomllib.loads(archive.read(name).decode()))
    assert read.operations == recording(shop, 201).operations


def test_the_last_recorded_step_is_taken_back_with_one_tap(client, shop):
    client.post("/jobs/201/record/lead-off")
    client.post("/jobs/201/record", data={"part": "belt cover"})
    client.post("/jobs/201/record/take-back")
    assert [one.part for one in recording(shop, 201).operations] == ["plug-lead"]


def test_a_refused_step_keeps_what_was_typed(client):
    client.post("/jobs/201/record/lead-off")
    answer = client.post("/jobs/201/record", data={"part": "belt cover", "thread": "thick", "where": "in front"})
    assert answer.status_code == 422
    assert 'value="belt cover"' in answer.text
    assert 'value="in front"' in answer.text


def test_every_step_kept_on_a_phone_brings_its_own_forms(client, shop):
    page = client.get("/jobs/202/way").text
    work = job_sheet(shop, 202).work
    for step in (*work.steps_in, *work.steps_out):
        said = f'name="at" value="{step.operation}"><input type="hidden" name="direction" value="{step.direction}">'
        assert f'{said}<input type="hidden" name="number" value="{step.number}">' in page
