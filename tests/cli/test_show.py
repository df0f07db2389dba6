"""The sheets as text: every figure is there, cautions stand before their step, nothing is wider than the terminal."""

from dataclasses import replace
from decimal import Decimal

import pytest

from bellcrank.both_systems import both_torques
from bellcrank.cli.show_job import bench_lines, job_lines
from bellcrank.cli.show_next import next_lines
from bellcrank.cli.show_release import release_lines
from bellcrank.cli.show_work import work_lines
from bellcrank.papers.wording import fastener_words
from bellcrank.shop.bench_sheet import BenchLine, BenchSheet
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.words import minutes, percent

AT = "2026-05-02T09:00:00+00:00"


def as_text(lines: list[str]) -> str:
    return "\n".join(lines)


def one_line(lines: list[str]) -> str:
    return " ".join(as_text(lines).split())


def test_a_cause_shows_percentage_word_and_reasons(sheet: JobSheet) -> None:
    text = one_line(next_lines(sheet))
    assert "91 % almost sure flywheel key sheared" in text
    assert "for: the cord is thrown back" in text
    assert "against: the engine still idles" in text
    assert "under 1 % hardly" in text


def test_the_next_check_shows_what_it_buys_and_how_to_record_it(sheet: JobSheet) -> None:
    text = one_line(next_lines(sheet))
    assert "9 min of work and 4 min to open and close; saves 3.2 min for every minute spent" in text
    assert "bellcrank found 7 key-look RESULT" in text
    assert "90 % sheared" in text
    assert "off first: plug lead" in text


def test_a_caution_stands_before_its_step(sheet: JobSheet) -> None:
    text = as_text(work_lines(7, sheet.work))
    assert text.index("WARNING: Pull the plug lead") < text.index("Lift the shroud off")


def test_the_way_back_shows_torque_in_both_units_with_window_and_basis(sheet: JobSheet) -> None:
    text = one_line(work_lines(7, sheet.work, "out"))
    assert "torque: 8.0 N·m (71 in·lb), window 6.4 to 9.6 N·m (57 to 85 in·lb), computed: torque window" in text
    assert "limit: head face" in text
    assert "wider: a wider flange" in text
    assert "use a new one; safety joint" in text


def test_the_mechanics_own_hand_stands_beside_the_torque_it_is_held_against(sheet: JobSheet) -> None:
    line = replace(sheet.work.steps_out[0].fasteners[0], by_hand="By Kari's hand it gets 3.9 to 10.1 N·m.")
    work = replace(sheet.work, steps_out=(replace(sheet.work.steps_out[0], fasteners=(line,)),))
    text = one_line(work_lines(7, work, "out"))
    assert text.index("wider: a wider flange") < text.index("hand: By Kari's hand it gets 3.9 to 10.1 N·m.")
    assert "hand: " not in one_line(work_lines(7, sheet.work, "out"))


def test_a_torque_in_doubt_is_asked_about_on_the_way_back_and_on_paper(sheet: JobSheet) -> None:
    line = sheet.work.steps_out[0].fasteners[0]
    line = replace(line, torque=replace(line.torque, doubt="Was 80 in·lb (9.0 N·m) meant?"))
    work = replace(sheet.work, steps_out=(replace(sheet.work.steps_out[0], fasteners=(line,)),))
    assert "doubt: Was 80 in·lb (9.0 N·m) meant?" in one_line(work_lines(7, work, "out"))
    on_paper = fastener_words(line, "N·m")
    assert on_paper["doubt"] == "Was 80 in·lb (9.0 N·m) meant?"
    assert "torque window; limited by head face." in on_paper["window"]


def test_the_way_in_shows_no_torque(sheet: JobSheet) -> None:
    assert "torque:" not in as_text(work_lines(7, sheet.work, "in"))


def test_a_job_without_a_part_to_get_to_says_how_to_choose_one() -> None:
    assert "--to PART" in " ".join(as_text(work_lines(7, None)).split())


def test_the_release_list_says_what_is_in_the_way(sheet: JobSheet) -> None:
    text = as_text(release_lines(7, sheet.release))
    assert "NOT READY" in text
    assert "1 thing is in the way" in text
    assert text.index("WARNING") < text.index("[  ] Blade stops in time?")


def test_the_job_shows_money_and_the_promise(sheet: JobSheet) -> None:
    text = one_line(job_lines(sheet))
    assert "90.50 to 180.00 EUR" in text
    assert "agreed to spend before asking: 120.00 EUR" in text


def test_an_empty_bench_says_how_to_take_a_machine_in() -> None:
    assert "bellcrank take-in" in as_text(bench_lines(BenchSheet((), (), (), ())))


def test_the_bench_lists_jobs_where_they_stand() -> None:
    line = BenchLine(
        214, "Skerry 46", "won't start", "Ada", "next: look at the key", "2026-05-02T09:00:00+00:00", "on the bench"
    )
    text = as_text(bench_lines(BenchSheet((line,), (), (), ())))
    assert "#214" in text
    assert "next: look at the key" in text


def test_nothing_is_wider_than_eighty_columns(sheet: JobSheet, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    long = replace(sheet, complaint_words="it " * 80, price=replace(sheet.price, expected_low=Decimal("1e9")))
    for lines in (job_lines(long), next_lines(long), work_lines(7, long.work), release_lines(7, long.release)):
        for line in as_text(lines).splitlines():
            assert len(line.replace("\x1b[1m", "").replace("\x1b[0m", "")) <= 80, line


def test_a_chance_is_never_shown_as_certain() -> None:
    assert percent(0.0) == "under 1 %"
    assert percent(1.0) == "over 99 %"


def test_minutes_are_shown_as_the_bench_says_them() -> None:
    assert minutes(0) == "no time"
    assert minutes(120) == "2 h 00 min"


def test_torque_keeps_inch_and_foot_pounds_apart() -> None:
    # 1 ft·lbf = 1.3558179483 N·m: NIST SP 811, Appendix B.8
    assert both_torques(1.3558179483 * 40) == "54 N·m (40 ft·lb)"
    assert both_torques(1.3558179483 * 7) == "9.5 N·m (84 in·lb)"


def test_a_tool_that_is_not_here_is_said_before_the_first_step(sheet):
    lines = work_lines(7, sheet.work)
    missing = next(place for place, line in enumerate(lines) if line.startswith("! not in this shop: flywheel puller"))
    assert missing < next(place for place, line in enumerate(lines) if "Lift the shroud off" in line)


def test_the_way_back_says_gaps_new_gaskets_hidden_lips_and_what_must_move_freely(sheet):
    text = " ".join(" ".join(work_lines(7, sheet.work, "out")).split())
    assert "hidden: two lips at the back" in text
    assert "new: shroud gasket" in text
    assert "gap: coil to magnet: 0.20 to 0.30 mm (0.008 to 0.012 in), guess" in text
    assert "check: flywheel turns freely" in text
