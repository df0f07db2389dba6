"""Somebody's own hand, measured on the page, and what it does in the steps of a job."""

import html
import json
import re

import pytest

from bellcrank.both_systems import show_torque
from bellcrank.cli.main import main
from bellcrank.shop.hand import record_readings
from bellcrank.shop.settings import write_settings

from .test_numbers_into_steps import steps_of
from .test_pages import demo_number

BY_HAND = ("6 N·m", "7 N·m", "7 N·m", "8 N·m", "7 N·m")  # by hand, in the docstring of hand_on: 3.9 to 10.1 N·m
ON_M5 = {"person": "Oda", "thread": "M5", "unit": "N·m"}


def keep(client, reading, **more):
    return client.post("/numbers/hand", data={**ON_M5, "reading": reading, **more})


def test_five_readings_give_a_window_and_until_then_how_many_are_there(client):
    for count, reading in enumerate(BY_HAND):
        page = client.get("/numbers/hand", params=ON_M5).text
        assert f"({count} of 5)" in page
        assert "Set a torque wrench low" in page
        assert keep(client, reading).status_code == 303
    page = client.get("/numbers/hand", params=ON_M5).text
    assert "3.9 to 10.1 N·m" in page
    assert "measured, 5 readings" in page


def test_readings_that_promise_nothing_say_what_to_do(client):
    for reading in ("4 N·m", "16 N·m", "10 N·m", "5 N·m", "14 N·m"):
        assert keep(client, reading).status_code == 303
    page = client.get("/numbers/hand", params=ON_M5).text
    assert "5 of them promise no window. Take more readings" in page
    assert 'class="plate answer"' not in page


def test_a_bare_number_is_in_the_unit_that_was_chosen(client):
    keep(client, "60", unit="in·lb")
    assert "60 in·lb" in client.get("/numbers/hand", params=ON_M5).text


def test_a_form_sent_twice_keeps_one_reading_and_the_next_equal_one_counts(client):
    def seen():
        return re.search(r'name="after" value="(\d+)"', client.get("/numbers/hand", params=ON_M5).text)[1]

    shown = seen()
    assert keep(client, "7", after=shown).status_code == 303
    assert keep(client, "7", after=shown).status_code == 303
    assert "(1 of 5)" in client.get("/numbers/hand", params=ON_M5).text
    keep(client, "7", after=seen())
    assert "(2 of 5)" in client.get("/numbers/hand", params=ON_M5).text


def test_everyones_threads_stand_beneath_and_lead_there(client):
    keep(client, "7 N·m")
    page = html.unescape(client.get("/numbers/hand", params={"person": "Ina", "thread": "M6"}).text)
    assert page.index("<h2>Ina's other threads</h2>") < page.index("<h2>Oda's hand</h2>")
    address, says = re.search(r'Oda\'s hand</h2>.*?href="([^"]+)">M5×0\.8</a> ([^<]+)</li>', page, re.S).groups()
    assert says == "1 of 5 readings"
    assert "(1 of 5)" in client.get(address).text


def test_what_is_known_of_another_hand_is_never_called_your_hand(client, shop):
    record_readings(shop, "M5", BY_HAND, person="Oda")
    page = html.unescape(client.get("/numbers/hand", params={"person": "Ina", "thread": "M6"}).text)
    assert "3.9 to 10.1 N·m, 5 readings" in page
    assert "your hand M5" not in page


def rows(page):
    """The rows of the readings: what was typed, and the number its button sends, "" without one."""
    listed = re.search(r'<h2>Readings of .*?<ul class="history readings">(.*?)</ul>', page, re.S)
    found = re.findall(r"<li[^>]*>(.*?)</li>", listed[1], re.S) if listed else []
    return [
        (re.search(r"<b>(.*?)</b>", one)[1], "".join(re.findall(r'"reading_id" value="(\d+)"', one))) for one in found
    ]


def test_a_reading_is_taken_back_and_keeps_its_place_struck_through(client):
    keep(client, "6 N·m")
    keep(client, "7 N·m")
    before = rows(client.get("/numbers/hand", params=ON_M5).text)
    answer = client.post("/numbers/hand/take-back", data={**ON_M5, "reading_id": before[0][1]})
    assert answer.status_code == 303
    page = client.get(answer.headers["location"]).text
    assert rows(page) == [("6 N·m", ""), before[1]]
    assert '<li class="gone"><b>6 N·m</b>' in page
    assert "(1 of 5)" in page


def test_a_thumb_that_bounces_on_take_back_takes_one_reading(client):
    for reading in ("6 N·m", "7 N·m", "8 N·m"):
        keep(client, reading)
    _, (_, second), _ = rows(client.get("/numbers/hand", params=ON_M5).text)
    for _ in range(2):  # the same button twice, before the page came back
        assert client.post("/numbers/hand/take-back", data={**ON_M5, "reading_id": second}).status_code == 303
    page = client.get("/numbers/hand", params=ON_M5).text
    assert "(2 of 5)" in page
    assert [number for _, number in rows(page)][1] == ""  # and no other button came under the thumb


@pytest.mark.parametrize("number", ["", "abc", "-1", "99999999999", "987654"])
def test_a_reading_that_is_not_there_takes_no_other_back(client, number):
    keep(client, "6 N·m")
    answer = client.post("/numbers/hand/take-back", data={**ON_M5, "reading_id": number})
    assert answer.status_code == 422
    assert "Not taken" in answer.text
    assert "(1 of 5)" in client.get("/numbers/hand", params=ON_M5).text


def test_a_name_beyond_all_length_is_refused_at_its_field(client):
    answer = client.get("/numbers/hand", params={"person": "K" * 201, "thread": "M5"})
    assert answer.status_code == 422
    assert f'value="{"K" * 201}" aria-invalid="true"' in answer.text


def test_a_thread_that_is_none_is_refused_before_its_reading(client):
    answer = keep(client, "7", thread="M5.3")
    assert answer.status_code == 422
    assert 'value="M5.3" aria-invalid="true"' in answer.text


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        ("", "There is no reading to keep"),
        ("a lot", "“a lot” cannot be read"),
        ("-3", "must be above zero"),
        ("900 N·m", "900"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_and_what_was_typed_stays(client, reading, said):
    answer = keep(client, reading)
    assert answer.status_code == 422
    assert said in answer.text
    assert f'value="{reading}"' in answer.text
    assert "(0 of 5)" in client.get("/numbers/hand", params=ON_M5).text


def test_a_hand_is_held_against_what_is_wanted(client):
    for reading in BY_HAND:
        keep(client, reading)
    page = html.unescape(client.get("/numbers/hand", params={**ON_M5, "wanted": "5 N·m"}).text)
    assert "too hard: 7.0 N·m where 5.0 N·m is wanted" in page
    answer = client.get("/numbers/hand", params={**ON_M5, "wanted": "much"})
    assert answer.status_code == 422
    assert 'value="much"' in answer.text


def test_a_thread_that_is_none_is_refused(client):
    answer = client.get("/numbers/hand", params={"person": "Oda", "thread": "M5.3"})
    assert answer.status_code == 422
    assert 'value="M5.3"' in answer.text


def test_without_a_mechanic_it_asks_whose_hand(client, shop):
    write_settings(shop, {"mechanic": ""})
    page = client.get("/numbers/hand").text
    assert "Whose hand" in page
    assert "The wrench showed" not in page


def test_the_page_and_the_terminal_tell_the_same_window(client, shop, capsys):
    record_readings(shop, "M5", BY_HAND, person="Oda")
    with pytest.raises(SystemExit):
        main(["--data", str(shop.storage.path.parent), "hand", "--person", "Oda"])
    assert "3.9 to 10.1 N·m" in capsys.readouterr().out
    assert "3.9 to 10.1 N·m" in client.get("/numbers/hand", params=ON_M5).text


def test_the_steps_say_what_the_mechanics_hand_does(client):
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    back = " ".join(steps_of(client, number, "out"))
    assert re.search(r"By Ina's hand it (probably )?gets [\d.]+ to [\d.]+ N·m", back)


def test_page_terminal_and_json_say_the_same_of_the_hand_in_a_step(client, shop, capsys):
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    pages = html.unescape(" ".join(steps_of(client, number, "out")))

    def told(*options):
        with pytest.raises(SystemExit):
            main(["--data", str(shop.storage.path.parent), "steps", str(number), *options])
        return capsys.readouterr().out

    steps = json.loads(told("--json"))["work"]["steps_out"]
    by_hand = {line["by_hand"] for step in steps for line in step["fasteners"]} - {""}
    assert by_hand
    text = " ".join(told().split())
    for sentence in by_hand:
        assert f'<p class="by-hand">{sentence}</p>' in pages
        assert f"hand: {sentence}" in text


def test_a_safety_joint_is_for_the_wrench(client, shop):
    for thread in ("1/2-13", "9/16-18", "3/4-10"):
        record_readings(shop, thread, ("50 N·m", "55 N·m", "52 N·m", "54 N·m", "51 N·m"), person="Ina")
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    nut = next(
        page for page in steps_of(client, number, "out") if "× </b> flywheel nut" in page or "flywheel nut <" in page
    )
    assert "This is a safety joint: use the torque wrench." in nut


JOINT = {"thread": "M6", "strength": "8.8", "into": "cast-aluminium"}


def test_a_torque_counts_with_the_measured_hand(client):
    page = client.get("/numbers", params=JOINT).text
    assert "by Ina&#39;s own hand, as measured" in page
    by_hand = html.unescape(client.get("/numbers", params={**JOINT, "tightened_by": "own hand"}).text)
    assert "By your hand M6×1 gets" in by_hand
    assert "scatters ±" in by_hand


def test_the_page_and_the_terminal_count_the_same_torque_with_a_hand(client, shop, capsys):
    page = client.get("/numbers", params={**JOINT, "tightened_by": "own hand"}).text
    options = ["--thread", "M6", "--class", "8.8", "--into", "cast-aluminium", "--hand", "Ina", "--json"]
    with pytest.raises(SystemExit):
        main(["--data", str(shop.storage.path.parent), "torque", *options])
    answer = json.loads(capsys.readouterr().out)
    assert f'<span class="figure">{show_torque(answer["torque_nm"], "N·m")}</span>' in page


def test_a_hand_never_measured_on_that_thread_is_refused(client):
    answer = client.get("/numbers", params={**JOINT, "thread": "M12", "tightened_by": "own hand"})
    assert answer.status_code == 422


def test_a_torque_by_the_measured_hand_says_so_where_it_is_kept(client):
    number = demo_number(client)
    client.post(f"/jobs/{number}/target", data={"target": "key"})
    place = {"job": str(number), "fastener": "shroud-bolts-long", "way": "out", "step": "1"}
    answer = client.post("/numbers/keep", data={**JOINT, **place, "tightened_by": "own hand"})
    assert answer.status_code == 303, html.unescape(answer.text)
    assert "by hand feel, as measured" in " ".join(steps_of(client, number, "out"))
