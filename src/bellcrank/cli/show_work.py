"""The way in to a part and the way back out, as lines of text."""

from bellcrank.cli.show_next import caution_lines
from bellcrank.cli.terminal import heading, wrap
from bellcrank.knowledge.assembly import Fastener
from bellcrank.shop.captured_sheet import FoundLine, missing_words
from bellcrank.shop.words import (
    by_hand_words,
    counted,
    gap_in_words,
    gap_words,
    minutes,
    rounds_of,
    torque_line,
    why_words,
)
from bellcrank.shop.work_sheet import FastenerLine, FetchLine, OtherWay, StepLine, WorkSheet

NO_WORK = "No part has been chosen to get to. Choose one with: bellcrank steps NUMBER --to PART."


def work_lines(number: int, work: WorkSheet | None, direction: str = "both") -> list[str]:
    """Say the tools to fetch, then each step with its cautions before it."""
    if work is None:
        return [wrap(NO_WORK)]
    lines = summary(work)
    if direction in ("in", "both"):
        lines += way("the way in", work.steps_in, work.torque_unit, work.captured.found)
    if work.work_between and direction == "both":
        lines += [heading("at the part"), wrap(work.work_between, indent="  ")]
    if direction in ("out", "both"):
        lines += way("the way back", work.steps_out, work.torque_unit, work.captured.found)
    return [*lines, *_how_to_tick(number, work)]


def after_tick(number: int, work: WorkSheet | None) -> list[str]:
    """Say what comes next after a tick, in full."""
    if work is None:
        return [wrap(NO_WORK)]
    if work.current is None:
        return ["Everything is back on."]
    done = sum(step.done for step in (*work.steps_in, *work.steps_out))
    where = f"step {done + 1} of {len(work.steps_in) + len(work.steps_out)}, on the way {work.current.direction}"
    tray = counted(work.on_the_tray, "fastener", "fasteners")
    return [
        f"{where}; {tray} on the tray",
        "",
        *step_lines(work.current, work.torque_unit),
        *found_lines(work.captured.found, work.current.operation),
        *_how_to_tick(number, work),
    ]


def _how_to_tick(number: int, work: WorkSheet) -> list[str]:
    return ["", f"tick it off:  bellcrank steps {number} --tick {work.current.operation}"] if work.current else []


def summary(work: WorkSheet) -> list[str]:
    """Say where the work leads to, how long it takes, what to fetch and where it stands."""
    lines = [
        wrap(f"way to: {work.target_words}", indent="    ", first="  "),
        wrap(
            f"{minutes(work.minutes_in)} in, {minutes(work.minutes_out)} back ({gap_in_words(work.gap)}); "
            f"{counted(work.on_the_tray, 'fastener', 'fasteners')} on the tray now",
            indent="  ",
        ),
    ]
    lines += fetch_lines(work.fetch)
    if work.current:
        lines.append(wrap(work.current.do, first="  next step: ", indent="    "))
    return lines


def fetch_lines(fetch: tuple[FetchLine, ...]) -> list[str]:
    """Say which tools are not in this shop, then what to fetch."""
    lines = [
        wrap(f"not in this shop: {one.tool}. {one.says}", first="! ", indent="  ") for one in fetch if not one.here
    ]
    if fetch:
        lines.append(wrap("; ".join(one.tool for one in fetch), first="  fetch first: ", indent="    "))
    return lines


def other_lines(others: tuple[OtherWay, ...]) -> list[str]:
    """Say what else could be done at each either-or, and what it would take."""
    lines = [
        wrap(f"{one.instead} (instead of: {one.used}): {one.says}{_barring(one)}", first="  - ", indent="    ")
        for one in others
    ]
    return ["  or:", *lines] if lines else []


def _barring(one: OtherWay) -> str:
    return "".join(f" --without {name}" for name in one.barred) if one.more is not None else ""


def way(title: str, steps: tuple[StepLine, ...], torque_unit: str, found: tuple[FoundLine, ...] = ()) -> list[str]:
    """Write the steps of one way, with what was found at them."""
    lines = [heading(title)]
    for step in steps:
        lines += [*step_lines(step, torque_unit), *found_lines(found, step.operation)]
    return lines


def found_lines(found: tuple[FoundLine, ...], operation: str) -> list[str]:
    """Say what was found at a step."""
    return [wrap(one.words, first=f"{' ' * 9}found: ", indent=" " * 11) for one in found if one.operation == operation]


def step_lines(step: StepLine, torque_unit: str) -> list[str]:
    """Write one step: cautions, turning the machine, what to do, its fasteners, what to check after it."""
    indent = " " * 9
    lines = caution_lines(step.cautions, "    ")
    if step.turn_first:
        lines.append(wrap(step.turn_first, first="    first: ", indent=indent))
    mark = "x" if step.done else " "
    tool = f" [{step.tool}]" if step.tool and step.tool != "hand" else ""
    lines.append(wrap(f"{step.do}{tool}", first=f"[{mark}] {step.number:>3}. ", indent=indent))
    lines.append(f"{indent}{minutes(step.minutes)}   {step.operation}")
    if step.why:
        lines.append(wrap(why_words(step.why), first=f"{indent}why: ", indent=f"{indent}  "))
    for fastener in step.fasteners:
        lines += fastener_lines(fastener, indent, torque_unit if step.direction == "out" else "")
    lines += [wrap(one, first=f"{indent}hidden: ", indent=f"{indent}  ") for one in step.hidden]
    lines += [wrap(one, first=f"{indent}new: ", indent=f"{indent}  ") for one in step.renew]
    lines += [
        wrap(f"{one.where}: {gap_words(one)}, {one.basis}", first=f"{indent}gap: ", indent=f"{indent}  ")
        for one in step.gaps
    ]
    if step.numbers:
        lines.append(wrap(", ".join(step.numbers), first=f"{indent}numbers: ", indent=f"{indent}  "))
    for one in step.reckoned:
        lines.append(wrap(f"{one.title}: {one.said}, {one.basis}", first=f"{indent}worked out: ", indent=f"{indent}  "))
    lines += [wrap(check, first=f"{indent}check: ", indent=f"{indent}  ") for check in (*step.checks, *step.free)]
    return lines


def fastener_lines(line: FastenerLine, indent: str, torque_unit: str) -> list[str]:
    """Write one group of fasteners, with its torque in the shop's unit; without one when no unit is given."""
    lines = [wrap(_fastener(line.fastener), first=f"{indent}- ", indent=f"{indent}  ")]
    missing = missing_words(line.fastener, "out" if torque_unit else "in")
    if missing:
        lines.append(wrap(missing, first=f"{indent}  ", indent=f"{indent}  "))
    if not torque_unit:
        return lines
    if line.torque is None:
        words = line.no_torque_words
        return [*lines, wrap(words, indent=f"{indent}  ")] if words else lines
    lines.append(wrap(torque_line(line.torque, torque_unit), first=f"{indent}  torque: ", indent=f"{indent}    "))
    if line.torque.doubt:
        lines.append(wrap(line.torque.doubt, first=f"{indent}  doubt: ", indent=f"{indent}    "))
    if line.torque.governs:
        lines.append(wrap(line.torque.governs, first=f"{indent}  limit: ", indent=f"{indent}    "))
    if line.torque.widen:
        lines.append(wrap(line.torque.widen, first=f"{indent}  wider: ", indent=f"{indent}    "))
    if line.by_hand:
        lines.append(wrap(line.by_hand, first=f"{indent}  hand: ", indent=f"{indent}    "))
    rounds = rounds_of(line, torque_unit)
    if rounds:
        lines.append(wrap(", then ".join(rounds), first=f"{indent}  rounds: ", indent=f"{indent}    "))
    care = "; ".join(_care(line.fastener))
    return [*lines, wrap(care, first=f"{indent}  care: ", indent=f"{indent}    ")] if care else lines


def _fastener(fastener: Fastener) -> str:
    size = ", ".join(part for part in (fastener.thread, fastener.size, _length(fastener), fastener.where) if part)
    return f"{fastener.count} × {fastener.words}" + (f" ({size})" if size else "")


def _length(fastener: Fastener) -> str:
    return f"{fastener.length_mm:g} mm long" if fastener.length_mm is not None else ""


def _care(fastener: Fastener) -> list[str]:
    care = [part for part in (fastener.thread_care, by_hand_words(fastener), fastener.pattern) if part]
    if fastener.single_use:
        care.append("use a new one")
    if fastener.safety_joint:
        care.append("safety joint: mark it and check it again")
    return care
