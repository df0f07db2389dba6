"""Computed pulls as lines of text."""

import math
from collections.abc import Mapping, Sequence

from bellcrank.cli.terminal import heading, wrap
from bellcrank.engine.card import EngineCard
from bellcrank.engine.pull.many import Outcome, PullRates
from bellcrank.engine.slip import slip_words
from bellcrank.shop.pulls import OUTCOME_WORDS, PULL_CAUTIONS, PULL_NOTES, SENSITIVITY_PULLS, Knob, PullsAsked
from bellcrank.stats.share import Share
from bellcrank.units import show

FAR = 60  # [°]
ANGLES = ("intake_opens", "intake_closes", "exhaust_opens", "exhaust_closes", "advance", "release_closes")
LENGTHS = ("bore", "stroke", "rod", "gap", "intake_valve", "exhaust_valve", "lift", "release_lift", "pulley")
SAID_IN = {
    **dict.fromkeys(ANGLES, ("angle", "°")),
    **dict.fromkeys(LENGTHS, ("length", "mm")),
    **dict.fromkeys(("carburettor", "leak"), ("area", "mm²")),
    "release_speed": ("speed", "rpm"),
    "friction": ("pressure", "kPa"),
}
MOVES = 0.1  # [-] a value that moves a share by less is left out of the list


def pull_lines(asked: PullsAsked, rates: PullRates, ranges: Mapping[str, tuple[float, float]]) -> list[str]:
    """Lay out what came of pulls."""
    lines = [*(wrap(one, first="! ", indent="  ") for one in PULL_CAUTIONS), ""]
    lines.append(wrap(f"{rates.pulls} pulls, {asked.operator.words}; flywheel {slip_words(asked.setting.slip)}"))
    lines += [_share_line(OUTCOME_WORDS[outcome], share) for outcome, share in rates.shares.items()]
    lines += ["", _share_line("pops at the carburettor", rates.pops_intake)]
    lines.append(_share_line("bangs in the exhaust", rates.pops_exhaust))
    lines.append(_share_line("jerks without fire", rates.bounces))
    lines += [heading("of the pulls whose charge can light"), _share_line("that is", rates.ignitable)]
    lines.append(_share_line("kick back", rates.kicks_back_if_ignitable))
    lines.append(_share_line("catch", rates.catches_if_ignitable))
    lines.append(heading("over engines of the card's range, nine of ten"))
    lines += [
        f"  {OUTCOME_WORDS[outcome]:24} {low:4.0%} to {high:.0%}"
        for outcome in Outcome
        for low, high in (ranges[str(outcome)],)
    ]
    lines += [heading("at the handle"), f"  pull of the cord     {rates.cord_force.median:4.0f} N, one in ten over "]
    lines[-1] += f"{rates.cord_force.tenth:.0f} N"
    if rates.shares[Outcome.KICKS_BACK].count:
        lines.append(
            f"  in a kick            {rates.kick_force.median:4.0f} N, handle torn away {rates.torn.value:.0%}"
        )
        energy = f"{rates.reverse_energy.median:.0f} J, one in ten over {rates.reverse_energy.tenth:.0f} J"
        lines.append(f"  crank thrown back    {energy}")
    lines += ["", *(wrap(one, first="  - ", indent="    ") for one in (f"Engine: {asked.card.words}.", *PULL_NOTES))]
    return lines


def sensitivity_lines(card: EngineCard, knobs: Sequence[Knob]) -> list[str]:
    """Lay out what each value moves, the claims first."""
    lines = [wrap(f"{card.words}: each value from its low end to its high, {SENSITIVITY_PULLS} pulls each")]
    lines += [wrap(one, first="  - ", indent="    ") for one in _claims(knobs)]
    for slip in sorted({knob.slip for knob in knobs if knob.slip <= 0}):
        moved = sorted(
            (knob for knob in knobs if knob.slip == slip), key=lambda knob: -abs(knob.kicks[1] - knob.kicks[0])
        )
        told = [knob for knob in moved if abs(knob.kicks[1] - knob.kicks[0]) >= MOVES]
        lines.append(heading(f"kicks of pulls that light, flywheel {slip_words(slip)}"))
        lines += [_knob_line(card, knob) for knob in told] or ["  nothing moves them by a tenth"]
    return lines


def _claims(knobs: Sequence[Knob]) -> list[str]:
    """Give the claims with the worst that any value makes of them."""

    def worst(shares: list[float]) -> str:
        return f"{max(shares, default=0.0):.1%}"

    late = [max(knob.kicks) for knob in knobs if knob.slip > 0]
    far = [max(knob.starts) for knob in knobs if abs(math.degrees(knob.slip)) >= FAR]
    early = [min(knob.kicks) for knob in knobs if round(math.degrees(knob.slip)) == -FAR]
    good = [max(knob.kicks) for knob in knobs if knob.slip == 0]
    pops = [max(knob.pops) for knob in knobs if -FAR <= round(math.degrees(knob.slip)) < 0]
    return [
        f"A late spark (60° and 90°) kicks in at most {worst(late)} of pulls that light, whichever value is turned.",
        f"{FAR}° or more off, early or late, it starts in at most {worst(far)}.",
        f"{FAR}° early it kicks in at least {min(early, default=0.0):.0%}; few where little compression is left.",
        f"In its place it kicks in at most {worst(good)}.",
        f"Up to {FAR}° early it pops at the carburettor in at most {worst(pops)} of all pulls.",
    ]


def _knob_line(card: EngineCard, knob: Knob) -> str:
    low, high = (_said(card, knob.name, end) for end in ("low", "high"))
    name = knob.name.replace("_", " ")
    return f"  {name:18} {low:>11} {knob.kicks[0]:5.0%}    {high:>11} {knob.kicks[1]:5.0%}"


def _said(card: EngineCard, name: str, end: str) -> str:
    """Say an end of a value's range in the unit a shop has for it; what has none in SI."""
    value = float(getattr(getattr(card, name), end))
    kind, unit = SAID_IN.get(name, ("", ""))
    return show(value, unit, kind, 1) if kind else f"{value:.3g}"


def _share_line(words: str, share: Share) -> str:
    return f"  {words:24} {share.value:4.0%}   ({share.low:.0%} to {share.high:.0%})"
