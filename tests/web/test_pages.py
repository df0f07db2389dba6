"""Pages without a browser: every page answers, refusals are sentences, headers are strict."""

import io
import re

import pytest
from pypdf import PdfReader

from bellcrank.cli.main import main
from bellcrank.shop.settings import write_settings


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


def test_the_tray_sheet_is_offered_once_there_is_a_way_in(client):
    number = demo_number(client)
    address = f"/jobs/{number}/papers/tray.pdf"
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    assert client.get(f"/jobs/{number}").text.count(f'href="{address}"') == 2  # at the way, and among the papers
    assert client.get(address).content.startswith(b"%PDF-")


def test_the_tray_sheet_of_a_job_without_a_way_in_is_a_sentence(client):
    taken_in = client.post("/take-in", data={"complaint_words": "hunts", "name": "A"}).headers["location"]
    assert "papers/tray.pdf" not in client.get(taken_in).text
    answer = client.get(f"{taken_in}/papers/tray.pdf")
    assert answer.status_code == 422
    assert "Choose the part to get to first" in answer.text


def test_an_unknown_paper_is_a_sentence(client):
    answer = client.get(f"/jobs/{demo_number(client)}/papers/poem.pdf")
    assert answer.status_code == 404
    assert "There is no paper called" in answer.text


def tapped(page, words):
    """The address behind a choice on the numbers bench."""
    return re.search(rf'href="([^"]+)"[^>]*>{re.escape(words)}</a>', page)[1].replace("&amp;", "&")


def test_three_taps_give_a_torque(client):
    page = client.get("/numbers").text
    for words in ("M6", "8.8", "die-cast aluminium"):
        assert "will do" not in page
        page = client.get(tapped(page, words)).text
    assert re.search(r"\d N·m</span>", page)
    assert "will do · <b>computed</b>" in page
    assert "Limited by" in page


def test_a_thread_offers_only_the_marks_it_is_made_with(client):
    page = client.get("/numbers", params={"thread": "#10-24"}).text
    assert ">no mark</a>" in page
    assert ">3 lines, grade 5</a>" not in page
    assert ">10.9</a>" not in page


def test_another_family_of_threads_asks_for_its_own_mark(client):
    page = client.get("/numbers", params={"thread": "M6", "strength": "8.8", "into": "nut"}).text
    assert "strength=8.8" in tapped(page, "M8")
    assert "strength" not in tapped(page, "1/4-20")


JOINT = {"thread": "M6", "strength": "8.8", "into": "cast-aluminium"}


def test_friction_and_the_way_of_tightening_change_the_number(client):
    usual = client.get("/numbers", params=JOINT).text
    by_hand = client.get("/numbers", params={**JOINT, "tightened_by": "hand feel", "friction": "0.2"}).text
    assert "Tightened by hand feel: the clamp scatters ±35%" in by_hand
    assert "Friction 0.2 in the thread" in by_hand
    assert re.search(r"[\d.]+ N·m</span>", usual)[0] != re.search(r"[\d.]+ N·m</span>", by_hand)[0]


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("friction", "slippery", "must be a number like 0.14"),
        ("thread", "M6.5", "M6.5"),
        ("hole", "3 mm", "does not pass"),
        ("into", "plastic", "plastic"),
    ],
)
def test_a_joint_that_cannot_be_is_refused_and_what_was_typed_stays(client, field, typed, said):
    answer = client.get("/numbers", params={**JOINT, "engaged": "11 mm", field: typed})
    assert answer.status_code == 422
    assert said in answer.text
    assert 'value="11 mm"' in answer.text
    assert f'value="{typed}"' in answer.text


def step_with_a_thread(client):
    """A step of the way back with a fastener somebody may work out a torque for: where it stands, and the link."""
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    for step in range(1, 20):
        page = client.get(f"/jobs/{number}/steps", params={"way": "out", "step": step}).text
        link = re.search(r'href="(/numbers\?job=[^"]+)"', page)
        if link:
            return f"/jobs/{number}/steps?way=out&step={step}", link[1].replace("&amp;", "&")
    raise AssertionError("no step has a torque to work out")


def hidden(page):
    """What the button that puts the answer into the job sends."""
    form = re.search(r'action="/numbers/keep">(.*?)</form>', page, re.DOTALL)[1]
    return dict(re.findall(r'name="([^"]+)" value="([^"]*)"', form))


def test_the_answer_goes_into_the_jobs_step_with_its_basis(client):
    step, link = step_with_a_thread(client)
    page = client.get(link).text
    sent = hidden(page)
    assert "<b>Safety joint:</b> use the maker's number" in page
    target = re.search(r"Put ([\d.]+ N·m) into job", page)[1]
    answer = client.post("/numbers/keep", data=sent)
    assert answer.status_code == 303
    assert answer.headers["location"] == step
    kept = client.get(step).text
    assert f"<b>{target}</b>" in kept
    assert "own shop</span> · computed on the numbers bench: " in kept
    assert "friction 0.14, by torque wrench" in kept


def test_a_published_number_is_not_replaced_by_a_computed_one(client):
    step, link = step_with_a_thread(client)
    sent = hidden(client.get(link).text)
    typed = {"fastener": sent["fastener"], "torque": "50 N·m", "basis": "published", "source": "maker's sheet"}
    client.post(f"/jobs/{sent['job']}/torques", data={**typed, "direction": "out", "number": "1"})
    answer = client.post("/numbers/keep", data=sent)
    assert answer.status_code == 422
    assert "50 N·m is published for it" in answer.text
    assert "numbers bench: " not in client.get(step).text


def test_without_a_job_there_is_nothing_to_put_the_answer_into(client):
    assert "/numbers/keep" not in client.get("/numbers", params=JOINT).text
    assert client.post("/numbers/keep", data=JOINT).status_code == 404


@pytest.mark.parametrize("place", [{"job": "abc"}, {"job": "99999"}, {"job": "1", "fastener": "no-such"}])
def test_a_step_that_is_not_there_is_a_sentence(client, place):
    answer = client.get("/numbers", params={**JOINT, **place})
    assert answer.status_code == 404
    assert "There is no" in answer.text


def test_an_answer_that_is_refused_is_not_kept_and_what_was_typed_stays(client):
    step, link = step_with_a_thread(client)
    sent = hidden(client.get(link).text) | {"friction": "9"}
    answer = client.post("/numbers/keep", data=sent)
    assert answer.status_code == 422
    assert "Friction is 9" in answer.text
    assert 'value="9"' in answer.text
    assert "numbers bench" not in client.get(step).text


def test_a_galvanised_screw_is_counted_with_the_thread_that_is_left(client):
    joint = {"thread": "M10", "strength": "8.8", "into": "nut"}
    plain = client.get("/numbers", params=joint).text
    dipped = client.get("/numbers", params={**joint, "galvanised": "yes"}).text
    assert "Hot-dip galvanised, its thread is cut" in dipped
    assert re.search(r"([\d.]+) N·m</span>", dipped)[1] < re.search(r"([\d.]+) N·m</span>", plain)[1]


def test_what_would_widen_a_window_is_said_in_the_shops_unit(client, shop):
    write_settings(shop, {"torque_unit": "in·lb"})
    page = client.get("/numbers", params={"thread": "1/4-20", "strength": "G5", "into": "cast-aluminium"}).text
    assert re.search(r"would lift this limit.*in·lb", page)


def test_what_was_taken_because_it_was_not_told_is_said(client):
    page = client.get("/numbers", params=JOINT).text
    assert "The head was not given: hex is taken." in page


@pytest.mark.parametrize(
    ("path", "taps", "said"),
    [
        ("/numbers/strip", ("M6", "die-cast aluminium", "10 mm"), r"count on.*\d kN \(\d+ lbf\)"),
        ("/numbers/strip", ("1/4-20", "mild steel", "3/8 in"), r"count on.*\d kN \(\d+ lbf\)"),
        ("/numbers/taper", ("1:8", "20 mm", "80 N·m"), r"first slips at.*\d N·m \(\d+ ft·lb\)"),
        (
            "/numbers/key",
            ("606", "20 mm", "key steel (cold-drawn low-carbon)"),
            r"gives way at.*\d N·m \(\d+ to \d+ ft·lb\)",
        ),
        ("/numbers/pull-off", ("60 ft·lb", "1/4-20", "3/8 in"), r"[Ee]nough.*Stop at"),
        ("/numbers/timing", ("overhead valve, about 160 cm³ (generic)", "forward, 60°"), r"60° early.*Does not start"),
        ("/numbers/leak-down", ("70 psi",), r"leaks of.*0\.57 mm²"),
        ("/numbers/compression", ("side valve, about 150 cm³ (generic)", "500 m"), r"\d+ to \d+ psi"),
        ("/numbers/jet", ("2000 m", "0.70 mm"), r"0\.66\d mm instead of 0\.700 mm.*richer"),
        ("/numbers/governor", ("2800 rpm", "2700 rpm"), r"it droops.*3\.7% of rated speed.*If it swings"),
        ("/numbers/spark", ("overhead valve, about 160 cm³ (generic)", "0.75 mm"), r"\d kV.*nothing about timing"),
        ("/numbers/strike", ("hard: a root or a pipe, 45°", "60 ft·lb", "2 kg"), r"The taper slips.*half torque"),
    ],
)
def test_three_taps_answer_every_other_question(client, path, taps, said):
    page = client.get(path).text
    for words in taps:
        assert "<b>computed</b>" not in page
        page = client.get(tapped(page, words)).text
    assert re.search(said, page, re.DOTALL)
    assert "<b>computed</b>" in page


def test_the_page_and_the_terminal_strip_at_the_same_pull(client, capsys):
    page = client.get("/numbers/strip", params={"thread": "M8", "into": "cast-aluminium", "engaged": "12 mm"}).text
    with pytest.raises(SystemExit):
        main(["strip", "--thread", "M8", "--into", "cast-aluminium", "--engaged", "12 mm"])
    low = re.search(r'class="figure">([^<]+)<', page)[1]
    assert f"count on   {low}" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("path", "typed", "said"),
    [
        ("/numbers/strip", {"thread": "M6", "into": "rubber", "engaged": "10 mm"}, "rubber"),
        ("/numbers/taper", {"ratio": "steep", "mean_diameter": "20 mm", "nut_force": "20 kN"}, "is not a taper"),
    ],
)
def test_strip_and_taper_refuse_in_a_sentence_and_what_was_typed_stays(client, path, typed, said):
    answer = client.get(path, params=typed)
    assert answer.status_code == 422
    assert said in answer.text
    for value in typed.values():
        assert f'value="{value}"' in answer.text


def test_the_screws_own_thread_is_judged_when_its_mark_is_told(client):
    typed = {"thread": "M6", "into": "mild-steel", "engaged": "10 mm", "strength": "4.6"}
    assert "own thread is not looked at" not in client.get("/numbers/strip", params=typed).text
    answer = client.get("/numbers/strip", params={**typed, "strength": "7.7"})
    assert answer.status_code == 422
    assert "There is no strength class" in answer.text
