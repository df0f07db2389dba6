"""The causes with their reasons and the next things to do, as lines of text."""

from collections.abc import Iterable

from bellcrank.cli.show_because import combination_lines, reason_lines, verdict_lines
from bellcrank.cli.terminal import heading, wrap
from bellcrank.shop.sheet import CauseLine, ChoiceLine, CureLine, JobSheet, NextLine
from bellcrank.shop.words import ahead_words, minutes, percent
from bellcrank.shop.work_sheet import CautionLine

CAUSES_SHOWN = 8  # enough to see where the rest begins
NEXT_SHOWN = 4
NO_COMPLAINT = (
    "Nothing can be ranked before a known complaint is named. “bellcrank complaint {number}” lists them, and "
    "“bellcrank complaint {number} ID” names one."
)


def next_lines(sheet: JobSheet, causes_shown: int = CAUSES_SHOWN, next_shown: int = NEXT_SHOWN) -> list[str]:
    """Say what is likely wrong, why, and what to do next."""
    # On a cured machine the causes stand under what else to look for.
    ranked = [] if sheet.cure.look_also else causes(sheet, causes_shown)
    beside = [*combination_lines(sheet.combinations), *verdict_lines(sheet.verdict)]
    return [*_cure(sheet.cure), *ranked, *beside, *steps_to_take(sheet, next_shown)]


def causes(sheet: JobSheet, shown: int = CAUSES_SHOWN) -> list[str]:
    """Rank the causes, each with its reasons."""
    lines = [heading("causes")]
    if sheet.surprise:
        lines.append(wrap(sheet.surprise, first="! ", indent="  "))
    if not sheet.complaints:
        return [*lines, wrap(NO_COMPLAINT.format(number=sheet.number), indent="  ")]
    for cause in sheet.causes[:shown]:
        lines += _cause(cause)
    rest = len(sheet.causes) - shown
    if rest <= 0:
        return lines
    return [*lines, f"  and {rest} less likely; “bellcrank next {sheet.number} --all” lists them"]


def steps_to_take(sheet: JobSheet, shown: int) -> list[str]:
    """Say the next thing to do in full and the others after it in short."""
    if not sheet.complaints:
        return []
    lines = [heading("next")]
    if not sheet.next:
        return [*lines, "  Nothing left to check or repair."]
    lines += _step_in_full(sheet.number, sheet.next[0], sheet.price.currency)
    if len(sheet.next) > 1 and shown > 1:
        lines += ["", "  or"]
    for step in sheet.next[1:shown]:
        lines += _step_in_short(step)
    return lines


def caution_lines(cautions: Iterable[CautionLine], indent: str = "  ") -> list[str]:
    """Write cautions, what to do first, then what happens otherwise."""
    return [
        wrap(f"{caution.control} {caution.consequence}", first=f"{indent}{caution.signal}: ", indent=f"{indent}  ")
        for caution in cautions
    ]


def _cure(cure: CureLine) -> list[str]:
    if not cure.words and not cure.look_also:
        return []
    lines = [heading("cured?"), wrap(cure.words, indent="  ")] if cure.words else [heading("cured?")]
    if cure.look_also:
        lines.append("  look for these as well:")
    for cause in cure.look_also:
        lines += _cause(cause)
    return lines


def _cause(cause: CauseLine) -> list[str]:
    first = f"  {percent(cause.probability):>9}  {cause.how_sure:<11}  "
    indent = " " * len(first)
    lines = [wrap(f"{cause.words} ({cause.id})", first=first, indent=indent)]
    return [*lines, *reason_lines(indent, cause.reasons_for, cause.reasons_against)]


def _step_in_full(number: int, step: NextLine, currency: str) -> list[str]:
    lines = caution_lines(step.cautions)
    lines += [_listed("off first", step.off_first), _listed("open first", step.open_first)]
    lines += [wrap(step.words, first="> ", indent="  "), wrap(step.why, indent="  ") if step.why else ""]
    lines += [wrap(_cost(step, currency), indent="  "), _listed("tools", step.tools)]
    lines += _lacking(step)
    lines += [_choice(choice) for choice in step.choices]
    return [line for line in [*lines, *_how_to_record(number, step)] if line]


def _cost(step: NextLine, currency: str) -> str:
    access = f" and {minutes(step.access_minutes)} to open and close" if step.access_minutes else ""
    buys = f"; saves {step.saves_per_minute:.1f} min for every minute spent" if step.saves_per_minute > 0 else ""
    work = f"{minutes(step.minutes)} of work{access}{buys}."
    return f"{work} {ahead_words(step.ahead, currency)}".strip()


def _lacking(step: NextLine) -> list[str]:
    if step.lacking is None:
        return []
    lines = [wrap(f"{step.lacking.says} {step.lacking.worth}".strip(), first="  ! ", indent="    ")]
    if step.lacking.instead:
        instead = f"instead: {step.lacking.instead_words} ({step.lacking.instead_kind} {step.lacking.instead})"
        lines.append(wrap(instead, first="    ", indent="      "))
    return lines


def _choice(choice: ChoiceLine) -> str:
    return wrap(f"{choice.words}", first=f"    {percent(choice.probability):>9}  {choice.id:<14} ", indent=" " * 30)


def _how_to_record(number: int, step: NextLine) -> list[str]:
    if step.kind == "check":
        lines = [f"  record it:  bellcrank found {number} {step.id} RESULT   (or not-sure)"]
        if step.reading_unit:
            lines.append(
                f"  or:         bellcrank found {number} {step.id} --reading NUMBER   (in {step.reading_unit})"
            )
            lines.append(f"              {step.instrument}")
    elif step.kind == "repair":
        lines = [f"  record it:  bellcrank repaired {number} {step.id} {'|'.join(step.outcomes)}"]
    else:
        lines = []
    if step.target:
        lines.append(f"  the way in:  bellcrank steps {number} --to {step.target}")
    return lines


def _step_in_short(step: NextLine) -> list[str]:
    time = minutes(step.minutes + step.access_minutes)
    lines = [wrap(step.words, first="  - ", indent="    ")]
    if step.lacking:
        lines.append(wrap(f"not here: {', '.join(step.lacking.tools)}", first="    ", indent="    "))
    return [*lines, f"    {time}   ({step.kind} {step.id})" if step.kind != "stop" else f"    {time}"]


def _listed(label: str, things: tuple[str, ...]) -> str:
    return wrap("; ".join(things), first=f"  {label}: ", indent="    ") if things else ""
