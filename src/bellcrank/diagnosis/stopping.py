"""Where one may stop: ask the customer now, or refuse.

A customer is asked with a range; he says no as often as such jobs come to more than may be spent, and his answer says
nothing about the fault. After a no the machine is closed up and waits to be fetched; after a yes the work goes on. So
asking pays when the minutes that would be lost on a no are more than the asking takes; a check pays before that when it
tells the jobs that pass the limit from those that do not for less.

Refusing counts what the machine is worth, as minutes of work: going on is worth it as long as less is ahead than that.
"""

import numpy as np

from bellcrank.diagnosis.by_repairs import Ahead, Expected
from bellcrank.diagnosis.counted import Counted
from bellcrank.stats.fault_network import FloatArray

ASKING = 6.0  # [min] work out a range, call, write down what was said, take up the work again: guess
AFTER_A_NO = 10.0  # [min] close it up, write it down, put it where it waits: guess


def or_ask(counted: Counted, culprits: FloatArray, ahead: Ahead) -> Ahead:
    """Give what is ahead when the customer is asked first wherever that is expected to be shorter."""
    if not counted.over.any():
        return ahead
    no = culprits @ counted.over
    minutes = _asked(no, ahead.minutes)
    asks = minutes < ahead.minutes
    return Ahead(
        minutes=np.where(asks, minutes, ahead.minutes),
        work=np.where(asks, _asked(no, ahead.work), ahead.work),
        parts=np.where(asks, (1 - no) * ahead.parts, ahead.parts),
        given_up=np.where(asks, no + (1 - no) * ahead.given_up, ahead.given_up),
    )


def asking(no: float, going_on: Expected) -> Expected:
    """Give what is expected when the customer is asked now and, told to, the work goes on."""
    return Expected(
        minutes=float(_asked(no, going_on.minutes)),
        work=float(_asked(no, going_on.work)),
        parts=(1 - no) * going_on.parts,
        given_up=no + (1 - no) * going_on.given_up,
    )


def _asked(no: FloatArray | float, minutes: FloatArray | float) -> FloatArray:
    return np.asarray(ASKING + no * AFTER_A_NO + (1 - no) * minutes)


def refusing(counted: Counted) -> Expected:
    """Give what counts when it is stopped here."""
    return Expected(minutes=counted.give_up, work=0.0, parts=0.0, given_up=1.0)
