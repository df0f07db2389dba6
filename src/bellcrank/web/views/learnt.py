"""The view of what closed jobs taught."""

from dataclasses import dataclass

from bellcrank.figures.reliability import reliability_figure
from bellcrank.figures.said import capital
from bellcrank.shop.learnt_sheet import ImportLine, LearntSheet, MovedRow, MovedShare, Rightness
from bellcrank.shop.learnt_words import head_line, minutes_said, moved_said, rightness_said
from bellcrank.shop.pooling import Brought
from bellcrank.shop.rightness import END, FEWEST
from bellcrank.shop.words import day
from bellcrank.web.views.plain import NO_PROBLEM, Problem

HERE = "/learnt"
SHOWN = 4  # [-] lines of a list before "more"


@dataclass(frozen=True, slots=True)
class MovedView:
    """A number that moved, or would have."""

    words: str
    says: str


@dataclass(frozen=True, slots=True)
class MovedGroup:
    """Numbers of one sort: the first few, and the rest behind a tap."""

    heading: str
    basis: str  # what they rest on now
    note: str
    first: tuple[MovedView, ...]
    more: tuple[MovedView, ...]


@dataclass(frozen=True, slots=True)
class ImportView:
    """Counts of another shop."""

    id: int
    name: str
    words: str
    unknown: str
    came: str
    taken_back: bool


@dataclass(frozen=True, slots=True)
class Offer:
    """A file that was looked at and not taken in yet."""

    name: str
    text: str
    words: str
    unknown: str
    doubt: str


@dataclass(frozen=True, slots=True)
class LearntPage:
    """What closed jobs taught, and how right the tool was."""

    title: str
    here: str
    kind: str
    kind_words: str
    kinds: tuple[tuple[str, str], ...]  # other kinds of machine, id and words
    jobs: str
    state: str  # "In use", "Not used now", "Nothing yet"
    says: str
    unread: bool
    right: tuple[tuple[str, tuple[str, ...]], ...]  # a moment, and a line for each set of numbers
    honest: tuple[str, ...]  # whether what it said came as often as it said
    drawings: tuple[str, ...]
    groups: tuple[MovedGroup, ...]
    imports: tuple[ImportView, ...]
    offer: Offer | None
    problem: Problem


def learnt_page(
    sheet: LearntSheet,
    kinds: tuple[tuple[str, str], ...],
    offer: Offer | None = None,
    problem: Problem = NO_PROBLEM,
) -> LearntPage:
    """Lay out what was learnt."""
    something = bool(sheet.closed_jobs or any(not one.taken_back for one in sheet.imports))
    return LearntPage(
        title="What your jobs taught",
        here=HERE,
        kind=sheet.kind,
        kind_words=capital(sheet.kind_words.split(",")[0]),
        kinds=tuple(one for one in kinds if one[0] != sheet.kind),
        jobs=head_line(sheet),
        state=("In use" if sheet.used else "Not used now") if something else "Nothing yet",
        says=sheet.says,
        unread=bool(sheet.unread_jobs),
        right=_right(sheet.rightness),
        honest=_honest(sheet.rightness),
        drawings=_drawings(sheet.rightness),
        groups=tuple(group for group in _groups(sheet) if group.first),
        imports=tuple(_import(one) for one in sheet.imports),
        offer=offer,
        problem=problem,
    )


def offer_of(brought: Brought, name: str, text: str) -> Offer:
    """Lay out what a file would bring."""
    return Offer(name, text, brought.words, ", ".join(brought.unknown), brought.doubt)


def _right(every: tuple[Rightness, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple(
        (capital(moment), tuple(rightness_said(one) for one in every if one.moment == moment))
        for moment in dict.fromkeys(one.moment for one in every)
    )


def _honest(every: tuple[Rightness, ...]) -> tuple[str, ...]:
    """Say each verdict once; where they differ, of what it is."""
    said = dict.fromkeys(one.says for one in every)
    if len(said) <= 1:
        return tuple(said)
    return tuple(f"{capital(one.moment)}, {one.numbers}: {one.says}" for one in every)


def _drawings(every: tuple[Rightness, ...]) -> tuple[str, ...]:
    """Draw what was said before the repair against what came, once there are jobs enough to look at."""
    return tuple(
        reliability_figure(one.bins, f"Before the repair, {one.numbers}", f"reliability-{number}")
        for number, one in enumerate(every)
        if one.moment == END and one.jobs >= FEWEST
    )


def _groups(sheet: LearntSheet) -> tuple[MovedGroup, ...]:
    times = tuple(MovedView(*minutes_said(one).split(": ", 1)) for one in sheet.minutes)
    held = "These do not change by themselves, whatever the jobs say: change them in the pack, or leave them."
    return (
        _group("How often it is what", "own shop", "", tuple(map(_moved, sheet.shares))),
        _group("What checks show", "own shop", "", tuple(map(_moved, sheet.rows))),
        _group("How long it takes", "own shop", "At the repair alone, as you said on the jobs.", times),
        _group("Held at the pack's", "", held, tuple(map(_moved, sheet.held))),
    )


def _group(heading: str, basis: str, note: str, lines: tuple[MovedView, ...]) -> MovedGroup:
    return MovedGroup(heading, basis, note, lines[:SHOWN], lines[SHOWN:])


def _moved(one: MovedShare | MovedRow) -> MovedView:
    return MovedView(one.words, moved_said(one))


def _import(one: ImportLine) -> ImportView:
    return ImportView(
        one.id, one.file_name or "a file", one.words, ", ".join(one.unknown), day(one.imported_at), one.taken_back
    )
