"""A pack with what the closed jobs taught: shares, rows of results and minutes, each drawn towards the pack's own.

What the pack says counts like so many jobs beforehand. Not learnt, however many jobs say otherwise, but told: rows that
follow from computed pulls, and whatever belongs to a cause that can hurt somebody. Such numbers change by hand, in the
pack, or not at all; who looks at them sees what the jobs say beside.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bellcrank.diagnosis.belief import gather
from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.counts import Counts
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.knowledge.model import Cause, Check, Likelihood, Pack, Repair, Severity
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.sources import Basis, Origin
from bellcrank.stats.updating import LogSums, Times, updated_row, updated_times
from bellcrank.stats.weighing import weigh

# How many cases the pack's own numbers count as; guesses, tried on simulated shops of 300 closed jobs: with rows worth
# half as much, a pack that is right loses twice as much, and one that is off by half gains hardly more.
SHARES_WORTH = 60.0  # [-] jobs with a complaint
ROW_WORTH, SOUND_WORTH = 16.0, 48.0  # [-] machines with a cause; sound machines
MINUTES_WORTH = 6.0  # [-] repairs
MOST_NAMED = 0.99  # [-] of a complaint that its named causes may come to
LEAST_TOLD = 0.05  # [-] cases below which a number counts as not seen
OWN = Origin(Basis.OWN_SHOP, "")
COMPUTED, SAFETY = "computed from pulls", "can hurt somebody"  # why a number is held at the pack's


@dataclass(frozen=True, slots=True)
class LearntShare:
    """How often a cause is behind a complaint."""

    complaint: str
    cause: str
    before: float  # by the pack [-]
    learnt: float  # with the jobs; where held, what it would be [-]
    seen: float  # jobs it was
    of: float  # jobs with the complaint
    held: str  # why it stays at the pack's, "" when it does not


@dataclass(frozen=True, slots=True)
class LearntRow:
    """What a check shows with a cause alone, or on a sound machine."""

    check: str
    cause: str  # or LEAK_ROW
    before: tuple[float, ...]
    learnt: tuple[float, ...]
    seen: tuple[float, ...]
    held: str


@dataclass(frozen=True, slots=True)
class LearntMinutes:
    """How long a repair takes."""

    repair: str
    before: Times
    learnt: Times
    seen: LogSums


@dataclass(frozen=True, slots=True, eq=False)
class Learnt:
    """A pack that learnt, and every number that it did or would have learnt."""

    pack: Pack
    shares: tuple[LearntShare, ...]
    rows: tuple[LearntRow, ...]
    minutes: tuple[LearntMinutes, ...]


def model_shares(compiled: CompiledPack) -> Mapping[str, Mapping[str, float]]:
    """Give how often the network has each cause to blame for a complaint: what the jobs' counts are held against."""
    told = {}
    for complaint in compiled.pack.complaints:
        _, evidence = gather(compiled, Case((complaint.id,)))
        blocking = weigh(compiled.network, evidence).blocking[0]
        told[complaint.id] = dict(zip(compiled.network.names, (blocking / blocking.sum()).tolist(), strict=True))
    return told


def with_learnt(pack: Pack, counts: Counts, modelled: Mapping[str, Mapping[str, float]]) -> Learnt:
    """Give the pack with what was counted; ``modelled`` is what :func:`model_shares` says of it."""
    shares = tuple(one for complaint in pack.complaints for one in _shares(pack, complaint.id, counts, modelled))
    rows = tuple(one for check in pack.checks for one in _rows(check, pack, counts))
    minutes = tuple(_minutes(one, counts.minutes[one.id]) for one in pack.repairs if one.id in counts.minutes)
    return Learnt(_pack(pack, shares, rows, minutes), shares, rows, minutes)


def _shares(
    pack: Pack, complaint: str, counts: Counts, modelled: Mapping[str, Mapping[str, float]]
) -> list[LearntShare]:
    """Move shares by (worth * f + n) / ((worth + N) * f), f being what the network makes of the share."""
    of = counts.jobs.get(complaint, 0.0)
    if of < LEAST_TOLD:
        return []
    learnt = []
    for cause in pack.causes:
        before, seen = cause.shares.get(complaint, 0.0), counts.causes.get((complaint, cause.id), 0.0)
        if not before and seen < LEAST_TOLD:
            continue
        model = modelled[complaint][cause.id]
        scale = before / model if before and model else 1.0
        after = scale * (SHARES_WORTH * model + seen) / (SHARES_WORTH + of)
        held = SAFETY if cause.severity is Severity.SAFETY else ""
        learnt.append(LearntShare(complaint, cause.id, before, after, seen, of, held))
    return _not_more_than_all(learnt)


def _not_more_than_all(shares: Sequence[LearntShare]) -> list[LearntShare]:
    """Scale learnt shares so that with the held ones they leave something for what is not on the list."""
    room = MOST_NAMED - sum(one.before for one in shares if one.held)
    taken = sum(one.learnt for one in shares if not one.held)
    scale = min(1.0, room / taken) if taken else 1.0
    return [one if one.held else replace(one, learnt=scale * one.learnt) for one in shares]


def _rows(check: Check, pack: Pack, counts: Counts) -> list[LearntRow]:
    severe = {cause.id for cause in pack.causes if cause.severity is Severity.SAFETY}
    computed = any(row.origin.basis is Basis.COMPUTED for row in check.likelihoods)
    told = [(LEAK_ROW, check.leak, COMPUTED if computed else "")]
    for row in check.likelihoods:
        why = COMPUTED if row.origin.basis is Basis.COMPUTED else SAFETY if row.cause in severe else ""
        told.append((row.cause, row.probabilities, why))
    learnt = []
    for cause, before, held in told:
        seen = tuple(counts.results.get((check.id, cause, one.id), 0.0) for one in check.results)
        if sum(seen) >= LEAST_TOLD:
            worth = SOUND_WORTH if cause == LEAK_ROW else ROW_WORTH
            learnt.append(LearntRow(check.id, cause, before, updated_row(before, worth, seen), seen, held))
    return learnt


def _minutes(repair: Repair, seen: LogSums) -> LearntMinutes:
    before = Times(*repair.minutes)
    return LearntMinutes(repair.id, before, updated_times(before, MINUTES_WORTH, seen), seen)


def _pack(
    pack: Pack, shares: Sequence[LearntShare], rows: Sequence[LearntRow], minutes: Sequence[LearntMinutes]
) -> Pack:
    by_cause: defaultdict[str, dict[str, float]] = defaultdict(dict)
    for share in shares:
        if not share.held:
            by_cause[share.cause][share.complaint] = share.learnt
    learnt = {(one.check, one.cause): one.learnt for one in rows if not one.held}
    took = {one.repair: (one.learnt.low, one.learnt.typical, one.learnt.high) for one in minutes}
    return replace(
        pack,
        causes=tuple(_cause(one, by_cause[one.id]) if one.id in by_cause else one for one in pack.causes),
        checks=tuple(_check(one, learnt) for one in pack.checks),
        repairs=tuple(replace(one, minutes=took[one.id]) if one.id in took else one for one in pack.repairs),
    )


def _cause(cause: Cause, shares: Mapping[str, float]) -> Cause:
    return replace(cause, shares={**cause.shares, **shares}, origin=OWN)


def _check(check: Check, learnt: Mapping[tuple[str, str], tuple[float, ...]]) -> Check:
    return replace(
        check,
        leak=learnt.get((check.id, LEAK_ROW), check.leak),
        likelihoods=tuple(_row(row, learnt) for row in check.likelihoods),
    )


def _row(row: Likelihood, learnt: Mapping[tuple[str, str], tuple[float, ...]]) -> Likelihood:
    key = (row.check, row.cause)
    return replace(row, probabilities=learnt[key], origin=OWN) if key in learnt else row
