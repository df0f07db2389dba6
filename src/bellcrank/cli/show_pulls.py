"""Computed pulls as lines of text."""

import math
from collections.abc import Sequence

from bellcrank.cli.terminal import heading, wrap
from bellcrank.engine.card import EngineCard
from bellcrank.engine.pull.many import Outcome, PullRates
from bellcrank.engine.slip import slip_words
from bellcrank.shop.pulls import OUTCOME_WORDS, PULL_CAUTIONS, PULL_NOTES, SENSITIVITY_PULLS, Knob, PullsAsked
from bellcrank.stats.share import Share

MOVES = 0.1  # [-] a value that moves a share by less is left out of the list


def pull_lines(asked: PullsAsked, rates: PullRates) -> list[str]:
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
    """Lay out what each value moves, the sturdy claims first."""
    lines = [wrap(f"{card.words}: each value from its low end to its high, {SENSITIVITY_PULLS} pulls each")]
    late = [knob for knob in knobs if knob.slip > 0]
    most = max((max(knob.kicks) for knob in late), default=0.0)
    lines.append(
        wrap(f"A late spark kicks in at most {most:.1%} of pulls that light, whatever is turned.", first="  - ")
    )
    far = [knob for knob in knobs if abs(math.degrees(knob.slip)) >= 60]
    starts = max((max(knob.starts) for knob in far), default=0.0)
    lines.append(wrap(f"60° or more off starts in at most {starts:.1%} of pulls that light.", first="  - "))
    for slip in sorted({knob.slip for knob in knobs if knob.slip <= 0}):
        here = [knob for knob in knobs if knob.slip == slip]
        moved = sorted(here, key=lambda knob: -abs(knob.kicks[1] - knob.kicks[0]))
        lines.append(heading(f"kicks of pulls that light, flywheel {slip_words(slip)}"))
        told = [knob for knob in moved if abs(knob.kicks[1] - knob.kicks[0]) >= MOVES] or moved[:1]
        lines += [
            f"  {knob.name.replace('_', ' '):20} {knob.kicks[0]:4.0%} at its low end, {knob.kicks[1]:4.0%} at its high"
            for knob in told
        ]
    return lines


def _share_line(words: str, share: Share) -> str:
    return f"  {words:24} {share.value:4.0%}   ({share.low:.0%} to {share.high:.0%})"
