"""How much the clamp of one and the same torque scatters, by the way a screw is tightened."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotUnderstood
from bellcrank.measuring.refusals import refuse_outside

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

USUAL_WAY = "torque wrench"
LEAST_SCATTER = 0.01  # [-] no way of tightening known is finer
MOST_SCATTER = 0.90  # [-] beyond it the least clamp is next to none, and a window says nothing


@dataclass(frozen=True, slots=True)
class Way:
    """A way of tightening: how far the clamp may be from the one wanted, and who says so."""

    scatter: float  # either side of the mean [-]
    source: str


# worst of the range where a range is printed; power tools, yield control: reprint of the VDI list
SCATTER: dict[str, Way] = {
    "torque wrench": Way(0.25, "MIL-HDBK-60, Table I; NSTS 08307 and NASA-STD-5020B for lubricated threads"),
    "hand feel": Way(0.35, "MIL-HDBK-60, Table I"),
    "torque wrench, dry": Way(0.35, "NSTS 08307 Rev A, section 3.4, dry or as received"),
    "turn of nut": Way(0.15, "MIL-HDBK-60, Table I"),
    "yield control": Way(0.12, "VDI 2230:1986, tolerances, 5 to 12 %"),
    "power screwdriver": Way(0.43, "VDI 2230:1986, tolerances, 26 to 43 %"),
    "impact wrench": Way(0.60, "VDI 2230:1986, tolerances, up to 60 %"),
    "load washer": Way(0.10, "MIL-HDBK-60, Table I"),
    "elongation": Way(0.05, "MIL-HDBK-60, Table I, 3 to 5 %"),
}


def way_named(name: str) -> Way:
    """Give a way of tightening by its name, or refuse with the ways there are."""
    if name not in SCATTER:
        raise NotUnderstood(f"“{name}” is not a way of tightening we know. Say {' or '.join(SCATTER)}.")
    return SCATTER[name]


def tightening_factor(scatter: Quantity) -> Quantity:
    """Most clamp over least clamp at one and the same torque, αA of VDI 2230.

    Parameters
    ----------
    scatter : float or array, shape (n,)
        Preload scatter either side of the mean. [-]

    Returns
    -------
    float or array, shape (n,)
        Tightening factor. [-]

    Raises
    ------
    OutOfRange
        When the scatter is outside 0.01 to 0.90.

    Notes
    -----
    αA = (1 + s)/(1 − s).

    References
    ----------
    VDI 2230:1986, list of tolerances by way of tightening (reprint).

    Examples
    --------
    >>> round(tightening_factor(0.25), 2)
    1.67
    """
    refuse_wrong_scatter(scatter)
    return (1 + scatter) / (1 - scatter)


def refuse_wrong_scatter(scatter: Quantity) -> None:
    """Refuse a scatter that no way of tightening has."""
    advice = "A torque wrench scatters 0.25, a hand 0.35; measure your own hand with ten blind pulls."
    refuse_outside("Scatter of the clamp", scatter, LEAST_SCATTER, MOST_SCATTER, advice)
