"""The money of a job as it is shown: on the page, in the terminal and on paper."""

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class PriceLine:
    """A line of the quote or invoice."""

    id: int
    kind: str  # part, labour, other
    words: str
    quantity: Decimal
    unit: str  # "pc", "h"
    unit_price: Decimal
    tax_percent: Decimal
    net: Decimal


@dataclass(frozen=True, slots=True)
class TaxLine:
    """Tax of one rate."""

    percent: Decimal
    net: Decimal
    tax: Decimal


@dataclass(frozen=True, slots=True)
class AheadLine:
    """A likely repair whose lines may be written before it is done, for a quote."""

    id: str
    words: str
    chance: float  # that it is the one [-]


@dataclass(frozen=True, slots=True)
class ExpectedLine:
    """What is expected until the machine is cured, when a step is done next: no promise, and no price."""

    work_minutes: float  # at the bench [min]
    price: Decimal  # of that work and of the parts, tax included
    parts: Decimal  # in it, tax included
    given_up: float  # chance that it ends without a cured machine [-]
    says_no: float  # of asking the customer: chance that it comes to more than may be spent [-]


NOTHING_EXPECTED = ExpectedLine(0.0, Decimal(0), Decimal(0), 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class PriceSheet:
    """Money: what was agreed, what it comes to, what it may come to."""

    lines: tuple[PriceLine, ...]
    net: Decimal
    taxes: tuple[TaxLine, ...]
    total: Decimal
    currency: str
    agreed_limit: Decimal | None  # to spend before asking, tax included
    over_limit: bool
    expected_low: Decimal  # range of the whole job from belief and repair minutes, tax included
    expected_high: Decimal
    over_words: str  # sentence when the range or total passes what was agreed
    invoice_number: str  # "" until issued
    ahead: tuple[AheadLine, ...]  # likely repairs without lines
    expected_middle: Decimal = Decimal(0)  # half of such jobs come to less
    worth: Decimal | None = None  # what the machine is worth, when somebody told it
