"""Judging answers against limits of 16 CFR 1205.5 and ANSI/OPEI B71.1, with the uncertainty of the watch."""

import pytest

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.handback.proofs import BoltWindow, Status, judge
from bellcrank.knowledge.model import ReleaseItem


def item(answer, words="Blade stops in time?"):
    return ReleaseItem("an-item", words, "how", ("always",), True, answer, "limit", (), (), "cfr-1205-5")


def stop(times, timing, made="after-june-1982"):
    return judge(item("stop-time"), {"times": times, "timing": timing, "made": made})


# 16 CFR 1205.5(a)(1)(iii): 3.0 s for machines made after 30 June 1982 (1205.2); guarded acceptance, max + U <= limit.
@pytest.mark.parametrize(
    ("times", "timing", "made", "status"),
    [
        ("2.80 2.80 2.80", "stopwatch", "after-june-1982", Status.UNDECIDED),  # 2.80 + 0.28 passes the limit
        ("2.95 2.90 2.93", "video-60", "after-june-1982", Status.PASSED),  # 2.95 + 0.014
        ("3.02 2.90 2.93", "video-60", "after-june-1982", Status.FAILED),  # 3.02 - 0.014 is above it
        ("2.40 2.45 2.41", "stopwatch", "after-june-1982", Status.PASSED),
        ("4.00 4.10 4.20", "stopwatch", "before-july-1982", Status.PASSED),  # 15 s back-stop, OAR 437-004-2240(2)(e)
    ],
)
def test_a_stop_time_counts_only_with_its_uncertainty(times, timing, made, status):
    assert stop(times, timing, made).status is status


@pytest.mark.parametrize(("said", "status"), [("yes", Status.PASSED), ("No", Status.FAILED), ("none", Status.PASSED)])
def test_what_not_every_machine_has_may_be_answered_with_none(said, status):
    assert judge(item("yes-no-none", "Chain brake holds?"), {"answer": said}).status is status


def test_that_it_has_no_such_thing_is_written_down():
    assert judge(item("yes-no-none", "Chain brake holds?"), {"answer": "none"}).detail == "it has no such thing"


@pytest.mark.parametrize(("answer", "must_be"), [("yes-no", "yes or no"), ("yes-no-none", "yes, no, or none")])
def test_another_answer_is_refused_with_what_it_must_be(answer, must_be):
    with pytest.raises(NotUnderstood, match=f"The answer is “perhaps”; it must be {must_be}"):
        judge(item(answer, "Guards?"), {"answer": "perhaps"})


def test_what_every_machine_has_is_not_answered_with_none():
    with pytest.raises(NotUnderstood, match="it must be yes or no"):
        judge(item("yes-no", "No fuel leak?"), {"answer": "none"})


def test_an_undecided_stop_says_what_settles_it():
    assert "film it" in stop("2.8 2.8 2.8", "stopwatch").detail


def test_two_stops_are_not_enough():
    with pytest.raises(OutOfRange, match="2 of the 3 stop times or more were given"):
        stop("2.4 2.5", "video-30")


def test_a_stop_that_is_no_time_is_refused():
    with pytest.raises(OutOfRange, match="above zero"):
        stop("2.4 -2.5 2.4", "video-30")
    with pytest.raises(NotUnderstood, match="cannot be read as a number"):
        stop("2.4 soon 2.4", "video-30")


# ANSI/OPEI B71.1, 19,000 ft/min = 96.52 m/s (secondary): a 21 in blade may turn 3456 rpm at most.
@pytest.mark.parametrize(
    ("speed", "blade", "status"),
    [
        ("3060 rpm", "21 in", Status.PASSED),
        ("3600 rpm", "21 in", Status.FAILED),
        ("3420 rpm", "21 in", Status.UNDECIDED),
    ],
)
def test_a_tip_speed_counts_only_with_its_uncertainty(speed, blade, status):
    assert judge(item("tip-speed"), {"speed": speed, "blade": blade}).status is status


def test_a_blade_without_a_length_is_refused():
    with pytest.raises(NotUnderstood, match="Blade, tip to tip"):
        judge(item("tip-speed"), {"speed": "3000 rpm", "blade": ""})


@pytest.mark.parametrize(
    ("speed", "blade", "says"),
    [
        ("3,950 rpm", "530 mm", r"may mean 3950 or 3\.950"),
        ("395 rpm", "530 mm", "no such engine runs below 1000 rpm"),
        ("3950 rpm", "21", "has no unit"),
        ("3950 rpm", "21 mm", "Check whether it was mm or in"),
        ("3950 rpm", "530 in", "Check whether it was mm or in"),
    ],
)
def test_a_slip_of_the_number_or_the_unit_proves_no_tip_speed(speed, blade, says):
    with pytest.raises((NotUnderstood, OutOfRange), match=says):
        judge(item("tip-speed"), {"speed": speed, "blade": blade})


def test_yes_passes_no_fails_and_perhaps_is_refused():
    assert judge(item("yes-no"), {"answer": "yes"}).status is Status.PASSED
    assert judge(item("yes-no"), {"answer": "No"}).status is Status.FAILED
    with pytest.raises(NotUnderstood, match="it must be yes or no"):
        judge(item("yes-no"), {"answer": "perhaps"})


def test_pounds_are_no_torque_for_the_blade_bolt():
    with pytest.raises(NotUnderstood, match="is a mass, not a torque"):
        judge(item("blade-bolt-torque"), {"torque": "55 lbs"})


# ISO 6789-1 lets a torque wrench be off by 4 % (from memory): what it may have put on must lie in the window.
@pytest.mark.parametrize(
    ("torque", "status"),
    [
        ("20 N·m", Status.FAILED),
        ("15 ft·lb", Status.FAILED),
        ("39.5 N·m", Status.UNDECIDED),
        ("45 N·m", Status.PASSED),
        ("51 N·m", Status.UNDECIDED),
        ("60 N·m", Status.FAILED),
    ],
)
def test_the_blade_bolt_is_judged_against_its_window(torque, status):
    window = BoltWindow(39.2, 52.3, "computed")
    result = judge(item("blade-bolt-torque"), {"torque": torque}, window)
    assert result.status is status
    assert "against 39 to 52 N·m (computed)" in result.detail
