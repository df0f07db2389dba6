"""Pages without a browser: every page answers, refusals are sentences, headers are strict."""

import io
import re

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from bellcrank.web.app import create_app


@pytest.fixture
def client(shop):
    with TestClient(create_app(shop, ("testserver",)), follow_redirects=False) as made:
        yield made


def demo_number(client):
    return int(re.search(r'href="/jobs/(\d+)"', client.get("/").text)[1])


def test_every_page_answers(client):
    number = demo_number(client)
    for path in ("/", "/take-in", "/numbers", "/settings", f"/jobs/{number}", f"/jobs/{number}/checks"):
        answer = client.get(path)
        assert answer.status_code == 200, path
        assert "<h1" in answer.text, path


def test_half_a_story_is_enough(client):
    answer = client.post("/take-in", data={"complaint_words": "it just will not go"})
    assert answer.status_code == 303
    page = client.get(answer.headers["location"])
    assert "it just will not go" in page.text
    assert "What did it come in with?" in page.text


def test_no_complaint_is_refused_and_what_was_typed_stays(client):
    answer = client.post("/take-in", data={"name": "Żofia 王 Ω", "agreed_limit": "80"})
    assert answer.status_code == 422
    assert "The complaint is missing" in answer.text
    assert "Żofia 王 Ω" in answer.text
    assert 'value="80"' in answer.text


@pytest.mark.parametrize("number", ["999999", "0", "-3", "abc", "9223372036854775808"])
def test_an_unknown_job_is_a_sentence(client, number):
    answer = client.get(f"/jobs/{number}")
    assert answer.status_code == 404
    assert "Traceback" not in answer.text
    assert "job" in answer.text.lower()


def test_a_text_file_called_jpg_is_refused_and_the_story_stays(client):
    files = {"photo": ("deck.jpg", b"this is no picture", "image/jpeg")}
    answer = client.post("/take-in", data={"complaint_words": "hunts since spring"}, files=files)
    assert answer.status_code == 422
    assert "not a picture" in answer.text
    assert "hunts since spring" in answer.text


def test_a_photo_of_40_mb_is_refused_in_a_sentence(client):
    number = demo_number(client)
    files = {"photo": ("deck.jpg", b"\xff\xd8\xff" + b"0" * (40 * 2**20), "image/jpeg")}
    answer = client.post(f"/jobs/{number}/photos", files=files)
    assert answer.status_code == 422
    assert "40 MB" in answer.text
    assert "25 MB" in answer.text


def test_pounds_are_no_torque(client):
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    data = {"fastener": "flywheel-nut", "torque": "55 lbs", "basis": "published", "source": "p. 4", "direction": "out"}
    answer = client.post(f"/jobs/{number}/torques", data={**data, "number": "4"})
    assert answer.status_code == 422
    assert "is a mass, not a torque" in answer.text
    assert "55 lbs" in answer.text


def test_a_published_torque_that_does_not_sit_with_the_joint_is_asked_about(client):
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    data = {
        "fastener": "flywheel-nut",
        "torque": "60 in·lb",
        "basis": "published",
        "source": "p. 4",
        "direction": "out",
    }
    assert client.post(f"/jobs/{number}/torques", data={**data, "number": "1"}).status_code == 303
    steps = (client.get(f"/jobs/{number}/steps", params={"way": "out", "step": step}).text for step in range(1, 9))
    assert any("In doubt." in page and "Was 60 ft·lb (81 N·m) meant?" in page for page in steps)


def test_a_negative_length_is_refused(client):
    answer = client.get("/numbers", params={"thread": "M6", "engaged": "-10 mm"})
    assert answer.status_code == 422
    assert "it must be above zero" in answer.text


def test_an_open_hard_item_keeps_a_machine_from_being_ready(client):
    number = demo_number(client)
    answer = client.post(f"/jobs/{number}/hand-back", data={"ready": "yes"})
    assert answer.status_code == 422
    assert "cannot be marked ready" in answer.text


def test_foreign_hosts_and_origins_change_nothing(client):
    assert client.get("/", headers={"host": "evil.example"}).status_code == 421
    assert client.post("/take-in", headers={"origin": "http://evil.example"}).status_code == 403
    assert client.post("/take-in", headers={"sec-fetch-site": "cross-site"}).status_code == 403


def test_headers_keep_the_page_to_itself(client):
    headers = client.get("/").headers
    assert "default-src 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"] == "no-store"


def test_hostile_names_come_out_as_letters(client):
    name = "<script>alert(1)</script>"
    answer = client.post("/take-in", data={"complaint_words": "hunts", "name": name})
    page = client.get(answer.headers["location"]).text
    assert name not in page
    assert "&lt;script&gt;" in page


@pytest.mark.parametrize(("what", "size", "points"), [("job-sheet", "a4", 842), ("tag", "letter", 792)])
def test_papers_come_in_the_size_asked_for(client, what, size, points):
    answer = client.get(f"/jobs/{demo_number(client)}/papers/{what}.pdf", params={"size": size})
    assert answer.headers["content-type"] == "application/pdf"
    assert round(float(PdfReader(io.BytesIO(answer.content)).pages[0].mediabox.height)) == points


def test_an_unknown_paper_is_a_sentence(client):
    answer = client.get(f"/jobs/{demo_number(client)}/papers/poem.pdf")
    assert answer.status_code == 404
    assert "There is no paper called" in answer.text
