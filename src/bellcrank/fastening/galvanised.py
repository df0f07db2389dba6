"""Hot-dip galvanised screws: their thread is cut smaller to make room for the zinc, and what that costs.

ISO 10684 lowers the loads of M8 and M10 in its Annex A. The printed loads of the screws were not found; the stress area
they follow from is computed from the undersize.
"""

from dataclasses import replace

from bellcrank.fastening.joint import Joint
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.thread_sizes import FINE_ONLY, METRIC_PITCHES_MM
from bellcrank.fastening.threads import Thread, ThreadSystem, stress_area
from bellcrank.measuring.refusals import refuse_outside
from bellcrank.units import convert, show, to_si

UNDERSIZE, UNDERSIZE_PER_PITCH = to_si(0.300, "mm", "length"), 0.020  # tolerance position az
LEAST_DIAMETER, MAKES_UP_FROM = to_si(8, "mm", "length"), to_si(12, "mm", "length")  # ISO 10684, scope and clause 7
STRONGEST = to_si(1040, "MPa", "pressure")  # tensile strength of class 10.9, the last that ISO 10684 covers
DRY_ZINC = 0.20  # [-] least friction of dry hot-dip zinc, class D of VDI 2230


def zinc_undersize(pitch: float) -> float:
    """How much smaller a thread is cut that is to fit a plain nut with its coat of hot-dip zinc on.

    Parameters
    ----------
    pitch : float
        From thread to thread. [m]

    Returns
    -------
    float
        Undersize in diameter, tolerance position az. [m]

    Raises
    ------
    OutOfRange
        When the pitch is not that of a coarse thread from M8 to M64.

    Notes
    -----
    300 µm + 20 µm for each mm of pitch. The table of ISO 965-4 starts at M10; for M8 a distributor prints 295 µm in
    place of the 325 of the formula, which is 0.9 % more area: the formula is on the safe side.

    References
    ----------
    ISO 965-4, es = -(300 + 20 P), as given in a standards shop's abstract; rows of its table in tests/published.

    Examples
    --------
    >>> round(zinc_undersize(0.0015) * 1e6)
    330
    """
    low, high = to_si(1.25, "mm", "length"), to_si(6, "mm", "length")
    refuse_outside("Pitch", pitch, low, high, "Finer threads are not hot-dip galvanised by ISO 10684.")
    return UNDERSIZE + UNDERSIZE_PER_PITCH * pitch


def hot_dip(thread: Thread) -> Thread:
    """Give a thread as it is cut for a coat of hot-dip zinc; as it is, where no standard says how."""
    if not _covered(thread):
        return thread
    return replace(thread, undersize=zinc_undersize(thread.pitch), makes_up=thread.diameter >= MAKES_UP_FROM)


def galvanised_words(joint: Joint) -> tuple[str, ...]:
    """Say what hot-dip galvanising does to a joint, and how far that is known."""
    if not joint.galvanised:
        return ()
    told = [_loads(joint.thread)]
    if joint.thread.undersize and joint.into is None:
        told.append(
            "Such a screw has a U after its mark; no nut tapped oversize (marked Z or X) on it: the threads strip "
            "(ISO 965-4)."
        )
    if strength_at(joint.strength, joint.thread.diameter).tensile > STRONGEST:
        told.append(f"ISO 10684 ends at class 10.9, and {joint.strength.words} is harder: look at the mark again.")
    if joint.friction < DRY_ZINC:
        told.append(
            "Dry zinc rubs more than what is taken here, 0.20 to 0.35 (VDI 2230, class D): the clamp is lower then. "
            "Oil it, or give the friction."
        )
    return tuple(told)


def _covered(thread: Thread) -> bool:
    """Whether ISO 10684 covers it: metric, coarse, from M8 on."""
    if thread.system is not ThreadSystem.METRIC or thread.diameter < LEAST_DIAMETER:
        return False
    size = thread.name.removeprefix("M").split("×")[0]
    return size not in FINE_ONLY and thread.name == f"M{size}×{METRIC_PITCHES_MM[size][0]}"


def _loads(thread: Thread) -> str:
    if not thread.undersize:
        return (
            f"What hot-dip galvanising does to {thread.name} is not on record (ISO 10684: metric, coarse, from M8): it "
            "is computed as a plain screw, and one cut smaller for its zinc bears less. A thin bright coat is zinc "
            "plating, and then the number is right; else ask the maker."
        )
    smaller = f"Hot-dip galvanised, its thread is cut {show(thread.undersize, 'mm', 'length', 3)} smaller (ISO 965-4)"
    if thread.makes_up:
        return f"{smaller} and bites less; from M12 on the screw bears what a plain one bears (ISO 10684)."
    left, full = (convert(stress_area(one), "mm²", "area") for one in (thread, replace(thread, undersize=0.0)))
    return (
        f"{smaller}: {left:.1f} of {full:.1f} mm² carry. Computed: the lower loads of ISO 10684 themselves are not on "
        "record, so the maker's number comes first."
    )
