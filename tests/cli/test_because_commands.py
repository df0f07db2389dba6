"""Reasons, the story of a cause and the replay in the terminal: the page's twins."""

import json
from collections.abc import Callable
from dataclasses import replace

from bellcrank.cli.show_because import combination_lines, verdict_lines, why_lines
from bellcrank.cli.show_next import next_lines
from bellcrank.shop.because_sheet import CombinationLine, MoveLine, OverturnLine, ReasonLine, ShownLine, VerdictLine
from bellcrank.shop.replay_sheet import WhySheet
from bellcrank.shop.sheet import JobSheet

from .conftest import Run

SPARK = (ShownLine("there is no spark", 0.2, 0.61), ShownLine("the spark tester fires", 0.8, 0.004))
MOVE = MoveLine("spark", "Test the spark", 3.0, SPARK, "If there is no spark, “coil dead” goes from 12 to 61 in 100.")
VERDICT = VerdictLine(
    "key-sheared",
    leads=True,
    moves=(MOVE,),
    overturn=OverturnLine("spark", "Test the spark", 3.0, "there is no spark", 0.2, "coil", 0.61),
    overturn_words="Quickest to put another cause first: test the spark, 3 min.",
)
TOGETHER = (CombinationLine(("key-sheared", "blade-loose"), "flywheel key sheared and blade loose", 0.22),)
REASON = ReasonLine(
    "the mark comes early: 2 times (30 on its own)", "says much the same as “it hit something”", 3, 14.8
)


def one_line(lines: list[str]) -> str:
    return " ".join("\n".join(lines).split())


def test_the_next_command_says_what_goes_together_and_what_would_change_it(sheet: JobSheet) -> None:
    told = replace(sheet, verdict=VERDICT, combinations=TOGETHER)
    text = one_line(next_lines(told))
    assert "22 % flywheel key sheared and blade loose" in text
    assert "Test the spark, 3 min. If there is no spark, “coil dead” goes from 12 to 61 in 100." in text
    assert text.index("TOGETHER") < text.index("WHAT WOULD CHANGE THIS") < text.index("NEXT")


def test_without_open_checks_it_says_so() -> None:
    settled = replace(VERDICT, moves=(), overturn=None, overturn_words="No open check can.")
    assert "No open check says much more about it. No open check can." in one_line(verdict_lines(settled))
    assert verdict_lines(None) == []
    assert combination_lines(()) == []


def test_the_story_of_a_cause_says_what_a_finding_goes_together_with(sheet: JobSheet) -> None:
    cause = replace(sheet.causes[0], reasons_for=(REASON,), reasons_against=())
    told = WhySheet(7, "mower", 1, cause, 0.9, "They disagree.", VERDICT, TOGETHER)
    text = one_line(why_lines(told))
    assert "for: the mark comes early: 2 times (30 on its own); says much the same as “it hit something”" in text
    assert "Number 1 of the causes; 90 % that it came in with it." in text
    assert "! They disagree." in text
    bare = replace(told, place=0, cause=replace(cause, reasons_for=()))
    assert "Nothing found so far speaks for or against it" in one_line(why_lines(bare))
    assert "It happened to the machine;" in one_line(why_lines(bare))


def a_job(run: Run) -> None:
    assert run("take-in", "won't start", "--complaint", "wont-start", "--fact", "hit-something=yes").code == 0
    assert run("found", "201", "spark-tester", "jumps").code == 0
    assert run("found", "201", "wire-off-coil", "returns").code == 0


def test_a_job_is_replayed_with_what_contradicts(run: Run) -> None:
    a_job(run)
    text = " ".join(run("replay", "201").out.split())
    assert "0 complaint: won't start; hit something: yes" in text
    assert "! That the spark comes back without the stop wire goes badly with this" in text
    for shown in (run("replay", "201", "--step", "2"), run("next", "201"), run("why", "201", "coil-dead")):
        assert "goes badly with this: the spark tester fires" in " ".join(shown.out.split())


def test_a_step_shows_advice_and_deed_and_the_quiz_keeps_them_back(run: Run) -> None:
    a_job(run)
    step = run("replay", "201", "--step", "1").out
    assert "ADVISED THEN" in step
    assert "the spark comes back without the stop wire, about" in " ".join(step.split())
    quiz = run("replay", "201", "--step", "1", "--quiz").out
    assert "WHAT WOULD YOU DO NEXT?" in quiz
    assert "ADVISED" not in quiz
    assert "stop wire" not in quiz.split("BELIEVED")[0]


def test_json_holds_both_weights_the_verdict_and_every_step(run: Run) -> None:
    a_job(run)
    told = json.loads(run("why", "201", "key-sheared", "--json").out)
    reason = told["cause"]["reasons_for"][0]
    assert reason["words"].startswith("it hit something")
    assert reason["decibans"] > 0 < reason["alone_decibans"]
    assert {"moves", "overturn", "overturn_words", "leads"} <= told["verdict"].keys()
    steps = json.loads(run("replay", "201", "--json").out)
    assert [one["number"] for one in steps["steps"]] == [0, 1, 2]
    assert len(steps["rest"]) == len(steps["paths"][0]["probabilities"]) == 3
    assert json.loads(run("replay", "201", "--step", "2", "--json").out)["number"] == 2
    assert {"combinations", "verdict"} <= json.loads(run("next", "201", "--json").out).keys()


def test_what_is_not_there_is_refused_in_a_sentence(run: Run, refused: Callable[..., str]) -> None:
    a_job(run)
    assert "There is no step 9 on job 201. It must be from 0, the door, to 2." in refused(
        "replay", "201", "--step", "9"
    )
    assert "There is no cause “gremlins”" in refused("why", "201", "gremlins")
