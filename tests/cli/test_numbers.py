"""Answers of the numbers bench put into a job's step from the terminal: listed, told again, and taken back."""

import html
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.cli.conftest import Run

from bellcrank.bootstrap import open_shop
from bellcrank.cli.numbers import told_from
from bellcrank.errors import NotUnderstood
from bellcrank.shop.demo import load_demo
from bellcrank.shop.rooms import ROOMS
from bellcrank.web.app import create_app

STEP = ("numbers", "201", "flywheel-off")
KEY = ("key=606", "shaft=20 mm", "key-material=zinc-3")
TOLD = {
    "strip": ("thread=M6", "into=die-cast aluminium", "engaged=10 mm"),
    "taper": ("ratio=1:8", "mean_diameter=20 mm", "nut_torque=60 ft·lb"),
    "key": KEY,
    "pull-off": ("nut-torque=60 ft·lb", "bolt=1/4-20", "engaged=8 mm"),
    "strike": ("stop-angle=45 °", "nut-torque=60 ft·lb", "flywheel-mass=2 kg"),
    "timing": ("engine=overhead-valve-160", "slip=-60 °"),
    "leak-down": ("reading=70 psi",),
    "compression": ("engine=side-valve-150", "height=1500 m"),
    "jet": ("height=1500 m", "jet=0.70 mm"),
    "governor": ("no-load=3150 rpm", "loaded=2900 rpm"),
    "spark": ("engine=overhead-valve-160", "gap=0.75 mm"),
    "cord": ("engine=overhead-valve-160", "jerks=3", "of=10"),
}


def tells(told: tuple[str, ...]) -> list[str]:
    return [word for one in told for word in ("--tell", one)]


@pytest.fixture
def ask(run: Run, tmp_path: Path) -> Any:
    """The demo shop, answering in JSON."""
    shop = open_shop(tmp_path / "shop")
    load_demo(shop)
    shop.close()

    def answer(*words: str) -> Any:
        outcome = run(*words, "--json")
        assert outcome.code == 0, outcome.everything
        return json.loads(outcome.out)

    return answer


def test_every_question_of_the_numbers_bench_has_an_example_here() -> None:
    assert set(TOLD) == set(ROOMS)


@pytest.mark.parametrize("room", TOLD)
def test_every_answer_goes_into_a_step_with_basis_and_what_it_was_worked_out_from(ask: Any, room: str) -> None:
    found = ask(*STEP, room, *tells(TOLD[room]))
    (standing,) = found["answers"]
    assert (standing["entry"], standing["operation"]) == (found["recorded"], "flywheel-off")
    assert standing["answer"]["room"] == room
    assert standing["answer"]["basis"] == "computed"
    assert standing["answer"]["said"]
    for one in TOLD[room]:
        assert one.partition("=")[2] in standing["answer"]["told"]
    assert ask("numbers", "201")["answers"] == found["answers"]


def test_what_was_put_in_at_the_terminal_stands_on_the_page_of_the_step(ask: Any, run: Run, tmp_path: Path) -> None:
    ask("steps", "201", "--to", "key")
    (standing,) = ask(*STEP, "key", *tells(KEY))["answers"]
    text = " ".join(run("numbers", "201").out.split())
    shop = open_shop(tmp_path / "shop")
    with TestClient(create_app(shop, ("testserver",))) as client:
        pages = (client.get("/jobs/201/steps", params={"way": "in", "step": str(step)}).text for step in range(1, 25))
        page = next(one for one in map(html.unescape, pages) if 'class="reckoned"' in one)
    shop.close()
    for words in (standing["answer"]["said"], *standing["answer"]["sentences"], standing["answer"]["told"]):
        assert words in page
        assert words in text


def test_a_second_answer_takes_the_place_of_the_first_and_the_same_one_is_kept_once(ask: Any) -> None:
    first = ask(*STEP, "key", *tells(KEY))["recorded"]
    assert ask(*STEP, "key", *tells(KEY))["recorded"] == first
    other = ask(*STEP, "key", *tells(("key=605", *KEY[1:])))
    assert other["recorded"] != first
    assert [one["entry"] for one in other["answers"]] == [other["recorded"]]


def test_an_answer_is_taken_back_by_its_step_or_by_its_entry(ask: Any) -> None:
    kept = ask(*STEP, "key", *tells(KEY))["recorded"]
    gone = ask(*STEP, "key", "--take-back")
    assert (gone["taken_back"], gone["answers"]) == (kept, [])
    again = ask(*STEP, "jet", *tells(TOLD["jet"]))["recorded"]
    ask("take-back", "201", str(again))
    assert ask("numbers", "201")["answers"] == []


def test_a_take_back_sent_twice_takes_no_other_answer(ask: Any, refused: Callable[..., str]) -> None:
    ask(*STEP, "jet", *tells(TOLD["jet"]))
    ask(*STEP, "key", *tells(KEY))
    ask(*STEP, "key", "--take-back")
    assert "No answer to “What a key carries” stands" in refused(*STEP, "key", "--take-back")
    assert [one["answer"]["room"] for one in ask("numbers", "201")["answers"]] == ["jet"]


def test_without_what_it_is_worked_out_from_it_says_what_is_asked_and_records_nothing(ask: Any, run: Run) -> None:
    asks = {one["name"]: one for one in ask(*STEP, "pull-off")["asks"]}
    assert list(asks) == [one.name for one in ROOMS["pull-off"].fields]
    assert asks["bolt"]["needed"]
    assert not asks["circle"]["needed"]
    assert asks["nut"]["known"] == "5/8-18"
    text = run(*STEP, "pull-off").out
    assert all(one["label"] in " ".join(text.split()) for one in asks.values())
    assert ask("numbers", "201")["answers"] == []


def test_the_machine_tells_its_nut_and_its_torque_unless_something_is_told_in_their_place(ask: Any) -> None:
    ask("torque", "201", "--fastener", "flywheel-nut", "--set", "52 ft·lb", "--published", "card")
    by_nut = ask(*STEP, "pull-off", *tells(("bolt=1/4-20", "engaged=8 mm")))["answers"][0]["answer"]
    assert "thread of the nut: 5/8-18; torque that was on the nut: 52 ft·lb" in by_nut["told"]
    forces = ("force-low=6 kN", "force-high=18 kN", "bolt=1/4-20", "engaged=8 mm")
    by_force = ask(*STEP, "pull-off", *tells(forces))["answers"][0]["answer"]
    assert "nut" not in by_force["told"]


def test_the_question_may_be_named_like_its_command(ask: Any) -> None:
    assert ask(*STEP, "leakdown", *tells(TOLD["leak-down"]))["answers"][0]["answer"]["room"] == "leak-down"


def test_a_step_names_the_questions_worth_asking_in_it(ask: Any, run: Run) -> None:
    steps = ask("steps", "201", "--to", "key")["work"]["steps_in"]
    asked = next(one for one in steps if one["operation"] == "flywheel-off")["numbers"]
    assert f"numbers: {', '.join(asked)}" in " ".join(run("steps", "201").out.split())


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("numbers", "201", "flywheel-of", "key"), "Did you mean “flywheel-off”"),
        (("numbers", "201", "flywheel-off"), "Which question, for which step?"),
        (("numbers", "201", "--tell", "key=606"), "Which question, for which step?"),
        (("numbers", "201", "flywheel-off", "weather"), "no number called “weather”"),
        ((*STEP, "key", "--tell", "shaft"), "“shaft” does not say what is told"),
        ((*STEP, "key", "--tell", "shft=20 mm"), "does not ask for “shft”. It must be one of key, shaft"),
        ((*STEP, "key", "--tell", "key=606"), "needs more: Shaft at the key"),
        ((*STEP, "key", *tells(("key=999", *KEY[1:]))), "There is no Woodruff key “999”"),
        ((*STEP, "key", *tells(KEY), "--take-back"), "--take-back goes without --tell"),
        (("numbers", "999"), "There is no job 999"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_nothing_is_kept(
    ask: Any, refused: Callable[..., str], words: tuple[str, ...], part: str
) -> None:
    assert part in refused(*words)
    assert ask("numbers", "201")["answers"] == []


@pytest.mark.parametrize("text", ["", "=20 mm", "shaft=", "shaft"])
def test_what_is_told_has_a_name_and_a_value(text: str) -> None:
    with pytest.raises(NotUnderstood, match="does not say what is told"):
        told_from([text])
