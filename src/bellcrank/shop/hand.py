"""Somebody's own hand: readings of bolts tightened by feel, kept per person, and what they say per size of thread."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from bellcrank.errors import BellcrankError, NotAllowedNow, NotUnderstood, OutOfRange
from bellcrank.fastening.hand import FEWEST_READINGS, HandOnThread, hand_on, refuse_readings_that_cannot_be, span
from bellcrank.fastening.hand_against import CarriedHand, HandAgainst, carry_over, hand_against
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.threads import Thread, parse_thread
from bellcrank.shop.premises import Shop
from bellcrank.shop.settings import settings_from
from bellcrank.shop.storage.engine import OpenFile
from bellcrank.shop.storage.hands import (
    KeptReading,
    NewReading,
    add_hand_readings,
    mark_reading_taken_back,
    read_hand_readings,
    read_people,
)
from bellcrank.shop.storage.things import read_setting_rows
from bellcrank.shop.texts import clean_line
from bellcrank.shop.work_sheet import TorqueLine
from bellcrank.teardown.torques import WRENCH_SHARE
from bellcrank.units import read_positive

HOW = (
    "Tighten five or more screws of one thread by feel, as you always do.",
    "Set a torque wrench low, pull each screw on slowly, and read the wrench at the moment it moves.",
    "Keep every reading as it is, also the odd one.",
)
WRENCH_ONLY = "This is a safety joint: use the torque wrench."


@dataclass(frozen=True, slots=True)
class HandLine:
    """One size of thread: the readings that stand, and what they say."""

    thread: str
    readings: tuple[KeptReading, ...]
    hand: HandOnThread | None  # None: they say nothing yet
    says: str

    @property
    def promises_nothing(self) -> bool:
        """Whether enough were taken, and they lie too far apart."""
        return self.hand is None and len(self.readings) >= FEWEST_READINGS


@dataclass(frozen=True, slots=True)
class PersonHand:
    """All that is known of a person's hand, smallest thread first."""

    person: str
    lines: tuple[HandLine, ...]
    taken_back: tuple[KeptReading, ...]

    @property
    def hands(self) -> tuple[HandOnThread, ...]:
        """The sizes that say something."""
        return tuple(line.hand for line in self.lines if line.hand is not None)

    def on(self, thread: str) -> HandLine | None:
        """Give what was read on one size of thread, "M6×1"."""
        return next((line for line in self.lines if line.thread == thread), None)


def record_readings(
    shop: Shop,
    thread: str,
    typed: Sequence[str],
    *,
    unit: str | None = None,
    person: str = "",
    wrench: str = "",
    after: int | None = None,
) -> tuple[int, ...]:
    """Keep readings of one size of thread, all or none, and give their ids; ``unit`` is meant where none is typed.

    ``after`` is the last reading that was seen when these were sent: where the very same were kept since, one tap came
    in twice, and nothing more is kept. Two equal readings one after the other are two.
    """
    size = parse_thread(thread)
    note = clean_line(wrench, "The note on the wrench", field="wrench")
    if not any(text.strip() for text in typed):
        raise NotUnderstood("There is no reading to keep. Type what the wrench showed, like 9 N·m.", "reading")
    alone = len(typed) == 1
    read = [
        read_positive(
            text, "torque", default=unit, what=f"{'The reading' if alone else f'Reading {place}'} of {size.name}"
        )
        for place, text in enumerate(typed, start=1)
    ]
    now = shop.now()
    with shop.storage.writing() as connection:
        who = _whose(connection, person)
        before = [one for one in _standing(connection, who) if one.thread == size.name]
        since = [one for one in before if after is not None and one.id > after]
        if since and [one.torque_nm for one in since] == [one.si for one in read]:
            return tuple(one.id for one in since)
        refuse_readings_that_cannot_be(size, [*(one.torque_nm for one in before), *(one.si for one in read)])
        new = [NewReading(who, size.name, one.si, _with_unit(one.typed, one.unit.symbol), note) for one in read]
        return add_hand_readings(connection, new, now)


def record_reading(
    shop: Shop,
    thread: str,
    typed: str,
    *,
    unit: str | None = None,
    person: str = "",
    wrench: str = "",
    after: int | None = None,
) -> int:
    """Keep one reading and give its id."""
    return record_readings(shop, thread, (typed,), unit=unit, person=person, wrench=wrench, after=after)[0]


def take_back_reading(shop: Shop, reading_id: int | None = None, *, person: str = "", by: str = "") -> str:
    """Take back a reading of a person, the last one when none is named, and say which.

    One that is named and was taken back before stays so: one tap came in twice, and no other is taken.
    """
    who_does = clean_line(by, "The name of who did it")
    now = shop.now()
    with shop.storage.writing() as connection:
        who = _whose(connection, person)
        kept = read_hand_readings(connection, who)
        chosen = next(
            (one for one in reversed(kept) if one.id == reading_id or (reading_id is None and one.stands)), None
        )
        if chosen is None:
            what = "There is no reading to take back" if reading_id is None else f"There is no reading {reading_id}"
            raise NotAllowedNow(f"{what} for {who}. Look at the readings of this hand.")
        if chosen.stands:
            mark_reading_taken_back(connection, chosen.id, by=who_does, now=now)
    return f"{chosen.typed} on {chosen.thread}"


def hand_of(shop: Shop, person: str = "") -> PersonHand:
    """Give what is known of a person's hand, the shop's mechanic's when none is named."""
    with shop.storage.reading() as connection:
        return hand_in(shop, connection, _named(connection, person))


def hand_in(shop: Shop, connection: OpenFile, person: str) -> PersonHand:
    """Give what is known of a person's hand where a transaction is open; nothing of nobody.

    What readings say follows from them alone, and takes longer than the rest of a job's sheet: it is worked out once.
    """
    who = _as_first_spelt(connection, person) if person else ""
    kept = read_hand_readings(connection, who) if who else ()
    standing = tuple(one for one in kept if one.stands)
    sizes = sorted({one.thread for one in standing}, key=lambda name: (parse_thread(name).diameter, name))
    by_size = ((size, tuple(one for one in standing if one.thread == size)) for size in sizes)
    lines = tuple(shop.answers.answer(("hand", *one), partial(_line, *one)) for one in by_size)
    return PersonHand(who, lines, tuple(one for one in kept if not one.stands))


def hand_for(shop: Shop, thread: str, person: str = "") -> HandOnThread | CarriedHand:
    """Give a person's hand on a thread: as measured there, else carried over from other sizes and wider."""
    size = parse_thread(thread)
    known = hand_of(shop, person)
    measured = known.on(size.name)
    if measured is not None and measured.hand is not None:
        return measured.hand
    if measured is not None and measured.promises_nothing:
        raise OutOfRange(measured.says, "thread")
    return carry_over(known.hands, size)


def by_own_hand(shop: Shop, joint: Joint, person: str = "", unit: str = "N·m") -> tuple[Joint, str]:
    """Give a joint tightened by a person's own hand, and what that hand does; one never measured there is refused."""
    hand = hand_for(shop, joint.thread.name, person)
    if isinstance(hand, CarriedHand):
        raise NotAllowedNow(hand.words, "tightened_by")
    return replace(joint, tightened_by="hand feel", scatter=hand.scatter), hand.said(unit)


def hand_beside(known: PersonHand, thread: str, torque: TorqueLine, unit: str, *, safety_joint: bool) -> str:
    """Say what a person's hand does where a torque is wanted; "" when it is not known there."""
    size = parse_thread(thread)
    measured = known.on(size.name)
    if measured is not None and measured.promises_nothing:
        apart = f"{known.person}'s pulls on {size.name} lie too far apart to promise anything."
        return f"{apart} {WRENCH_ONLY if safety_joint else 'Use the wrench.'}"
    if measured is None or measured.hand is None:
        return _carried_beside(known, size, unit, safety_joint=safety_joint)
    hand = measured.hand
    gets = f"By {known.person}'s hand it gets {span(hand.low, hand.high, unit)}."
    if safety_joint:
        return f"{gets} {WRENCH_ONLY}"
    held = hand_against(hand, torque.target_nm, low=torque.low_nm, high=torque.high_nm, unit=unit)
    return f"{gets} {held.words}"


def _carried_beside(known: PersonHand, size: Thread, unit: str, *, safety_joint: bool) -> str:
    try:
        carried = carry_over(known.hands, size)
    except OutOfRange:  # too few sizes, or too far from them: nothing can be said
        return ""
    others = " and ".join(carried.measured_on)
    window = span(carried.low, carried.high, unit)
    gets = f"By {known.person}'s hand it probably gets {window}, carried over from {others}."
    return f"{gets} {WRENCH_ONLY if safety_joint else 'Use the wrench.'}"


def against_wanted(known: PersonHand, thread: str, wanted: float, unit: str) -> HandAgainst:
    """Hold a person's measured hand against a torque [N·m] that is wanted on a thread."""
    name = parse_thread(thread).name
    line = known.on(name)
    if line is None or line.hand is None:
        raise NotUnderstood(line.says if line else f"No reading of {name} by {known.person} is kept yet. {HOW[0]}")
    low, high = (1 - WRENCH_SHARE) * wanted, (1 + WRENCH_SHARE) * wanted
    return hand_against(line.hand, wanted, low=low, high=high, unit=unit)


def everyone(shop: Shop) -> tuple[PersonHand, ...]:
    """Give all hands that were read, in the order they came."""
    with shop.storage.reading() as connection:
        return tuple(hand_in(shop, connection, who) for who in read_people(connection))


def people(shop: Shop) -> tuple[str, ...]:
    """Give whose hands were read."""
    with shop.storage.reading() as connection:
        return read_people(connection)


def _line(size: str, readings: tuple[KeptReading, ...]) -> HandLine:
    try:
        hand = hand_on(parse_thread(size), [one.torque_nm for one in readings])
    except BellcrankError as refusal:
        return HandLine(size, readings, None, refusal.sentence)
    return HandLine(size, readings, hand, hand.words)


def _whose(connection: OpenFile, person: str) -> str:
    """Give a person as first spelt, the shop's mechanic when none is named."""
    return _as_first_spelt(connection, _named(connection, person))


def _named(connection: OpenFile, person: str) -> str:
    """Give a person as named now, the shop's mechanic when none is."""
    named = clean_line(person, "The name of whose hand it is", field="person")
    who = named or settings_from(read_setting_rows(connection)).mechanic
    if not who:
        raise NotUnderstood("Whose hand is it? Type the name, or put the mechanic's name into the settings.", "person")
    return who


def _as_first_spelt(connection: OpenFile, who: str) -> str:
    return next((known for known in read_people(connection) if known.casefold() == who.casefold()), who)


def _standing(connection: OpenFile, person: str) -> tuple[KeptReading, ...]:
    return tuple(one for one in read_hand_readings(connection, person) if one.stands)


def _with_unit(typed: str, symbol: str) -> str:
    """Keep what was typed, with the unit that was meant where none was."""
    return typed if any(letter.isalpha() for letter in typed) else f"{typed} {symbol}"
