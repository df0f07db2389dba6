"""The drawings that belong to an answer of the numbers bench."""

import math
from collections.abc import Mapping

from bellcrank.engine.slip_table import COUNTED
from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.fastening.threads import parse_thread
from bellcrank.figures.altitude import compression_altitude
from bellcrank.figures.keyway import key_figure
from bellcrank.figures.kick_map import kick_map
from bellcrank.figures.pulled import pull_figure
from bellcrank.figures.seat import taper_figure
from bellcrank.figures.stripped import strip_figure
from bellcrank.figures.struck import strike_figure
from bellcrank.figures.timing_dial import timing_dial
from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered
from bellcrank.shop.cords import CordTold
from bellcrank.shop.engines import Gauge, Timed
from bellcrank.shop.keyed import Keyed
from bellcrank.shop.numbers import material_named
from bellcrank.shop.pulling import JudgedPull
from bellcrank.shop.strikes import StruckSeat
from bellcrank.shop.tapers import SeatedTaper
from bellcrank.shop.thin_air import gauge_by_height
from bellcrank.units import read


def drawings_of(library: Library, answer: Answered, typed: Mapping[str, str], unit: str) -> tuple[str, ...]:
    """Draw an answer, what gives way first in full ink; ``typed`` is what it was asked with."""
    if isinstance(answer.found, CordTold):
        return (_sits(answer.found), _kicks(answer.found))
    drawing = _drawing(library, answer, typed, unit)
    return (drawing,) if drawing else ()


def _drawing(library: Library, answer: Answered, typed: Mapping[str, str], unit: str) -> str:
    match answer.found:
        case SeatedTaper() as seated:
            return taper_figure(seated.taper, seated.push, seated.seat, unit=unit)
        case Keyed() as keyed:
            return key_figure(keyed.fitted, keyed.shaft, keyed.shaft_seat, keyed.hub_seat, keyed.carries, unit=unit)
        case JudgedPull() as judged:
            return pull_figure(judged.pull, judged.answer, unit=unit)
        case StruckSeat() as struck:
            return strike_figure(struck.strike, unit=unit)
        case Timed() as timed:
            return timing_dial(timed.sparks, timed.card.valves, timed.slip, timed.advance)
        case Gauge() as gauge:
            here = read(typed["height"], "length", default="m").si
            curve = gauge_by_height(gauge, here)
            return compression_altitude(curve.heights, curve.low, curve.high, here=here)
        case StripAnswer() as stripped:
            engaged = read(typed["engaged"], "length", default="mm").si
            into = material_named(library, typed["into"], "into").words
            return strip_figure(parse_thread(typed["thread"]), engaged, into, stripped)
        case _:
            return ""


def _sits(told: CordTold) -> str:
    """Draw where the flywheel probably sits, and where its likeliest place puts the sparks."""
    belief = tuple(zip(map(float, told.belief.slips), map(float, told.belief.chances), strict=True))
    card, likeliest = told.card, told.belief.likeliest
    return timing_dial(told.sparks, card.valves, likeliest, card.advance.value, belief=belief)


def _kicks(told: CordTold) -> str:
    """Draw the computed pulls by slip, with the share of pulls that jerked across them."""
    table = told.table
    slips = [math.degrees(one) for one in table.map_slips]
    shares = {name: (table.map_counts[:, at] / table.map_pulls).tolist() for at, name in enumerate(COUNTED)}
    measured = (told.jerks.low, told.jerks.high) if told.jerks else None
    return kick_map(slips, shares, measured=measured)
