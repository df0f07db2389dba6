"""Where the two sparks of a cycle fall: on which stroke, with which valves open, at what voltage. Geometry alone.

The magnet passes the coil once a turn, so a four-stroke sparks twice a cycle: the main spark near firing top dead
centre and the wasted one a turn later. Angles are the crank's, 0 at firing top dead centre, forward positive.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.spark_voltage import ROOM, breakdown_voltage
from bellcrank.measuring.refusals import refuse_outside

TURN, CYCLE = 2 * np.pi, 4 * np.pi  # [rad]
HALF = np.pi  # [rad] a stroke
COMPRESSED_BY = 1.32  # [-] exponent of a quick compression, from memory


class Stroke(StrEnum):
    """The four strokes."""

    COMPRESSION = "compression"
    POWER = "power"
    EXHAUST = "exhaust"
    INTAKE = "intake"


STROKES = (Stroke.COMPRESSION, Stroke.POWER, Stroke.EXHAUST, Stroke.INTAKE)  # from -180° on


@dataclass(frozen=True, slots=True)
class ValveTiming:
    """When the valves open and close, as a trade page gives it; all positive. [rad]"""

    intake_opens: float  # before top dead centre
    intake_closes: float  # after bottom dead centre
    exhaust_opens: float  # before bottom dead centre
    exhaust_closes: float  # after top dead centre

    def __post_init__(self) -> None:
        """Refuse what no cam does."""
        for words, value in (
            ("Intake opens before the top by, in radians", self.intake_opens),
            ("Intake closes after the bottom by, in radians", self.intake_closes),
            ("Exhaust opens before the bottom by, in radians", self.exhaust_opens),
            ("Exhaust closes after the top by, in radians", self.exhaust_closes),
        ):
            refuse_outside(words, value, -HALF / 4, HALF / 2, "Look at the cam's data.")

    def intake_open(self, angle: float) -> bool:
        """Whether the intake valve is off its seat at a crank angle."""
        return _within(angle, TURN - self.intake_opens, 3 * HALF + self.intake_closes)

    def exhaust_open(self, angle: float) -> bool:
        """Whether the exhaust valve is off its seat at a crank angle."""
        return _within(angle, HALF - self.exhaust_opens, TURN + self.exhaust_closes)


@dataclass(frozen=True, slots=True)
class Spark:
    """One of the two sparks of a cycle."""

    main: bool  # else the wasted one
    angle: float  # of the crank, from -180° to 540° [rad]
    stroke: Stroke
    intake_open: bool
    exhaust_open: bool
    voltage: float  # it needs, nothing burning before it [V]


def sparks(advance: float, slip: float, valves: ValveTiming, drive: CrankDrive, gap: float) -> tuple[Spark, Spark]:
    """Give the main and the wasted spark of a cycle for a slipped flywheel.

    Parameters
    ----------
    advance : float
        Before top dead centre where the key holds the flywheel. [rad]
    slip : float
        Of the flywheel: below zero early, above late. [rad]
    valves : ValveTiming
        When the valves open and close. [rad]
    drive : CrankDrive
        Bore, stroke, rod and compression. [m]
    gap : float
        Of the plug. [m]

    Returns
    -------
    tuple of Spark
        The main spark, and the wasted one a turn later. [-]

    Raises
    ------
    OutOfRange
        When the slip is more than a turn, or the advance more than a quarter turn.

    Notes
    -----
    Voltage: air at 20 °C and one atmosphere drawn in, with both valves shut compressed by p V^1.32; on the power stroke
    what was not lit expands the same way; with a valve open it is as outside.

    References
    ----------
    Geometry (own derivation); breakdown as in :func:`breakdown_voltage`.

    Examples
    --------
    >>> import math
    >>> drive = CrankDrive(bore=0.065, stroke=0.057, rod=0.1, compression=8.5)
    >>> valves = ValveTiming(*map(math.radians, (10, 50, 50, 10)))
    >>> main, wasted = sparks(math.radians(20), math.radians(90), valves, drive, 0.75e-3)
    >>> main.stroke.value, wasted.stroke.value, wasted.intake_open
    ('power', 'intake', True)
    """
    refuse_outside("Slip in radians", slip, -TURN, TURN, "A whole turn is none.")
    refuse_outside("Spark advance in radians", advance, -HALF / 4, HALF / 2, "Small engines spark 8° to 35° before.")
    first = slip - advance
    return (
        _spark(True, _in_cycle(first), valves, drive, gap),
        _spark(False, _in_cycle(first + TURN), valves, drive, gap),
    )


def stroke_at(angle: float) -> Stroke:
    """Name the stroke at a crank angle [rad].

    >>> import math
    >>> stroke_at(math.radians(-20)).value, stroke_at(math.radians(400)).value
    ('compression', 'intake')
    """
    return STROKES[int((_in_cycle(angle) + HALF) // HALF) % 4]


def _spark(main: bool, angle: float, valves: ValveTiming, drive: CrankDrive, gap: float) -> Spark:
    intake, exhaust = valves.intake_open(angle), valves.exhaust_open(angle)
    squeezed = 1.0
    if not intake and not exhaust:
        squeezed = float(drive.volume(-HALF + valves.intake_closes) / drive.volume(angle))
    return Spark(
        main=main,
        angle=angle,
        stroke=stroke_at(angle),
        intake_open=intake,
        exhaust_open=exhaust,
        voltage=breakdown_voltage(
            gap, SEA_LEVEL_PRESSURE * squeezed**COMPRESSED_BY, ROOM * squeezed ** (COMPRESSED_BY - 1)
        ),
    )


def _in_cycle(angle: float) -> float:
    """Give the same place of the crank between -180° and 540°."""
    return float((angle + HALF) % CYCLE - HALF)


def _within(angle: float, start: float, end: float) -> bool:
    """Whether a crank angle lies between two, whichever cycle they are counted in."""
    return (angle - start) % CYCLE <= end - start
