"""Answers of the numbers bench put into a job's step: they stand there with what they were worked out from."""

import html
import re
from urllib.parse import urlencode

import pytest

from .test_pages import demo_number

PULL = {"nut_torque": "60 ft·lb", "bolt": "1/4-20", "engaged": "8 mm"}


def steps_of(client, number, way):
    """The pages of the steps of one way."""
    for step in range(1, 25):
        page = client.get(f"/jobs/{number}/steps", params={"way": way, "step": step}).text
        if f"step {step} of" not in page:
            return
        yield html.unescape(page)


def link_to(client, number, room, way="in", target="key"):
    """The address by which a step asks a question of the numbers bench."""
    client.post(f"/jobs/{number}/target", data={"target": target})
    for page in steps_of(client, number, way):
        found = re.search(rf'href="(/numbers/{room}\?[^"]+)"', page)
        if found:
            return found[1]
    raise AssertionError(f"no step asks for {room}")


def sent(page):
    """What the button that puts the answer into the job sends, and where to."""
    form = re.search(r'action="(/numbers/[^/"]+/keep)">(.*?)</form>', page, re.DOTALL)
    return form[1], dict(re.findall(r'name="([^"]+)" value="([^"]*)"', html.unescape(form[2])))


@pytest.fixture
def kept(client):
    """A pull worked out for the step that draws the flywheel: the job, and where the browser is sent."""
    number = demo_number(client)
    link = link_to(client, number, "pull-off")
    page = client.get(f"{link}&{urlencode(PULL)}").text
    address, typed = sent(page)
    return number, client.post(address, data=typed)


def test_a_pull_stands_in_its_step_with_basis_and_what_it_was_worked_out_from(client, kept):
    _, answer = kept
    assert answer.status_code == 303
    step = html.unescape(client.get(answer.headers["location"]).text)
    assert "flywheel" in re.search(r'<h1 class="step-do">(.*?)</h1>', step)[1]
    shown = re.search(r'<section class="reckoned">(.*?)</section>', step, re.DOTALL)[1]
    assert "Pulling a flywheel" in shown
    assert ">computed</span>" in shown
    assert re.search(r"stop at: .*(in|ft)·lb\) on the centre screw", shown)
    assert "bolts into the flywheel: 1/4-20; full thread engaged: 8 mm; torque that was on the nut: 60 ft·lb" in shown
    assert "not told, so taken: taper: 1:8" in shown


def test_it_is_worked_out_again_from_what_was_told(client, kept):
    _, answer = kept
    step = html.unescape(client.get(answer.headers["location"]).text)
    again = re.search(r'<a href="([^"]+)">Work it out again', step)[1]
    page = html.unescape(client.get(again).text)
    assert 'value="1/4-20"' in page
    assert "Put this into job" in page


def test_another_answer_to_the_same_question_takes_the_place_of_the_first(client, kept):
    number, first = kept
    link = link_to(client, number, "pull-off")
    page = client.get(f"{link}&{urlencode({**PULL, 'engaged': '12 mm'})}").text
    address, typed = sent(page)
    client.post(address, data=typed)
    step = client.get(first.headers["location"]).text
    assert step.count('<section class="reckoned">') == 1
    assert "12 mm" in step


def test_it_is_in_what_happened_and_can_be_taken_back(client, kept):
    number, answer = kept
    sheet = html.unescape(client.get(f"/jobs/{number}").text)
    assert "worked out for “Put the nut on by a few turns" in sheet
    client.post(f"/jobs/{number}/take-back")
    assert "reckoned" not in client.get(answer.headers["location"]).text


def test_the_machine_tells_its_nut_and_the_torque_typed_for_it(client):
    number = demo_number(client)
    link = link_to(client, number, "taper")
    typed = {"fastener": "flywheel-nut", "torque": "52 ft·lb", "basis": "published", "source": "maker's card"}
    client.post(f"/jobs/{number}/torques", data={**typed, "direction": "out", "number": "1"})
    page = client.get(link).text
    assert re.search(r'name="nut"[^>]*value="5/8-18"', page)
    assert re.search(r'name="nut_torque"[^>]*value="52 ft·lb"', page)


def test_a_thread_that_is_tightened_into_a_part_can_be_asked_what_strips_it(client):
    number = demo_number(client)
    page = client.get(link_to(client, number, "strip", "out")).text
    assert re.search(r'name="thread"[^>]*value="[^"]+"', page)


@pytest.mark.parametrize(
    ("room", "target", "typed", "said"),
    [
        ("governor", "carburettor", {"no_load": "3150 rpm", "loaded": "3000 rpm"}, "it droops 5.0% of rated speed"),
        ("spark", "plug", {"engine": "overhead-valve-160", "gap": "0.75 mm"}, "the plug needs up to"),
    ],
)
def test_governor_and_spark_are_asked_by_their_steps_and_stand_there(client, room, target, typed, said):
    number = demo_number(client)
    page = client.get(f"{link_to(client, number, room, target=target)}&{urlencode(typed)}").text
    address, told = sent(page)
    answer = client.post(address, data=told)
    assert answer.status_code == 303
    assert said in html.unescape(client.get(answer.headers["location"]).text)


def test_nothing_is_kept_without_a_job_or_without_an_answer(client):
    assert "/keep" not in client.get("/numbers/pull-off", params=PULL).text
    assert client.post("/numbers/pull-off/keep", data=PULL).status_code == 404
    place = {"job": str(demo_number(client)), "operation": "flywheel-off"}
    answer = client.post("/numbers/pull-off/keep", data={**place, "bolt": "1/4-20"})
    assert answer.status_code == 422
    assert "Answer the questions first" in answer.text


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ({"job": "abc", "operation": "flywheel-off"}, "There is no job"),
        ({"job": "99999", "operation": "flywheel-off"}, "no job"),
        ({"job": "0", "operation": "flywheel-off"}, "There is no job"),
    ],
)
def test_a_place_that_is_not_there_is_a_sentence(client, place, said):
    answer = client.get("/numbers/pull-off", params=place)
    assert answer.status_code == 404
    assert said in answer.text


def test_a_step_that_is_not_there_is_a_sentence(client):
    answer = client.get("/numbers/key", params={"job": demo_number(client), "operation": "no-such"})
    assert answer.status_code == 404
    assert "There is no step “no-such”" in answer.text


def test_a_number_that_is_not_there_is_a_sentence(client):
    answer = client.get("/numbers/weather")
    assert answer.status_code == 404
    assert "There is no number called “weather”" in answer.text


@pytest.mark.parametrize(
    ("room", "typed", "said"),
    [
        ("key", {"key": "999", "shaft": "20 mm", "key_material": "key-steel"}, "There is no Woodruff key"),
        ("key", {"key": "606", "shaft": "20 mm", "key_material": "cheese"}, "cheese"),
        ("pull-off", {**PULL, "bolts": "seven"}, "“seven” bolts"),
        ("pull-off", {**PULL, "bolt": "1/4-21"}, "1/4-21"),
        ("pull-off", {**PULL, "state": "wet"}, "“wet”"),
        ("strike", {"stop_angle": "a bit", "nut_torque": "60 ft·lb", "flywheel_mass": "2 kg"}, "a bit"),
        (
            "taper",
            {"ratio": "1:8", "mean_diameter": "20 mm", "nut_torque": "60 ft·lb", "nut_force": "9 kN"},
            "not both",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_what_was_typed_stays(client, room, typed, said):
    answer = client.get(f"/numbers/{room}", params=typed)
    assert answer.status_code == 422
    assert said in answer.text
    for value in typed.values():
        assert f'value="{html.escape(value)}"' in answer.text


@pytest.mark.parametrize(
    ("room", "typed"),
    [
        ("pull-off", {"bolt": "M6", "engaged": "10 mm", "force_low": "6 kN", "force_high": "18 kN"}),
        ("strike", {"stop_time": "0.005 s", "nut_torque": "60 ft·lb", "flywheel_inertia": "0.01"}),
        ("key", {"key_length": "20 mm", "shaft": "20 mm", "key_material": "key-steel"}),
        ("taper", {"ratio": "1:8", "mean_diameter": "20 mm", "nut_force": "20 kN"}),
    ],
)
def test_what_is_known_another_way_may_be_typed_instead(client, room, typed):
    page = client.get(f"/numbers/{room}", params=typed)
    assert page.status_code == 200
    assert "<b>computed</b>" in page.text
