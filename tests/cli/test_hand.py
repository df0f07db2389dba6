"""Somebody's own hand: what is refused keeps nothing, what is taken back is named, and what is missing is counted."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.fastening.hand import span

Refused = Callable[..., str]
INA = ("hand", "--person", "Ina")
READINGS = ("6.2 N·m", "7 N·m", "6.6 N·m", "7.4 N·m", "6.8 N·m")


def hand(run: Run, *more: str) -> Any:
    outcome = run(*INA, *more, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def keep(run: Run, thread: str, *readings: str) -> Any:
    return hand(run, "--thread", thread, *(word for reading in readings for word in ("--reading", reading)))


def kept(run: Run) -> dict[str, list[float]]:
    return {line["thread"]: line["readings_nm"] for line in hand(run)["threads"]}


def test_every_figure_carries_its_unit_in_its_name(run: Run) -> None:
    answer = keep(run, "M6", *READINGS)
    assert set(answer) == {"person", "threads", "against", "taken_back"}
    assert set(answer["threads"][0]) == {
        "thread", "readings_nm", "still_needed", "mean_nm", "deviation_nm", "torque_low_nm", "torque_high_nm",
        "spread", "scatter", "words",
    }  # fmt: skip


def test_text_and_json_say_the_same(run: Run) -> None:
    (figures,) = keep(run, "M6", *READINGS)["threads"]
    text = " ".join(run(*INA).out.split())
    assert span(figures["torque_low_nm"], figures["torque_high_nm"]) in text
    assert figures["words"] in text
    assert ", ".join(READINGS) in text


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--thread", "M6", "--reading", "7 N·m", "--wanted", "55 lbs"), "is a mass, not a torque"),
        (("--thread", "M6", "--reading", "7 N·m", "--wanted", "tight"), "cannot be read as a number"),
        (("--thread", "M6", "--reading", "7 N·m", "--reading", "55 lbs"), "is a mass, not a torque"),
        (("--thread", "M6", "--reading", "7 N·m", "--undo"), "--undo goes alone"),
        (("--thread", "M6", "--wanted", "9 N·m", "--undo"), "--undo goes alone"),
        (("--thread", "M6", "--wrench", "the old one"), "belongs to readings"),
        (("--thread", "M99x7", "--undo"), "M99x7"),
        (("--thread", "M10", "--undo"), "There is no reading of M10×1.5 to take back for Ina"),
    ],
)
def test_what_is_refused_neither_keeps_a_reading_nor_takes_one_back(
    run: Run, refused: Refused, words: tuple[str, ...], part: str
) -> None:
    keep(run, "M8", "20 N·m")
    assert part in refused(*INA, *words)
    assert kept(run) == {"M8×1.25": pytest.approx([20.0])}


def test_the_last_reading_of_the_thread_that_is_named_is_taken_back_and_said(run: Run) -> None:
    keep(run, "M6", "6 N·m", "7 N·m")
    keep(run, "M8", "20 N·m")
    assert hand(run, "--undo", "--thread", "M6")["taken_back"] == "7 N·m on M6×1"
    assert kept(run) == {"M6×1": pytest.approx([6.0]), "M8×1.25": pytest.approx([20.0])}
    assert "taken back: 20 N·m on M8×1.25" in run(*INA, "--undo").out
    assert kept(run) == {"M6×1": pytest.approx([6.0])}


def test_too_few_readings_say_how_many_more_and_how_to_take_them(run: Run) -> None:
    (line,) = keep(run, "M6", *READINGS[:1])["threads"]
    assert line["still_needed"] == 4
    assert line["words"].startswith("There is 1 reading of M6×1; it must be 5 or more")
    text = " ".join(run(*INA).out.split())
    assert "4 more readings to take" in text
    assert "read the wrench at the moment it moves" in text


def test_a_size_that_says_nothing_yet_is_guided_beside_one_that_does(run: Run) -> None:
    keep(run, "M6", *READINGS)
    assert "read the wrench at the moment" not in " ".join(run(*INA).out.split())
    keep(run, "M8", "20 N·m", "21 N·m", "19 N·m", "20 N·m")
    text = " ".join(run(*INA).out.split())
    assert "1 more reading to take" in text
    assert "read the wrench at the moment it moves" in text


def test_readings_too_few_to_be_held_against_a_torque_are_kept_and_said_so(run: Run) -> None:
    outcome = run(*INA, "--thread", "M6", "--reading", "7 N·m", "--wanted", "9 N·m")
    assert outcome.code == 0, outcome.everything
    assert "The readings are kept; ask --wanted again" in " ".join(outcome.out.split())
    assert kept(run) == {"M6×1": pytest.approx([7.0])}


def test_foot_pounds_and_newton_metres_give_the_same_hand(run: Run) -> None:
    metric = keep(run, "M6", *READINGS)["threads"][0]
    inch = tuple(f"{float(reading.split()[0]) / 0.112984829:.9f} in·lb" for reading in READINGS)
    words = (word for reading in inch for word in ("--reading", reading))
    other = json.loads(run("hand", "--person", "Kari", "--thread", "M6", *words, "--json").out)["threads"][0]
    assert other["torque_low_nm"] == pytest.approx(metric["torque_low_nm"], rel=1e-6)
