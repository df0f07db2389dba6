"""The view of a group of fasteners with its torque."""

from dataclasses import dataclass

from bellcrank.both_systems import second_unit, show_torque, torque_window
from bellcrank.shop.captured_sheet import missing_words
from bellcrank.shop.words import rounds_of
from bellcrank.shop.work_sheet import FastenerLine


@dataclass(frozen=True, slots=True)
class TorqueView:
    """A torque, never alone: value, window, basis, source, what limits it."""

    target: str
    other: str
    window: str
    basis: str
    source: str
    governs: str
    widen: str
    typed: str
    doubt: str


@dataclass(frozen=True, slots=True)
class FastenerView:
    """A group of fasteners as laid out on the bench."""

    id: str
    words: str
    count: str
    laid_out: int  # of these, those that lie on the tray: less what is missing
    missing: str  # how many are missing, and on the way back what goes in
    drive: str
    size: str
    length: str
    where: str
    into: str
    care: str
    pattern: str
    by_hand_first: bool
    stages: tuple[str, ...]  # the torque of each round
    single_use: bool
    safety_joint: bool
    threaded: bool  # so that somebody may know a torque for it
    torque: TorqueView | None
    no_torque: str
    by_hand: str


def fastener_view(line: FastenerLine, unit: str, direction: str = "out") -> FastenerView:
    """Lay out a group of fasteners."""
    fastener = line.fastener
    return FastenerView(
        id=fastener.id,
        words=fastener.words,
        count=str(fastener.count if direction == "out" else fastener.to_lay_out),
        laid_out=fastener.to_lay_out,
        missing=missing_words(fastener, direction),
        drive=fastener.drive,
        size=fastener.size,
        length=f"{fastener.length_mm:.0f} mm long" if fastener.length_mm else "",
        where=fastener.where,
        into=fastener.into.replace("-", " "),
        care=fastener.thread_care,
        pattern=fastener.pattern,
        by_hand_first=fastener.by_hand_first,
        stages=rounds_of(line, unit),
        single_use=fastener.single_use,
        safety_joint=fastener.safety_joint,
        threaded=bool(fastener.thread),
        torque=_torque(line, unit),
        no_torque=line.no_torque_words,
        by_hand=line.by_hand,
    )


def _torque(line: FastenerLine, unit: str) -> TorqueView | None:
    if line.torque is None:
        return None
    return TorqueView(
        target=show_torque(line.torque.target_nm, unit),
        other=show_torque(line.torque.target_nm, second_unit(line.torque.target_nm, unit)),
        window=torque_window(line.torque.low_nm, line.torque.high_nm, unit),
        basis=line.torque.basis,
        source=line.torque.source,
        governs=line.torque.governs,
        widen=line.torque.widen,
        typed=line.torque.typed,
        doubt=line.torque.doubt,
    )
