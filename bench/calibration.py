"""Whether the tool's chances come true: after the story and three checks, its word against the machine.

References
----------
D. J. Spiegelhalter, Probabilistic prediction in patient management and clinical trials, Statistics in Medicine 5, 1986
(z of the Brier score, from memory).
"""

from dataclasses import dataclass

import numpy as np
from bench.policies import believed, ranked

from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.network import NOT_LISTED

CHECKS = 3  # made before the tool is taken at its word
LEAST = 1e-9  # [-] a chance below it is taken for it in the log score


@dataclass(frozen=True)
class Forecasts:
    """Chances given, and what was so; one entry a cause and job, or one a job for the likeliest reason."""

    given: np.ndarray  # that each cause is there
    there: np.ndarray
    by_complaint: np.ndarray  # the same chance by the complaint alone
    top: np.ndarray  # that the likeliest reason keeps the complaint standing
    top_true: np.ndarray
    among_three: np.ndarray  # whether one of the three likeliest does


def forecasts(visit):
    """Ask the tool about one machine after the story and some checks."""
    known = visit.known
    for _ in range(CHECKS):
        check = next((step for step in ranked(known, visit.case) if step.kind == "check"), None)
        if check is not None:
            visit.check(check.id)
    belief = believed(known, visit.case)
    alone = believed(known, Case(visit.case.complaints))
    names = known.network.names
    there = _as_known(visit, visit.here)
    reasons = _as_known(visit, visit.machine.blockers)
    likeliest = sorted(names, key=lambda name: -belief.blocking[name])[:3]
    return Forecasts(
        given=np.array([belief.now[name] for name in names]),
        there=np.array([name in there for name in names], float),
        by_complaint=np.array([alone.now[name] for name in names]),
        top=np.array([belief.blocking[likeliest[0]]]),
        top_true=np.array([likeliest[0] in reasons], float),
        among_three=np.array([any(name in reasons for name in likeliest)], float),
    )


def _as_known(visit, places):
    """Names of causes as the tool knows them: what it does not know is not on its list."""
    names = (visit.world.network.names[place] for place in places)
    return {name if name in visit.known.network.position else NOT_LISTED for name in names}


def together(many):
    """Put the forecasts of many jobs together."""
    fields = Forecasts.__dataclass_fields__
    return Forecasts(**{name: np.concatenate([getattr(one, name) for one in many]) for name in fields})


def brier(given, there):
    """Mean square of what a chance is off by: 0 is perfect."""
    return float(np.mean((given - there) ** 2))


def log_score(given, there):
    """Mean surprise in nats: 0 is perfect."""
    held = np.clip(given, LEAST, 1 - LEAST)
    return float(-np.mean(there * np.log(held) + (1 - there) * np.log(1 - held)))


def spiegelhalter(given, there):
    """Standard normal when chances are right and independent; those of one job are not: a smoke alarm beyond 3."""
    spread = np.sqrt(np.sum((1 - 2 * given) ** 2 * given * (1 - given)))
    return float(np.sum((there - given) * (1 - 2 * given)) / spread)
