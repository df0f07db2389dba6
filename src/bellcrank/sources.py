"""Where a number comes from: its basis and its source; bottom layer, beside units."""

from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """What a number rests on, from the maker's number down to a guess; an own measurement beats a computed one."""

    PUBLISHED = "published"  # the maker or a standard gives it for this very thing
    TABLE = "table"  # a handbook gives it for things of this kind
    COMPUTED = "computed"  # a formula with named inputs gives it
    OWN_SHOP = "own shop"  # this shop measured or set it
    GUESS = "guess"  # nobody published it; common practice or judgement


class Status(StrEnum):
    """How far a source was checked."""

    VERIFIED = "verified"  # the text was read
    SECONDARY = "secondary"  # read in a reprint or on a trade page
    FROM_MEMORY = "from memory"  # recalled, not read
    COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the list of sources."""

    key: str
    title: str
    locator: str  # section, table, page or address; empty when there is none
    status: Status


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a record's numbers come from."""

    basis: Basis
    source: str  # key in the list of sources
