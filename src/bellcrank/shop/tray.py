"""The tray sheet of a job: which fasteners come off on the way in, in which tray they lie, and where they sat."""

from dataclasses import dataclass
from string import ascii_lowercase

from bellcrank.errors import NotAllowedNow
from bellcrank.knowledge.assembly import Fastener, View
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.work_sheet import StepLine, WorkSheet


@dataclass(frozen=True, slots=True)
class TraySpot:
    """Where one fastener of a tray sits in the machine, and what its spot on the sheet is called."""

    words: str  # "3a", "3" when it is the only one
    across_mm: float | None  # on the tray's view; None where the model does not say
    down_mm: float | None


@dataclass(frozen=True, slots=True)
class Tray:
    """One numbered tray of the sheet: a group of like fasteners."""

    number: int  # from 1, in the order of the way in
    step: int  # of the way in
    fastener: Fastener
    nut: bool  # lies flat: there is no length under a head
    spots: tuple[TraySpot, ...]  # one for each that is there, in the order of tightening where the model says it


@dataclass(frozen=True, slots=True)
class TraySheet:
    """What lies beside a machine while it is open."""

    number: int  # of the job
    target_words: str
    total: int  # fasteners that come off
    trays: tuple[Tray, ...]
    views: tuple[View, ...]  # in which some of them are seen


def tray_sheet(sheet: JobSheet) -> TraySheet:
    """Lay out the trays of a job's way in, in its order."""
    work = sheet.work
    if work is None:
        raise NotAllowedNow(
            f"Job {sheet.number} has no way in yet, so nobody knows what will lie on the trays. Choose the part to get "
            "to first."
        )
    groups = [(step, line.fastener) for step in work.steps_in for line in step.fasteners]
    groups = [(step, one) for step, one in groups if one.to_lay_out]  # what is missing lies in no tray
    if not groups:
        raise NotAllowedNow(f"No fastener comes off on the way to the {work.target_words}: it needs no trays.")
    trays = tuple(_tray(number, step, fastener) for number, (step, fastener) in enumerate(groups, start=1))
    return TraySheet(
        number=sheet.number,
        target_words=work.target_words,
        total=sum(tray.fastener.to_lay_out for tray in trays),
        trays=trays,
        views=_views(work, trays),
    )


def _tray(number: int, step: StepLine, fastener: Fastener) -> Tray:
    many = fastener.to_lay_out
    letters = ("",) if many == 1 else tuple(map(_letter, range(many)))
    places = fastener.places if fastener.view else ()
    spots = tuple(
        TraySpot(f"{number}{letter}", *(places[place] if place < len(places) else (None, None)))
        for place, letter in enumerate(letters)
    )
    nut = fastener.head == "nut" or (bool(fastener.thread) and fastener.length_mm is None and not fastener.into)
    return Tray(number, step.number, fastener, nut, spots)


def _letter(place: int) -> str:
    """Give a, b ... z, aa, ab ..."""
    rounds, letter = divmod(place, len(ascii_lowercase))
    return (ascii_lowercase[rounds - 1] if rounds else "") + ascii_lowercase[letter]


def _views(work: WorkSheet, trays: tuple[Tray, ...]) -> tuple[View, ...]:
    seen = {tray.fastener.view for tray in trays if tray.spots[0].across_mm is not None}
    return tuple(view for view in work.views if view.id in seen)
