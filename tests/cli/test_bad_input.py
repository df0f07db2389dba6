"""Nonsense is refused with a sentence that says what to do: exit code 2, nothing recorded, no traceback."""

import json
import secrets
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.cli.conftest import Run

Refused = Callable[..., str]
NUMBER = "201"


@pytest.fixture
def job(run: Run) -> str:
    assert run("take-in", "kicks back", "--complaint", "kicks-back").code == 0
    assert run("steps", NUMBER, "--to", "key").code == 0
    return NUMBER


@pytest.mark.parametrize(
    "words",
    [
        ("job", "999"),
        ("next", "999"),
        ("steps", "999"),
        ("torque", "999"),
        ("handback", "999"),
        ("price", "999"),
        ("take-back", "999"),
        ("complaint", "999"),
        ("complaint", "999", "hunts"),
        ("found", "999", "spark-tester", "none"),
        ("repaired", "999", "new-key", "cured"),
        ("paper", "999", "tag"),
    ],
)
def test_an_unknown_job_is_named_with_the_jobs_there_are(refused: Refused, job: str, words: tuple[str, ...]) -> None:
    assert refused(*words).startswith("There is no job 999. The jobs are 201 to 201")


@pytest.mark.parametrize("number", ["abc", "1.5", "9" * 40, "١٢", ""])
def test_what_is_no_job_number_is_said_so(refused: Refused, number: str) -> None:
    assert "is not a job number; it must be a whole number like 214" in refused("job", number)


def test_the_tag_may_be_typed_with_its_sign(run: Run, job: str) -> None:
    assert run("job", f"#{job}").code == 0


def test_an_unknown_check_names_close_ones(refused: Refused, job: str) -> None:
    sentence = refused("found", job, "spark-testr", "none")
    assert "There is no check “spark-testr”" in sentence
    assert "Did you mean “spark-tester”" in sentence


def test_an_unknown_result_names_those_there_are(refused: Refused, job: str) -> None:
    assert "or not-sure" in refused("found", job, "spark-tester", "sometimes")


def test_an_unknown_repair_names_close_ones(refused: Refused, job: str) -> None:
    assert "Did you mean “new-key”" in refused("repaired", job, "newkey", "cured")


def test_an_unknown_outcome_names_the_three(refused: Refused, job: str) -> None:
    assert "cured, not-cured, not-tried" in refused("repaired", job, "new-key", "maybe")


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--thread", "M8", "--engaged", "-5mm"), "Thread engaged is -5mm; it must be above zero"),
        (("--thread", "M8", "--engaged", "5 N"), "“N” is a force, not a length"),
        (("--thread", "M8", "--engaged", "five"), "cannot be read as a number"),
        (("--thread", "M99x7"), "M99x7"),
        (("--thread", "M8", "--class", "G99"), "There is no strength class “G99”"),
        (("--thread", "M8", "--into", "cheese"), "There is no material “cheese”"),
        (("--thread", "M8", "--head", "dome"), "is not a kind of head"),
        (("--thread", "M8", "--head", "8mm"), "Width of the face around the hole"),
        (("--thread", "M8", "--to-yield", "9"), "Share of the yield strength"),
        (("--thread", "M8", "--check", "55 lbs"), "is a mass, not a torque"),
        (("--thread", "M8", "--friction", "slippery"), "it must be a number like 0.14"),
        (("--thread", "M8", "--friction", "7"), "Friction"),
        (("--thread", "M8", "--by", "feel"), "Say torque wrench or hand feel"),
        (("201", "--thread", "M8"), "not clear which torque is meant"),
        ((), "not clear which torque is meant"),
    ],
)
def test_a_joint_that_cannot_be_is_refused(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused("torque", *words)


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ("55 lbs", "“lbs” is a mass, not a torque. Write it like 9 N·m, 80 in·lb or 7 ft·lb."),
        ("-9 N·m", "it must be above zero"),
        ("9", "has no unit"),
        ("tight", "cannot be read as a number"),
        ("9e99 N·m", "is not a unit of torque we know"),
        ("99999 N·m", "nothing here takes more than 1000 N·m"),
    ],
)
def test_a_torque_that_is_none_is_refused(refused: Refused, job: str, typed: str, part: str) -> None:
    assert part in refused("torque", job, "--fastener", "flywheel-nut", "--set", typed, "--own")


def test_a_torque_says_whose_number_it_is(refused: Refused, job: str) -> None:
    keep = ("torque", job, "--fastener", "flywheel-nut", "--set", "55 ft·lb")
    assert "Whose torque is it?" in refused(*keep)
    assert "Whose torque is it?" in refused(*keep, "--own", "--published", "maker's card")
    assert "Type both" in refused("torque", job, "--set", "55 ft·lb", "--own")
    assert "There is no fastener “wheel-nut”" in refused(
        "torque", job, "--fastener", "wheel-nut", "--set", "5 N·m", "--own"
    )


def test_a_text_file_called_jpg_is_refused_and_no_job_is_made(run: Run, refused: Refused, tmp_path: Path) -> None:
    fake = tmp_path / "deck.jpg"
    fake.write_text("this is a text")
    assert "deck.jpg is not a picture, whatever its name says" in refused(
        "take-in", "won't start", "--photo", str(fake)
    )
    assert json.loads(run("jobs", "--json").out)["waiting"] == []


def test_a_photo_of_forty_megabytes_is_refused_and_no_job_is_made(run: Run, refused: Refused, tmp_path: Path) -> None:
    large = tmp_path / "large.jpg"
    large.write_bytes(b"\xff\xd8\xff" + secrets.token_bytes(2**20) * 40)
    assert "has 40 MB; it must have 25 MB at most" in refused("take-in", "won't start", "--photo", str(large))
    assert json.loads(run("jobs", "--json").out)["waiting"] == []


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ((), "The complaint is missing"),
        (("   ",), "The complaint is missing"),
        (("x", "--complaint", "wont-strat"), "There is no complaint “wont-strat”"),
        (("x", "--fact", "hit-somthing=yes"), "There is no fact “hit-somthing”"),
        (("x", "--fact", "hit-something=perhaps"), "does not answer “hit-something”"),
        (("x", "--fact", "=yes"), "has no name"),
        (("x", "--agreed", "lots"), "is not an amount"),
        (("x", "--agreed", "-5"), "it must be zero or more"),
        (("x", "--kind", "submarine"), "There is no kind of machine “submarine”"),
        (("x", "--engine", "v12"), "There is no engine card “v12”"),
        (("x", "--photo", "no-such-file.jpg"), "--photo FILE: File 'no-such-file.jpg' does not exist."),
        (("x" * 5000,), "it must be 4000 at most"),
        (("x", "--name", "n" * 300), "it must be 200 at most"),
    ],
)
def test_a_story_that_cannot_be_kept_is_refused(refused: Refused, words: tuple[str, ...], part: str) -> None:
    assert part in refused("take-in", *words)


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--answer", "blade-crak=yes"), "Did you mean “blade-crack”"),
        (("--answer", "blade-crack"), "Write it like blade-crack=yes"),
        (("--answer", "blade-crack=perhaps"), "it must be yes or no"),
        (("--answer", "stop-time=2"), "is answered with --stop-times"),
        (("--stop-times", "2.4 two 2.6"), "“two” cannot be read as a number"),
        (("--stop-times", "-2 2 2"), "it must be above zero"),
        (("--stop-times", "2 2 2", "--timing", "sundial"), "--timing"),
        (("--top-speed", "3000 rpm"), "needs both --top-speed and --blade"),
        (("--top-speed", "3000 rpm", "--blade", "-530 mm"), "it must be above zero"),
        (("--top-speed", "3000 kg", "--blade", "530 mm"), "“kg” is a mass, not a speed"),
        (("--ready", "--not-ready"), "Type the one that is meant"),
        (("--because", "he said so"), "--because goes with --not-ready"),
        (("--not-ready",), "Write what was declined"),
        (("--fetched",), "is not marked ready"),
    ],
)
def test_a_handback_that_cannot_be_is_refused(refused: Refused, job: str, words: tuple[str, ...], part: str) -> None:
    assert part in refused("handback", job, *words)


def test_of_several_answers_none_is_kept_when_one_cannot_be_read(run: Run, refused: Refused, job: str) -> None:
    refused("handback", job, "--answer", "guards=yes", "--answer", "label=perhaps")
    lines = json.loads(run("handback", job, "--json").out)["release"]["lines"]
    assert {line["status"] for line in lines} == {"open"}


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--to", "moon"), "There is no way in to “moon”"),
        (("--tick", "moon"), "There is no step “moon”"),
        (("--tick", "key-out"), "Not yet: first"),
    ],
)
def test_a_step_that_cannot_be_is_refused(refused: Refused, job: str, words: tuple[str, ...], part: str) -> None:
    assert part in refused("steps", job, *words)


def test_ticking_without_a_way_says_to_choose_one(run: Run, refused: Refused) -> None:
    run("take-in", "won't start", "--complaint", "wont-start")
    assert "Choose the part to get to first" in refused("steps", NUMBER, "--tick", "lead-off")


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("poster",), "There is no paper called “poster”"),
        (("invoice",), "has no invoice yet"),
        (("tag", "--out", "no-such-folder/tag.pdf"), "Choose another place with --out"),
        (("tag", "--paper", "a0"), "--paper [a4|letter]: 'a0' is not one of"),
    ],
)
def test_a_paper_that_cannot_be_written_is_refused(
    refused: Refused, job: str, words: tuple[str, ...], part: str
) -> None:
    assert part in refused("paper", job, *words)


def test_a_tray_sheet_without_a_way_in_is_refused(run: Run, refused: Refused) -> None:
    run("take-in", "won't start", "--complaint", "wont-start")
    assert "Choose the part to get to first" in refused("tray", NUMBER)
    assert "There is no job 999" in refused("tray", "999")


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--add", "prt", "bolt", "1", "2"), "is not a kind of line"),
        (("--add", "part", "bolt", "1", "cheap"), "is not an amount"),
        (("--add", "part", "bolt"), "--add"),
        (("--drop", "4711"), "has no price line 4711"),
        (("--propose",), "Record the repair first"),
        (("--invoice",), "There is nothing to bill yet"),
        (("--agreed", "lots", "by phone"), "is not an amount"),
    ],
)
def test_a_price_that_cannot_be_is_refused(refused: Refused, job: str, words: tuple[str, ...], part: str) -> None:
    assert part in refused("price", job, *words)


def test_nothing_to_take_back_is_said_so(refused: Refused, job: str) -> None:
    assert "Entry 999 cannot be taken back" in refused("take-back", job, "999")


def test_a_strangers_file_in_the_data_folder_is_left_alone(refused: Refused, tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "shop.db").write_bytes(b"not a shop at all" * 100)
    assert refused("jobs")
    assert (tmp_path / "shop" / "shop.db").read_bytes().startswith(b"not a shop")


def test_a_refusal_is_json_when_json_was_asked_for(run: Run, job: str) -> None:
    outcome = run("job", "999", "--json")
    assert outcome.code == 2
    assert json.loads(outcome.out)["error"].startswith("There is no job 999")
    assert outcome.err == ""
