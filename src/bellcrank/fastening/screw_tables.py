"""The tables of small things a fastener book has, as one record; they are read from packs/common."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.fastening.engagement import EngagementRule
from bellcrank.fastening.inserts import KeyedInsert
from bellcrank.fastening.locking_nuts import LockingNut
from bellcrank.fastening.plastics import BossRule, PlasticScrew
from bellcrank.fastening.shoulder_screws import ShoulderScrew
from bellcrank.fastening.thermal import Expansion
from bellcrank.fastening.twist_off import FormingScrew, SheetScrew, TwistShare
from bellcrank.sources import Basis


@dataclass(frozen=True, slots=True)
class Spread:
    """A friction, a nut factor or a scatter that is only known as a range. [-]"""

    key: str
    words: str
    low: float
    high: float
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class ScrewTables:
    """Tables of fasteners other than bolts and nuts, and how they are tightened."""

    frictions: Mapping[str, Spread]
    nut_factors: Mapping[str, Spread]
    twist_shares: Mapping[str, TwistShare]  # by strength class
    engagement_rules: Mapping[str, EngagementRule]
    locking_nuts: tuple[LockingNut, ...]
    shoulder_screws: tuple[ShoulderScrew, ...]
    forming_screws: tuple[FormingScrew, ...]
    sheet_screws: Mapping[str, SheetScrew]  # by size
    boss_rules: Mapping[str, BossRule]
    plastic_screws: Mapping[str, PlasticScrew]  # by size
    keyed_inserts: tuple[KeyedInsert, ...]
    expansions: Mapping[str, Expansion]
