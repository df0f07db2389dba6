"""How what was learnt is said, on the page and in the terminal alike."""

from bellcrank.shop.learnt_sheet import LearntSheet, MovedMinutes, MovedRow, MovedShare, Rightness
from bellcrank.shop.words import counted, minutes, percent


def head_line(sheet: LearntSheet) -> str:
    """Say how many jobs there are to learn from."""
    closed = counted(sheet.closed_jobs, "closed job", "closed jobs")
    left = f"; {sheet.unread_jobs} are still to be read" if sheet.unread_jobs else ""
    return f"{closed}, of {sheet.known_jobs} the cause is known{left}"


def moved_said(one: MovedShare | MovedRow) -> str:
    """Say a number that moved: before, now, its range, and of how many.

    >>> moved_said(MovedShare("c", "x", "", 0.22, 0.31, 0.2, 0.4, 9.04, 20.0, ""))
    '22 % → 31 %, most likely 20 % to 40 %; seen 9 of 20'
    >>> moved_said(MovedShare("c", "x", "", 0.22, 0.31, 0.2, 0.4, 9.04, 20.0, "can hurt somebody"))
    'stays 22 %, your jobs would say 31 % (seen 9 of 20): can hurt somebody'
    """
    seen = f"seen {_few(one.seen)} of {_few(one.of)}"
    if one.held:
        return f"stays {percent(one.before)}, your jobs would say {percent(one.learnt)} ({seen}): {one.held}"
    span = f"{percent(one.low)} to {percent(one.high)}"
    return f"{percent(one.before)} → {percent(one.learnt)}, most likely {span}; {seen}"


def minutes_said(one: MovedMinutes) -> str:
    """Say a time that moved."""
    span = f"{round(one.low_minutes)} to {round(one.high_minutes)} min"
    given = counted(round(one.seen), "time", "times")
    return f"{one.words}: {minutes(one.before_minutes)} → {minutes(one.minutes)}, mostly {span}; given {given}"


def rightness_said(one: Rightness) -> str:
    """Say how often the likeliest cause was it."""
    return (
        f"{one.numbers}: the first was it in {one.top_right} of {one.jobs} jobs (it said {percent(one.top_said)}); "
        f"log score {one.log_score:.2f}, Brier score {one.brier:.3f}"
    )


def _few(number: float) -> str:
    """Say a count that older jobs take parts in: without parts from ten on, else to one digit where it has one."""
    return f"{number:.0f}" if number >= 10 or abs(number - round(number)) < 0.05 else f"{number:.1f}"
