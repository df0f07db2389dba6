"""Screw threads: reading their names off the bench, and their basic geometry (60° ISO metric and Unified)."""

import math
from dataclasses import dataclass
from enum import StrEnum

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.thread_sizes import (
    FINE_ONLY,
    METRIC_PITCHES_MM,
    UNIFIED_SIZES_IN,
    UNIFIED_THREADS_PER_INCH,
)
from bellcrank.units import to_si

EXAMPLES = "M6, M8x1, 1/4-20 or #10-24"


class ThreadSystem(StrEnum):
    """The two families of 60° threads a small engine is held together with."""

    METRIC = "metric"
    UNIFIED = "unified"


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread by its nominal sizes."""

    name: str  # "M8×1", "1/4-20 UNC"
    system: ThreadSystem
    diameter: float  # nominal outside diameter [m]
    pitch: float  # from thread to thread [m]
    undersize: float = 0.0  # of the screw, cut smaller in diameter to make room for zinc [m]
    makes_up: bool = False  # the undersize by its steel: it bears all the same what a full thread bears


def parse_thread(text: str) -> Thread:
    """Read a thread as it is written on the bench: ``M6``, ``M8x1``, ``1/4-20``, ``#10-24 UNC``.

    >>> parse_thread("M6").name
    'M6×1'
    >>> parse_thread("5/8-18").name
    '5/8-18 UNF'
    """
    typed = " ".join(text.split())
    plain = typed.upper().replace("×", "X").replace("″", "").replace('"', "").replace(",", ".")
    if plain.startswith("M"):
        return _metric(plain[1:], typed)
    return _unified(plain, typed)


def pitch_diameter(thread: Thread) -> float:
    """Diameter at which thread and gap are equally wide.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Basic pitch diameter d2 = D2. [m]

    References
    ----------
    FED-STD-H28/2B (1991), Unified inch screw threads, basic profile: d2 = d − 0.75 H, H = √3/2 P.

    Examples
    --------
    >>> round(pitch_diameter(parse_thread("M6")) * 1000, 3)
    5.350
    """
    return thread.diameter - 0.75 * _fundamental_height(thread)


def minor_diameter(thread: Thread) -> float:
    """Basic inside diameter of the nut or tapped hole.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Basic minor diameter D1. [m]

    References
    ----------
    FED-STD-H28/2B (1991), Unified inch screw threads, basic profile: D1 = d − 1.25 H.

    Examples
    --------
    >>> round(minor_diameter(parse_thread("M6")) * 1000, 3)
    4.917
    """
    return thread.diameter - 1.25 * _fundamental_height(thread)


def root_diameter(thread: Thread) -> float:
    """Diameter at the rounded root of the bolt's thread.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Root diameter d3. [m]

    References
    ----------
    ISO 898-1, stress area: d3 = D1 − H/6 = d − 17 H/12.

    Examples
    --------
    >>> round(root_diameter(parse_thread("M6")) * 1000, 3)
    4.773
    """
    return thread.diameter - 17 / 12 * _fundamental_height(thread)


def stress_area(thread: Thread) -> float:
    """Area of the plain rod that pulls apart at the same load as the thread.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Tensile stress area As. [m²]

    Notes
    -----
    Metric: π/4 ((d2 + d3)/2)². Unified: π/4 (d − 0.974279 P)²; the two constants differ a little. What is cut smaller
    is taken off the diameter, unless the screw makes up for it.

    References
    ----------
    ISO 898-1, section on the nominal stress area; FED-STD-H28/2B (1991), Table II.B.1, formula (1b).

    Examples
    --------
    >>> round(stress_area(parse_thread("M6")) * 1e6, 2)
    20.12
    """
    if thread.system is ThreadSystem.METRIC:
        effective = (pitch_diameter(thread) + root_diameter(thread)) / 2
    else:
        effective = thread.diameter - 9 * math.sqrt(3) / 16 * thread.pitch
    lost = 0.0 if thread.makes_up else thread.undersize
    return math.pi / 4 * (effective - lost) ** 2


def lead_angle(thread: Thread) -> float:
    """Slope of the thread, unrolled at the pitch diameter.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Lead angle of a single-start thread. [rad]

    References
    ----------
    ASME B1.1, lead angle at basic pitch diameter: tan φ = P/(π d2).

    Examples
    --------
    >>> round(math.degrees(lead_angle(parse_thread("1/4-20"))), 2)
    4.18
    """
    return math.atan(thread.pitch / (math.pi * pitch_diameter(thread)))


def _fundamental_height(thread: Thread) -> float:
    return math.sqrt(3) / 2 * thread.pitch


def _metric(plain: str, typed: str) -> Thread:
    tokens = plain.replace("X", " ").replace("-", " ").split()
    numbers = [token for token in tokens if not token.endswith(("G", "H", "E"))]  # 6g, 6H: limits, not sizes
    if not 1 <= len(numbers) <= 2:
        raise NotUnderstood(f"“{typed}” is not a thread we can read. Write it like {EXAMPLES}.")
    pitches = METRIC_PITCHES_MM.get(numbers[0].removesuffix(".0"))
    if pitches is None:
        raise NotUnderstood(
            f"“{typed}”: M{numbers[0]} is not a metric thread we know; M1.6 to M36 are. Measure over the threads."
        )
    if len(numbers) == 1 and numbers[0] in FINE_ONLY:
        raise NotUnderstood(f"“{typed}” is only made fine; write the pitch too, like M{numbers[0]}x{pitches[0]}.")
    pitch = numbers[1] if len(numbers) == 2 else pitches[0]
    matching = [known for known in pitches if _same(known, pitch)]
    if not matching:
        raise NotUnderstood(
            f"“{typed}”: M{numbers[0]} has a pitch of {' or '.join(pitches)} mm, not {pitch}. "
            "Leave the length off, and hold a thread gauge to it."
        )
    diameter = to_si(float(numbers[0]), "mm", "length")
    size = f"M{numbers[0].removesuffix('.0')}×{matching[0]}"
    return Thread(size, ThreadSystem.METRIC, diameter, to_si(float(matching[0]), "mm", "length"))


def _same(known: str, typed: str) -> bool:
    plain = typed.rstrip("0").rstrip(".") if "." in typed else typed
    return known == (f"0{plain}" if plain.startswith(".") else plain)


def _unified(plain: str, typed: str) -> Thread:
    tokens = plain.replace("NO.", "#").replace("# ", "#").replace("-", " ").split()
    tokens = [token for token in tokens if token not in ("UNC", "UNF", "UN", "2A", "2B", "3A", "3B", "IN")]
    size = tokens[0] if tokens else ""
    size = size if size in UNIFIED_SIZES_IN else f"#{size}"
    if size not in UNIFIED_SIZES_IN:
        raise NotUnderstood(f"“{typed}” is not a thread we can read. Write it like {EXAMPLES}.")
    coarse, fine = UNIFIED_THREADS_PER_INCH[size]
    known = [str(count) for count in (coarse, fine) if count]
    if len(tokens) != 2 or tokens[1] not in known:
        written = " or ".join(f"{size}-{count}" for count in known)
        raise NotUnderstood(f"“{typed}”: we know {written}. Count the threads in an inch and write it like that.")
    threads_per_inch = int(tokens[1])
    series = "UNC" if threads_per_inch == coarse else "UNF"
    return Thread(
        f"{size}-{threads_per_inch} {series}",
        ThreadSystem.UNIFIED,
        to_si(UNIFIED_SIZES_IN[size], "in", "length"),
        to_si(1 / threads_per_inch, "in", "length"),
    )
