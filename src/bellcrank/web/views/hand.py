"""The view of somebody's own hand: whose, on which thread, the readings so far, and what they say."""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.both_systems import both_windows, show_torque
from bellcrank.fastening.hand import FEWEST_READINGS, span
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.hand import HOW, HandLine, PersonHand
from bellcrank.shop.settings import CHOICES
from bellcrank.shop.words import counted
from bellcrank.web.views.numbers import THREADS, Question, Tap, other_numbers
from bellcrank.web.views.plain import NO_PROBLEM, Problem

HERE = "/numbers/hand"
KEPT = ("person", "thread", "unit", "wanted")  # what an address of this page carries


@dataclass(frozen=True, slots=True)
class ReadingView:
    """A reading; one that was taken back keeps its place, so that no other comes under a thumb that bounces."""

    id: int
    typed: str
    stands: bool


@dataclass(frozen=True, slots=True)
class KnownHand:
    """What is known of somebody's hand, beside what the page is about."""

    heading: str
    threads: tuple[tuple[str, str, str], ...]  # name, what the readings say, their address


@dataclass(frozen=True, slots=True)
class HandPage:
    """A guided measurement of somebody's hand."""

    title: str
    here: str
    rooms: tuple[tuple[str, str], ...]
    person: str
    thread: str  # as read, "" before one is told
    questions: tuple[Question, ...]
    how: tuple[str, ...]
    unit: str
    units: tuple[str, ...]
    readings: tuple[ReadingView, ...]
    last_seen: int  # the newest of them, so that one tap sent twice is one reading
    count_words: str
    window: str  # "5 to 9 N·m (44 to 80 in·lb)", "" while the readings say nothing
    lines: tuple[tuple[str, str], ...]
    says: str  # why enough readings give no window, "" else
    against: str
    others: tuple[KnownHand, ...]  # this hand's first
    carried: tuple[tuple[str, str], ...]
    typed: dict[str, str]
    problem: Problem

    def kept(self, name: str) -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, "")


def hand_page(
    known: PersonHand | None,
    thread: str,
    everyone: tuple[PersonHand, ...],
    typed: Mapping[str, str],
    unit: str,
    against: str = "",
    problem: Problem = NO_PROBLEM,
) -> HandPage:
    """Lay out a hand on a thread; ``known`` is missing while nobody was named and the shop has no mechanic."""
    said = {name: typed[name] for name in KEPT if typed.get(name)}
    person = known.person if known else ""
    line = known.on(thread) if known else None
    shown = unit if unit in CHOICES["torque_unit"] else CHOICES["torque_unit"][0]
    return HandPage(
        title="My own hand",
        here=HERE,
        rooms=other_numbers(),
        person=person,
        thread=thread,
        questions=_questions(said, person, tuple(one.person for one in everyone), thread),
        how=HOW,
        unit=shown,
        units=CHOICES["torque_unit"],
        readings=_readings(known, thread),
        last_seen=max((one.id for one in line.readings), default=0) if line else 0,
        count_words=_count(line),
        window=both_windows(line.hand.low, line.hand.high, shown) if line and line.hand else "",
        lines=_figures(line, shown),
        says=line.says if line and line.promises_nothing else "",
        against=against,
        others=_others(everyone, said, (person, thread), shown),
        carried=tuple(said.items()),
        typed=dict(typed),
        problem=problem,
    )


def _questions(said: Mapping[str, str], person: str, people: tuple[str, ...], thread: str) -> tuple[Question, ...]:
    names = tuple(dict.fromkeys((*((person,) if person else ()), *people)))
    whose = Question(
        key="person",
        words="Whose hand",
        answer=person,
        taps=tuple(Tap(name, _address(said, "person", name), name == person) for name in names),
        open=not person,
    )
    which = Question(
        key="thread",
        words="The thread",
        answer=thread,
        taps=tuple(
            Tap(name, _address(said, "thread", name), bool(thread) and parse_thread(name).name == thread)
            for name in THREADS
        ),
        open=bool(person) and not thread,
    )
    return whose, which


def _address(said: Mapping[str, str], name: str, value: str) -> str:
    return f"{HERE}?{urlencode(dict(said) | {name: value})}"


def _readings(known: PersonHand | None, thread: str) -> tuple[ReadingView, ...]:
    """Give the readings of a thread in the order they were taken, also those taken back."""
    if known is None:
        return ()
    line = known.on(thread)
    gone = (one for one in known.taken_back if one.thread == thread)
    every = sorted((*(line.readings if line else ()), *gone), key=lambda one: one.id)
    return tuple(ReadingView(one.id, one.typed, one.stands) for one in every)


def _count(line: HandLine | None) -> str:
    taken = len(line.readings) if line else 0
    return f"{taken} of {FEWEST_READINGS}" if taken < FEWEST_READINGS else f"{taken} readings"


def _figures(line: HandLine | None, unit: str) -> tuple[tuple[str, str], ...]:
    if line is None or line.hand is None:
        return ()
    hand = line.hand
    return (
        ("on average", f"{show_torque(hand.mean, unit)}, give or take {show_torque(hand.mean_uncertainty, unit)}"),
        ("one pull to the next", f"differs by {show_torque(hand.deviation, unit)}, as a rule"),
        ("in a joint", f"the clamp scatters ±{hand.scatter:.0%}; by torque wrench it is ±25%"),
    )


def _others(
    everyone: tuple[PersonHand, ...], said: Mapping[str, str], here: tuple[str, str], unit: str
) -> tuple[KnownHand, ...]:
    """Say what is known beside this person and thread; what was wanted on this one is not wanted there."""
    person, thread = here
    elsewhere = {name: value for name, value in said.items() if name != "wanted"}
    rows = {
        hand.person: tuple(
            (
                line.thread,
                _in_short(line, unit),
                _address(elsewhere | {"person": hand.person}, "thread", line.thread),
            )
            for line in hand.lines
            if (hand.person, line.thread) != here
        )
        for hand in sorted(everyone, key=lambda hand: hand.person != person)
    }
    return tuple(
        KnownHand(f"{who}'s {'other threads' if who == person and thread else 'hand'}", threads)
        for who, threads in rows.items()
        if threads
    )


def _in_short(line: HandLine, unit: str) -> str:
    count = len(line.readings)
    if line.hand is not None:
        return f"{span(line.hand.low, line.hand.high, unit)}, {counted(count, 'reading', 'readings')}"
    if line.promises_nothing:
        return f"{counted(count, 'reading', 'readings')}, too far apart to promise anything"
    return f"{count} of {FEWEST_READINGS} readings"
