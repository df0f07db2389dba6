"""A job replayed, as lines of text."""

from bellcrank.cli.terminal import beside, heading, wrap
from bellcrank.shop.replay_sheet import BelievedLine, DoneLine, ReplaySheet, ReplayStep
from bellcrank.shop.words import minutes, percent

CAUSES_IN_A_ROW = 2


def all_steps(sheet: ReplaySheet) -> list[str]:
    """List the steps, each with what led then."""
    lines = [*_head(sheet), heading("steps")]
    for step in sheet.steps:
        lines.append(wrap("; ".join(step.words), first=f"  {step.number:>3}  ", indent=" " * 7))
        led = ", ".join(f"{percent(one.probability)} {one.words}" for one in step.causes[:CAUSES_IN_A_ROW])
        lines.append(wrap(led, indent=" " * 7))
        if step.surprise:
            lines.append(wrap(step.surprise, first="     ! ", indent=" " * 7))
    lines += [heading("belief over the steps"), *_paths(sheet)]
    return [*lines, wrap(f"One step: bellcrank replay {sheet.number} --step 0", indent="  ")]


def one_step(sheet: ReplaySheet, step: ReplayStep, *, quiz: bool = False) -> list[str]:
    """Show a step: what was known, what was believed, what was advised and what was done."""
    last = sheet.steps[-1].number
    lines = [*_head(sheet), heading(f"step {step.number} of {last}")]
    for earlier in sheet.steps[: step.number]:
        lines.append(wrap("; ".join(earlier.words), first=f"  {earlier.number:>3}  ", indent=" " * 7))
    lines.append(wrap("; ".join(step.words), first=f"> {step.number:>3}  ", indent=" " * 7))
    lines += [heading("believed then"), *(_believed(one) for one in step.causes)]
    if step.surprise:
        lines.append(wrap(step.surprise, first="! ", indent="  "))
    if step.cure_words:
        lines.append(wrap(step.cure_words, indent="  "))
    if quiz:
        return [*lines, heading("what would you do next?"), "  Answer first; then ask again without --quiz."]
    return [*lines, *_advised(step), *_done(step.done)]


def _head(sheet: ReplaySheet) -> list[str]:
    return [
        beside(f"#{sheet.number}  {sheet.machine}", "replay"),
        *([wrap(f"“{sheet.complaint_words}”", indent="  ")] if sheet.complaint_words else []),
    ]


def _paths(sheet: ReplaySheet) -> list[str]:
    rows = [(one.words, one.probabilities) for one in sheet.paths] + [("the likeliest of all others", sheet.rest)]
    return [
        wrap(f"{words}: {' > '.join(percent(one).removesuffix(' %') for one in row)}", first="  ", indent="      ")
        for words, row in rows
    ]


def _believed(one: BelievedLine) -> str:
    moved = f", {percent(one.before)} before" if one.before is not None else ""
    first = f"  {percent(one.probability):>9}  {one.how_sure:<11}  "
    return wrap(f"{one.words}{moved}", first=first, indent=" " * len(first))


def _advised(step: ReplayStep) -> list[str]:
    if step.advised is None:
        return []
    one = step.advised
    time = minutes(one.minutes + one.access_minutes)
    lines = [heading("advised then"), wrap(f"{one.words}, {time}", first="> ", indent="  ")]
    lines.append(wrap(one.why, indent="  "))
    return [*lines, *(wrap(other, first="  or ", indent="     ") for other in step.also_advised)]


def _done(done: DoneLine | None) -> list[str]:
    if done is None:
        return []
    return [heading("done"), wrap(done.said, indent="  ")]
