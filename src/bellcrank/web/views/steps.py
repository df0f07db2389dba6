"""The view of the steps at the bench: a step a screen, and after the last one what still lies on the tray."""

from dataclasses import dataclass

from bellcrank.shop.sheet import JobSheet
from bellcrank.web.views.choices import ChoiceView, outcome_choices
from bellcrank.web.views.plain import NO_PROBLEM, Problem
from bellcrank.web.views.work import StepView, WorkView, work_view

END = "end"  # the screen after the last step


@dataclass(frozen=True, slots=True)
class Screen:
    """A neighbour of a screen: its name, its address, and what is done on it."""

    name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class OnTheTray:
    """What one step of the way in takes off, and whether it lies on the tray now."""

    operation: str
    words: str
    size: str
    off_at: str  # the step that took it off
    lies: bool


@dataclass(frozen=True, slots=True)
class StepPage:
    """One step a screen; without a step, the screen at the end."""

    title: str
    number: int
    machine: str
    work: WorkView
    step: StepView | None
    screen: Screen
    direction: str
    direction_words: str
    position: str
    count: int  # fasteners of the step
    before: Screen | None
    after: Screen | None
    still_open: Screen | None  # the first step that is not done
    tray: tuple[OnTheTray, ...]  # at the end
    repairs: tuple[tuple[str, tuple[ChoiceView, ...]], ...]  # what is done at the part, and what it did
    problem: Problem


def whole_way(sheet: JobSheet, unit: str) -> tuple[StepPage, ...]:
    """Give every screen of the way in and out and the one at the end; none when no way is planned."""
    if sheet.work is None:
        return ()
    work = work_view(sheet.number, sheet.work, unit)
    places = (*work.steps_in, *work.steps_out, None)
    return tuple(_page(sheet, work, places, place, NO_PROBLEM) for place in range(len(places)))


def step_page(
    sheet: JobSheet, unit: str, wanted: tuple[str, int] | None, problem: Problem = NO_PROBLEM
) -> StepPage | None:
    """Show the wanted step (direction and number), or the first one not done; None when no way is planned."""
    if sheet.work is None:
        return None
    work = work_view(sheet.number, sheet.work, unit)
    places = (*work.steps_in, *work.steps_out, None)
    if wanted is None and work.current:
        wanted = (work.current.direction, work.current.number)
    found = (place for place, step in enumerate(places) if step and (step.direction, step.number) == wanted)
    return _page(sheet, work, places, next(found, len(places) - 1), problem)


def _page(
    sheet: JobSheet, work: WorkView, places: tuple[StepView | None, ...], place: int, problem: Problem
) -> StepPage:
    step = places[place]
    screens = tuple(_screen(sheet.number, one, len(work.steps_out)) for one in places)
    direction = step.direction if step else "out"
    same_way = work.steps_in if direction == "in" else work.steps_out
    repairs = sheet.work.repairs if sheet.work and not step else ()
    return StepPage(
        title=f"#{sheet.number} {step.do if step else 'all steps'}",
        number=sheet.number,
        machine=sheet.machine.words,
        work=work,
        step=step,
        screen=screens[place],
        direction=direction,
        direction_words="Way in to" if direction == "in" else "Way back from",
        position=f"{step.number} of {len(same_way)}" if step else "",
        count=sum(one.laid_out for one in step.fasteners) if step else 0,
        before=screens[place - 1] if place else None,
        after=screens[place + 1] if step else None,
        still_open=_screen(sheet.number, work.current, 0) if work.current else None,
        tray=() if step else _tray(work),
        repairs=tuple((one.words, outcome_choices(one.id, one.outcomes, sheet.number)) for one in repairs),
        problem=problem,
    )


def _screen(number: int, step: StepView | None, steps_out: int) -> Screen:
    way, place = (step.direction, step.number) if step else ("out", steps_out + 1)
    name = f"{way}-{place}" if step else END
    return Screen(name, f"/jobs/{number}/steps?way={way}&step={place}", step.do if step else "what lies on the tray")


def _tray(work: WorkView) -> tuple[OnTheTray, ...]:
    back = {step.operation for step in work.steps_out if step.done}
    return tuple(
        OnTheTray(
            step.operation,
            f"{one.count} × {one.words}",
            " · ".join(filter(None, (one.size and f"{one.size} {one.drive}", one.length))),
            step.do,
            step.done and step.operation not in back,
        )
        for step in work.steps_in
        for one in step.fasteners
    )
