"""The view of a job sheet: the one next thing on top, the rest in the order of the work."""

from dataclasses import dataclass

from bellcrank.diagnosis.next_step import ASK
from bellcrank.knowledge.model import Pack
from bellcrank.shop.cords import COUNTED_CHECK
from bellcrank.shop.further import FurtherLine
from bellcrank.shop.settings import Settings
from bellcrank.shop.sheet import CauseLine, EventLine, JobSheet, NextLine, PhotoLine, WasLine
from bellcrank.shop.tool_sheet import LackingLine
from bellcrank.shop.words import ahead_words, minutes, percent, when
from bellcrank.shop.work import NO_STEPS_YET
from bellcrank.shop.work_sheet import CautionLine
from bellcrank.web.views.because import ChangesView, Share, changes_view, shares
from bellcrank.web.views.choices import ChoiceView, outcome_choices
from bellcrank.web.views.handback import ReleaseView, release_view
from bellcrank.web.views.money import PriceView, price_view
from bellcrank.web.views.plain import NO_PROBLEM, Problem
from bellcrank.web.views.ways import target_choices
from bellcrank.web.views.work import WorkView, work_view

OTHERS_SHOWN = 5
MORE_SECONDS = "20"  # [s] enough for all steps on a slow computer
CAUSES_SHOWN = 7
MOVES_SHOWN = 1
CORD_COMPLAINTS, CORD_CHECKS = ("kicks-back", "cord-wont-pull"), ("cord-feel", COUNTED_CHECK)
CLOSED = {
    "ready": "It is ready: call the customer.",
    "ready with notes": "It is ready, with notes: call the customer and read them the notes.",
    "gone": "It was fetched. Take it in again as a new job if it comes back.",
    "returned not ready": "It went back not ready for use. Take it in again as a new job if it comes back.",
}


@dataclass(frozen=True, slots=True)
class CauseView:
    """A cause with its bar and reasons."""

    words: str
    sure: str
    percent: str
    bar: str
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]
    why: str  # where its whole story stands


@dataclass(frozen=True, slots=True)
class NextView:
    """Something to do next, with the buttons that record it."""

    kind: str
    kind_words: str
    words: str
    why: str
    time: str
    access: str
    buys: str
    off_first: tuple[str, ...]
    tools: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    lacking: LackingLine | None
    choices: tuple[ChoiceView, ...]
    target: str
    ahead: str  # minutes and money to a cured machine this way
    id: str
    reading_unit: str
    instrument: str


@dataclass(frozen=True, slots=True)
class HistoryView:
    """A line of what happened."""

    id: int
    when: str
    words: str
    by: str
    taken_back: bool
    can_take_back: bool


@dataclass(frozen=True, slots=True)
class JobPage:
    """A job sheet as a page."""

    title: str
    number: int
    state: str
    taken_in: str
    machine: str
    serial: str
    engine: str
    customer_name: str
    customer_phone: str
    complaint_words: str
    complaints: tuple[str, ...]
    facts: tuple[str, ...]
    photos: tuple[PhotoLine, ...]
    complaint_choices: tuple[tuple[str, str], ...]
    closed: str  # what is to be said of a job that is ready or gone, else ""
    plate: NextView | None
    others: tuple[NextView, ...]
    causes: tuple[CauseView, ...]
    more_causes: tuple[CauseView, ...]
    together: tuple[Share, ...]  # the likely combinations
    changes: ChangesView | None  # what would change the verdict
    surprise: str
    cure_state: str
    cure_words: str
    look_also: tuple[CauseView, ...]
    work: WorkView | None
    targets: tuple[tuple[str, str], ...]
    no_steps_yet: str  # said in place of the way in and back where there are no targets
    release: ReleaseView
    price: PriceView
    history: tuple[HistoryView, ...]
    take_back: str
    cord: str  # where it is asked what the cord did
    cord_first: bool  # whether that belongs beside the next thing
    was: WasLine | None  # what is asked of a cured job for those to come
    problem: Problem
    everything: bool  # all checks and repairs, on a page of their own


@dataclass(frozen=True, slots=True)
class FurtherPage:
    """What a look two steps ahead says, as a page."""

    title: str
    number: int
    words: str
    others: tuple[NextView, ...]
    problem: Problem
    everything: bool  # a page of its own: what is tapped leads back to the sheet
    more: str  # seconds to give it when the time was up, else ""


def further_page(sheet: JobSheet, looked: FurtherLine) -> FurtherPage:
    """Lay out what a look two steps ahead says, with the first few things to do."""
    others = tuple(_next(line, sheet.number, sheet.price.currency) for line in looked.next[: 1 + OTHERS_SHOWN])
    more = MORE_SECONDS if looked.looked_at < looked.to_look_at else ""
    return FurtherPage(f"#{sheet.number} two steps ahead", sheet.number, looked.words, others, NO_PROBLEM, True, more)


def job_page(
    sheet: JobSheet, pack: Pack, settings: Settings, problem: Problem = NO_PROBLEM, *, everything: bool = False
) -> JobPage:
    """Lay out a job sheet; with ``everything`` all that can be done next stands on it, not only the best."""
    causes = tuple(cause_view(line, sheet.number) for line in sheet.causes)
    ranked = tuple(_next(line, sheet.number, sheet.price.currency) for line in sheet.next)
    cured = sheet.cure.state == "cured"
    return JobPage(
        title=f"#{sheet.number} {sheet.machine.words}",
        number=sheet.number,
        state=sheet.state,
        taken_in=when(sheet.taken_in_at),
        machine=sheet.machine.words,
        serial=sheet.machine.serial,
        engine=sheet.machine.engine_words,
        customer_name=sheet.customer.name,
        customer_phone=sheet.customer.phone,
        complaint_words=sheet.complaint_words,
        complaints=sheet.complaints,
        facts=sheet.facts,
        photos=sheet.photos,
        complaint_choices=() if sheet.complaints else tuple((one.id, one.words) for one in pack.complaints),
        closed=CLOSED.get(sheet.state, ""),
        plate=None if cured or not ranked else ranked[0],
        others=ranked if everything else () if cured else ranked[1 : 1 + OTHERS_SHOWN],
        causes=causes[:CAUSES_SHOWN],
        more_causes=causes[CAUSES_SHOWN:],
        together=shares(sheet.combinations),
        changes=changes_view(sheet.verdict, MOVES_SHOWN),
        surprise=sheet.surprise,
        cure_state=sheet.cure.state,
        cure_words=sheet.cure.words,
        look_also=tuple(cause_view(line, sheet.number) for line in sheet.cure.look_also),
        work=work_view(sheet.number, sheet.work, settings.torque_unit) if sheet.work else None,
        targets=target_choices(pack.assemblies),
        no_steps_yet=NO_STEPS_YET,
        release=release_view(sheet.release),
        price=price_view(sheet.price),
        history=tuple(_history(line) for line in sheet.events),
        take_back=sheet.last_event.words if sheet.last_event else "",
        cord=f"/jobs/{sheet.number}/cord" if pack.engine_cards else "",
        cord_first=_about_the_cord(sheet, pack),
        was=sheet.was,
        problem=problem,
        everything=everything,
    )


def _about_the_cord(sheet: JobSheet, pack: Pack) -> bool:
    """Whether it came in for its cord, or the cord is asked about next."""
    of_cord = {one.words for one in pack.complaints if one.id in CORD_COMPLAINTS}
    return bool(of_cord & set(sheet.complaints)) or any(one.id in CORD_CHECKS for one in sheet.next[:1])


def cause_view(line: CauseLine, number: int) -> CauseView:
    """Lay out a cause with its bar and reasons."""
    return CauseView(
        words=line.words,
        sure=line.how_sure,
        percent=percent(line.probability),
        bar=f"{max(1.0, 100 * line.probability):.0f}",
        speaks_for=tuple(one.words for one in line.reasons_for),
        speaks_against=tuple(one.words for one in line.reasons_against),
        why=f"/jobs/{number}/why/{line.id}",
    )


def _next(line: NextLine, number: int, currency: str) -> NextView:
    return NextView(
        kind=line.kind,
        kind_words={"check": "Check", "repair": "Repair", "stop": "Ask" if line.id == ASK else "Stop here"}[line.kind],
        words=line.words,
        why=line.why,
        time=minutes(line.minutes + line.access_minutes),
        access=_access_words(line),
        buys=f"saves {line.saves_per_minute:.1f} min a minute" if line.saves_per_minute >= 0.05 else "",
        off_first=line.off_first,
        tools=line.tools,
        cautions=line.cautions,
        lacking=line.lacking,
        choices=choices(line, number),
        target=line.target or "",
        ahead=ahead_words(line.ahead, currency),
        id=line.id,
        reading_unit=line.reading_unit,
        instrument=line.instrument,
    )


def _access_words(line: NextLine) -> str:
    if not line.open_first:
        return ""
    return f"opens first: {', '.join(line.open_first)} ({minutes(line.access_minutes)} to open and close)"


def choices(line: NextLine, number: int) -> tuple[ChoiceView, ...]:
    """Give the buttons that record the outcome of a check or repair."""
    if line.kind == "check":
        action = f"/jobs/{number}/found"
        answers = tuple(
            ChoiceView(action, (("check", line.id), ("result", one.id)), one.words, percent(one.probability), "answer")
            for one in line.choices
        )
        unsure = ChoiceView(action, (("check", line.id), ("result", "not-sure")), "not sure", "", "unsure")
        return (*answers, unsure)
    if line.kind == "repair":
        return outcome_choices(line.id, line.outcomes, number)
    return ()


def _history(line: EventLine) -> HistoryView:
    return HistoryView(line.id, when(line.at), line.words, line.by, line.taken_back, line.can_take_back)
