"""What is known of one machine: findings with their time, complaints, and what was mended in between.

Time is counted in repairs: 0 is on arrival, 1 is after the first repair, and so on.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sighting:
    """A finding seen at a level; it sees the causes that were there at its time.

    Seen again at the same level after more repairs, it is one sighting with a ``since``: what each cause makes of a
    finding is drawn once for the visit. A cause that went in between was not above the level, but did not make it.

    One that was not seen clearly has weights (virtual evidence): the chance of what was seen, given each level, up to a
    common factor. Its level says nothing then, and it has no ``since``.
    """

    finding: str
    level: int
    after: int = 0  # repairs done before it was (last) made
    since: int | None = None  # repairs done when it was first made; None: it was made once
    weights: tuple[float, ...] = ()  # one for each level; empty: it was seen clearly [-]


@dataclass(frozen=True, slots=True)
class Standing:
    """A two-level finding that keeps its answer as long as the causes behind it stay: a complaint.

    Each present cause draws once whether it blocks and keeps that for the visit, so "still fails" implies "failed
    before" and the whole history of a complaint is one piece of evidence: it stood until some time, and (after a cure)
    stands no more.
    """

    finding: str
    stood_after: int = 0  # repairs done when it was last seen to stand
    gone_after: int | None = None  # repairs done when it was first seen to be cured; None: not cured


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that is known of one machine."""

    sightings: tuple[Sighting, ...] = ()
    standings: tuple[Standing, ...] = ()
    mends: tuple[Mapping[str, float], ...] = ()  # one a repair: cause -> chance that it is removed, for good [-]


@dataclass(frozen=True, slots=True)
class Question:
    """A variation of the evidence to be weighed in the same pass."""

    without: frozenset[int] = frozenset()  # positions of sightings that are left out
    at_most: tuple[str, int] | None = None  # and this finding, made now, would be at this level or below
    here: frozenset[str] = frozenset()  # and these causes are there now
    not_here: frozenset[str] = frozenset()  # and these are not: never came, or went
