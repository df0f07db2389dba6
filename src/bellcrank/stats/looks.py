"""Each piece of evidence and what it makes of every cause: a finding seen clearly or not, a complaint."""

from dataclasses import dataclass

import numpy as np

from bellcrank.stats.evidence import Question, Sighting, Standing
from bellcrank.stats.fault_network import FaultNetwork, FindingTable, FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Graded:
    """A finding that was not seen clearly: how high it is so far, as states."""

    rows: FloatArray  # shape (states, causes): that a cause alone shows at most this much
    start: FloatArray  # shape (states,): chance of each from the leak alone
    fits: FloatArray  # shape (states,): how well each fits what was seen


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """One piece of evidence and what it makes of a cause; a cause counts by when it went."""

    kept: FloatArray | None  # shape (questions,), 0 or 1; None: every question keeps it
    since: int  # repairs done when it was first made: a cause that went earlier was not seen
    made: int  # repairs done when it was last made: a cause that went in between did not make it
    cured: int | None  # of a cured complaint: repairs done then; a cause still there did not block
    leak: tuple[float, float]  # of the finding: below its level, at its level
    seen: FloatArray  # shape (causes,): factor of a cause it saw
    unseen: FloatArray  # shape (causes,): factor of a cause it did not see
    held: FloatArray  # shape (causes,): factor of a cause that went between its being made first and last
    stay: FloatArray | None  # shape (causes,), for a finding that must be explained
    spared: FloatArray  # shape (causes,): factor of a cause still there at the cure
    stands: bool = False
    graded: Graded | None = None  # a finding not seen clearly

    def factor(self, went: int) -> FloatArray:
        """Give the factors of causes that went with the repair of this number; shape (causes,)."""
        if went < self.made:
            return self.unseen if went < self.since else self.held
        return self.spared if self.cured is not None and went >= self.cured else self.seen

    def presses(self, went: int) -> bool:
        """Whether causes that went with the repair of this number may explain it."""
        return self.stay is not None and went >= self.made and (self.cured is None or went < self.cured)


def look_of_sighting(network: FaultNetwork, sighting: Sighting, kept: FloatArray | None) -> Look:
    """Make a look of a finding; ``kept`` says which questions keep it."""
    table, level = network.findings[sighting.finding], sighting.level
    if sighting.weights:
        return _unclear(table, sighting, kept)
    if level and len(table.touched) <= 1:
        return _lonely(table, sighting, kept)
    top, leak_top = table.rows[level], float(table.leak[level])
    below = table.rows[level - 1] if level else np.zeros_like(top)
    leak_below = float(table.leak[level - 1]) if level else 0.0
    stay = np.divide(below, top, out=np.ones_like(top), where=top > 0)
    return Look(
        kept=kept,
        since=_first_made(sighting),
        made=sighting.after,
        cured=None,
        leak=(leak_below, leak_top - leak_below),
        seen=top,
        unseen=np.ones_like(top),
        held=top,
        stay=stay if level else None,
        spared=np.ones_like(top),
    )


def _lonely(table: FindingTable, sighting: Sighting, kept: FloatArray | None) -> Look:
    """A finding that one cause at most has a say in needs no explaining: a factor for its presence and absence."""
    top, below = table.rows[sighting.level], table.rows[sighting.level - 1]
    leak_top, leak_below = float(table.leak[sighting.level]), float(table.leak[sighting.level - 1])
    seen, unseen, held = np.ones((3, len(top)))
    for cause in table.touched:
        seen[cause] = leak_top * top[cause] - leak_below * below[cause]
        unseen[cause] = leak_top - leak_below
        held[cause] = unseen[cause] * top[cause]
    return Look(
        kept=kept,
        since=_first_made(sighting),
        made=sighting.after,
        cured=None,
        leak=(0.0, 1.0 if table.touched else leak_top - leak_below),
        seen=seen,
        unseen=unseen,
        held=held,
        stay=None,
        spared=np.ones_like(top),
    )


def _unclear(table: FindingTable, sighting: Sighting, kept: FloatArray | None) -> Look:
    """A finding that was not seen clearly: states from below the lowest level that fits up to the highest.

    What a question leaves out fits every state alike, so all levels are kept then.
    """
    weights = np.array(sighting.weights)
    fitting = np.flatnonzero(weights) if kept is None else np.arange(len(weights))
    levels = np.arange(max(0, fitting[0] - 1), fitting[-1] + 1)
    leak, ones = table.leak[levels], np.ones(table.rows.shape[1])
    return Look(
        kept=kept,
        since=sighting.after,
        made=sighting.after,
        cured=None,
        leak=(0.0, 1.0),
        seen=ones,
        unseen=ones,
        held=ones,
        stay=ones,
        spared=ones,
        graded=Graded(table.rows[levels], np.diff(leak, prepend=0.0), weights[levels]),
    )


def _first_made(sighting: Sighting) -> int:
    return sighting.after if sighting.since is None else sighting.since


def look_of_standing(table: FindingTable, standing: Standing) -> Look:
    """Make a look of a complaint."""
    ones = np.ones_like(table.rows[0])
    leak = float(table.leak[0])
    return Look(
        kept=None,
        since=standing.stood_after,
        made=standing.stood_after,
        cured=standing.gone_after,
        leak=(leak, 0.0 if standing.gone_after is not None else 1 - leak),
        seen=ones,
        unseen=ones,
        held=ones,
        stay=table.rows[0],
        spared=table.rows[0],
        stands=True,
    )


def kept_by(place: int, questions: tuple[Question, ...]) -> FloatArray | None:
    """Say which questions keep the finding at this place; None: all of them."""
    kept = np.array([place not in question.without for question in questions], float)
    return None if kept.all() else kept


def where_kept(kept: FloatArray | None, values: FloatArray, otherwise: float = 1.0) -> FloatArray:
    """Put a neutral value where a question leaves the finding out; shape (questions or 1, *values)."""
    if kept is None:
        return values[None]
    return np.where(kept.reshape(-1, *(1,) * values.ndim) > 0, values[None], otherwise)
