"""Why a step is proposed, in shop words."""

import numpy as np

from bellcrank.diagnosis.because import cause_words
from bellcrank.diagnosis.counted import Counted
from bellcrank.diagnosis.network import NOT_LISTED
from bellcrank.diagnosis.standpoint import Look, Mend, Standpoint

LEAST_SAVING = 0.3  # [min] below it a check is not worth the walk
WHY_AGAIN = "Done before, but what was seen since shows the same fault: it was not done right, or the part is bad."
WHY_NOT_AGAIN = "Done before, and it did not cure it: doing it again is not counted on."


def why_look(stand: Standpoint, look: Look, saved: float) -> str:
    """Name the two causes a check moves apart most, and what it buys."""
    told = _tells(stand, look)
    if saved <= LEAST_SAVING:
        return f"{told}, but saves hardly a minute now."
    return f"{told}; {max(1, round(look.cost))} min spent on it saves about {max(1, round(saved))} min."


def _tells(stand: Standpoint, look: Look) -> str:
    network = stand.compiled.network
    moves = look.culprits - stand.culprits
    moves[:, network.position[NOT_LISTED]] = 0.0  # "something else" is nothing to look for
    first = int((look.chances @ np.abs(moves)).argmax())
    together = look.chances @ (moves * moves[:, [first]])
    second = int(together.argmin())
    names = [cause_words(stand.compiled, network.names[place]) for place in (first, second)]
    return f"Tells “{names[0]}” from “{names[1]}”" if together[second] < 0 else f"Shows whether it is “{names[0]}”"


def why_mend(stand: Standpoint, mend: Mend) -> str:
    """Say how many such machines a repair cures, and of what."""
    if mend.used:
        return WHY_NOT_AGAIN
    position = stand.compiled.network.position
    likely = max(mend.repair.fixes, key=lambda name: stand.culprits[position[name]])
    words = cause_words(stand.compiled, likely)
    return f"Cures {round(100 * mend.cures)} in 100 such machines, most of them of “{words}”."


def why_ask(no: float, limit_known: bool, best_words: str, saved: float) -> str:
    """Say whether to ask the customer now or to look further first."""
    if not limit_known:
        return f"No limit is known, so asking now saves nothing: “{best_words}” first makes the range narrower."
    often = f"As it looks now, {round(10 * no)} in 10 such jobs come to more than may be spent"
    if saved > 0:
        return f"{often}: asking before any more work saves about {max(1, round(saved))} min that a no would lose."
    return f"{often}: “{best_words}” first pays for itself."


def why_refuse(counted: Counted, ahead: float, worth_known: bool) -> str:
    """Say when stopping is worth it, and how far from it the job is."""
    least = "the machine is worth, as work" if worth_known else f"{counted.give_up:.0f} min"
    return f"Worth it when the rest looks like more than {least}; now it looks like {ahead:.0f} min, parts as minutes."
