"""The views of a replayed job: the picture with its list, and one step a screen."""

from dataclasses import dataclass

from bellcrank.figures.belief_steps import REST, Path, belief_steps
from bellcrank.figures.said import capital
from bellcrank.shop.replay_sheet import ReplaySheet, ReplayStep
from bellcrank.shop.words import in_a_hundred, minutes, percent
from bellcrank.web.views.because import Share, share


@dataclass(frozen=True, slots=True)
class StepRow:
    """A step in the list beside the picture."""

    number: int
    words: str
    led: str  # what led then
    surprise: str


@dataclass(frozen=True, slots=True)
class ReplayPage:
    """A job over its steps."""

    title: str
    number: int
    machine: str
    said: str
    picture: str  # "" with one step: nothing has moved yet
    steps: tuple[StepRow, ...]
    table: tuple[tuple[str, tuple[str, ...]], ...]  # a cause and its probability, step by step


@dataclass(frozen=True, slots=True)
class ReplayStepPage:
    """One step a screen."""

    title: str
    number: int
    machine: str
    step: int
    last: int
    came: str
    before: tuple[StepRow, ...]
    believed: tuple[tuple[Share, str], ...]  # a cause now, and how it was before
    surprise: str
    cure_words: str
    advised: str
    why: str
    also_advised: tuple[str, ...]
    done: str


def replay_page(sheet: ReplaySheet) -> ReplayPage:
    """Lay out the whole job."""
    paths = tuple(Path(one.words, one.probabilities) for one in sheet.paths)
    rows = (*((one.words, one.probabilities) for one in sheet.paths), (REST, sheet.rest))
    return ReplayPage(
        title=f"#{sheet.number} step by step",
        number=sheet.number,
        machine=sheet.machine,
        said=sheet.complaint_words,
        picture=belief_steps(paths, sheet.rest) if len(sheet.steps) > 1 else "",
        steps=tuple(_row(step) for step in sheet.steps),
        table=tuple((words, tuple(in_a_hundred(one) for one in row)) for words, row in rows),
    )


def replay_step_page(sheet: ReplaySheet, step: ReplayStep) -> ReplayStepPage:
    """Lay out one step, the advice folded away."""
    advised = step.advised
    return ReplayStepPage(
        title=f"#{sheet.number} step {step.number}",
        number=sheet.number,
        machine=sheet.machine,
        step=step.number,
        last=sheet.steps[-1].number,
        came=capital("; ".join(step.words)),
        before=tuple(_row(one) for one in sheet.steps[: step.number]),
        believed=tuple(
            (share(one.words, one.probability), f"{percent(one.before)} before" if one.before is not None else "")
            for one in step.causes
        ),
        surprise=step.surprise,
        cure_words=step.cure_words,
        advised=f"{advised.words}, {minutes(advised.minutes + advised.access_minutes)}" if advised else "",
        why=advised.why if advised else "",
        also_advised=step.also_advised,
        done=step.done.said if step.done else "",
    )


def _row(step: ReplayStep) -> StepRow:
    first = step.causes[0]
    return StepRow(step.number, "; ".join(step.words), f"{percent(first.probability)} {first.words}", step.surprise)
