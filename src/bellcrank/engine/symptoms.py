"""What a slipped flywheel makes an engine do, by where its sparks fall; what of it is sure, what leans on a model."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from bellcrank.engine.slip import shortest
from bellcrank.engine.timing import Spark, Stroke

# [°] bounds that held whatever was changed in a model of many engines (own trial, no measurement behind it)
SURE_TO_KICK = (-75.0, -45.0)  # when the charge lights and the compression is normal
MAY_KICK = (-130.0, -10.0)  # outside the sure band it leans on burning, release and compression
NO_START_EARLY, NO_START_LATE = -55.0, 65.0  # beyond them it does not run on
WEAK_FROM = 10.0  # late by so much it starts and lacks power
INTAKE_CHARGED = np.radians(380.0)  # from here on fresh charge is in reach of a spark on the intake stroke


class Symptom(StrEnum):
    """What is felt, heard or missing."""

    STARTS = "starts"
    STARTS_WEAK = "starts, but weak and hot"
    NO_START = "does not start"
    NO_KICK = "does not kick"
    MAY_KICK = "may kick the cord back"
    KICKS = "kicks the cord back when it fires"
    POPS_INTAKE = "pops through the carburettor"
    BANGS_EXHAUST = "bangs in the exhaust"
    SPARK_GOOD = "a spark tester still shows a good spark"


@dataclass(frozen=True, slots=True)
class Expected:
    """A symptom, and whether it follows for any engine of this kind or leans on a model."""

    symptom: Symptom
    sure: bool
    why: str


def expected_symptoms(slip: float, main: Spark, wasted: Spark, *, most_kick: bool) -> tuple[Expected, ...]:
    """Give what is to be expected of an engine with a slipped flywheel and a module ignition, the plainest first.

    Parameters
    ----------
    slip : float
        Of the flywheel: below zero early, above late. [rad]
    main, wasted : Spark
        Where the sparks of the cycle fall. [-]
    most_kick : bool
        Whether three engines in four of such a kind kick there on most pulls that fire, as
        :func:`bellcrank.engine.slip_table.most_engines_kick` counts. [-]

    Returns
    -------
    tuple of Expected
        Symptoms. [-]

    Notes
    -----
    For four-stroke engines of 80 to 420 cm³ with a magneto whose module fires from the flywheel's magnet. The bounds of
    kicking and of not starting are those that held over many modelled engines; pops follow from the valves alone.

    References
    ----------
    Geometry of valves and sparks; bounds from an own trial model (a guess until somebody measures).
    """
    degrees = float(np.degrees(shortest(slip)))
    found = [*_kicks(degrees, most_kick), *_starts(degrees), *_pops(main, wasted)]
    found.append(
        Expected(
            Symptom.SPARK_GOOD, True, "The magnets that make the spark also time it: slip leaves its strength alone."
        )
    )
    return tuple(found)


def _kicks(degrees: float, most_kick: bool) -> list[Expected]:
    if degrees >= 0:
        return [Expected(Symptom.NO_KICK, True, "A spark that comes late pushes the crank the way it turns.")]
    if most_kick and SURE_TO_KICK[0] <= degrees <= SURE_TO_KICK[1]:
        why = "The charge burns while the piston still comes up; with normal compression it throws the crank back."
        return [Expected(Symptom.KICKS, True, why)]
    if MAY_KICK[0] <= degrees <= MAY_KICK[1]:
        near = degrees > SURE_TO_KICK[1]
        why = (
            "How fast it burns and how far it is advanced decide."
            if near
            else "It hangs on the compression release: when that is dead it kicks here too."
        )
        return [Expected(Symptom.MAY_KICK, False, why)]
    return []


def _starts(degrees: float) -> list[Expected]:
    if degrees < NO_START_EARLY:
        return [Expected(Symptom.NO_START, True, "The spark is too early for the crank to carry on over the top.")]
    if degrees > NO_START_LATE:
        return [Expected(Symptom.NO_START, True, "The charge is lit when the piston is far down, or not at all.")]
    if degrees >= WEAK_FROM:
        return [Expected(Symptom.STARTS_WEAK, False, "It burns late: less push, more heat into the exhaust.")]
    if degrees > MAY_KICK[1]:
        return [Expected(Symptom.STARTS, False, "The spark is near where it belongs.")]
    return [
        Expected(Symptom.STARTS_WEAK, False, "It starts when the pull is strong enough; the earlier, the seldomer.")
    ]


def _pops(main: Spark, wasted: Spark) -> list[Expected]:
    found = []
    if main.intake_open:
        why = "The main spark falls while the intake valve is still open."
        found.append(Expected(Symptom.POPS_INTAKE, True, why))
    if wasted.stroke is Stroke.INTAKE and wasted.intake_open and wasted.angle >= INTAKE_CHARGED:
        why = "The wasted spark lights the fresh charge while it is drawn in."
        found.append(Expected(Symptom.POPS_INTAKE, True, why))
    if main.exhaust_open and main.stroke in (Stroke.POWER, Stroke.EXHAUST):
        why = "The main spark falls when the exhaust valve is open."
        found.append(Expected(Symptom.BANGS_EXHAUST, False, why))
    return found
