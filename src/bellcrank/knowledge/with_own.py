"""A pack with what a shop added to it; pure, and never wrong by a cause or check the pack does not have any more.

How much an own entry weighs, all guesses until the shop's own record says better:

- The pack's shares of a complaint count as `PACK_JOBS` jobs, each own cause of it as one more: with one own cause its
  share is 1 in 60. "Something that is not on this list" gives that share up; when it has not that much to give, down to
  `LEAST_NOT_LISTED`, the pack's causes give up the rest in proportion. So shares never sum above 100 %.
- A finding an own cause explains was seen in one job of one: by the rule of succession 2 in 3 will show it. The rest
  spreads over the other results as a sound machine's do. Such a row gives way soon when more jobs are counted.
- The look for an own cause finds it nearly always, and hardly ever where it is not.
- The repair puts it right nine times in ten.
- An own check shows a cause hardly, often or nearly always, by `HOW_WELL`; the rest spreads as above.

References
----------
P. S. Laplace, Essai philosophique sur les probabilités, 1814: the rule of succession.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bellcrank.knowledge.model import (
    ROW_WEIGHT,
    Cause,
    Check,
    CheckKind,
    Likelihood,
    Pack,
    Repair,
    RepairPart,
    Result,
    Severity,
)
from bellcrank.knowledge.own import HOW_WELL, Own, OwnCause, OwnCheck, names_of
from bellcrank.knowledge.own_cautions import check_cautions, repair_cautions, touched_by
from bellcrank.sources import Basis, Origin

SOURCE = "own-shop"  # what own entries name as their source
OWN = Origin(Basis.OWN_SHOP, SOURCE)
PACK_JOBS = 59  # [-] jobs the pack's shares of a complaint count as; guess
LEAST_NOT_LISTED = 0.01  # [-] share of a complaint that always stays for what is not on the list
SEEN_WEIGHT = 3.0  # [-] jobs such a row counts as when more are counted: the one, and the two the rule begins with
SEEN_ONCE = 2 / 3  # [-] chance of what was seen in one case of one: (1 + 1) / (1 + 2)
LOOK_MINUTES = 2.0  # [min] guess
LOOK_LEAK = (0.99, 0.01)  # [-] guess: a thing that is named is hardly seen where it is not
MENDED = 0.9  # [-] guess, as most repairs of the packs
MINUTES_SPREAD = (0.6, 1.0, 2.0)  # [-] low and high of a repair beside the typical minutes; guess, as in the packs
SOUND = 0.95  # [-] chance that a sound machine shows the first result of an own check; guess
NO, YES = "no", "yes"


def with_own(pack: Pack, own: Own) -> Pack:
    """Give a pack with the shop's own causes and checks; what was taken back is there to be read, and asked of none."""
    if own == Own():
        return pack
    checks = [*pack.checks, *(_look(pack, one) for one in own.causes), *(_check(pack, one) for one in own.checks)]
    checks = [_with_rows(check, own) for check in checks]
    checks += [replace(_look(pack, one), likelihoods=()) for one in own.old_causes]
    checks += [_check(pack, one) for one in own.old_checks]
    repairs = [_repair(pack, one) for one in own.causes]
    repairs += [replace(_repair(pack, one), fixes={}) for one in own.old_causes]
    causes = _with_shares(pack, own.causes)
    known = {cause.id for cause in causes}
    return replace(
        pack,
        causes=causes,
        checks=tuple(replace(one, likelihoods=_only(one.likelihoods, known)) for one in checks),
        repairs=(*pack.repairs, *repairs),
        retired=names_of(own.old_causes, own.old_checks),
    )


def _only(rows: Iterable[Likelihood], known: set[str]) -> tuple[Likelihood, ...]:
    return tuple(row for row in rows if row.cause in known)


def _with_shares(pack: Pack, own: Sequence[OwnCause]) -> tuple[Cause, ...]:
    """Give the pack's causes with what they give up, and the own ones."""
    kept: dict[str, float] = {}  # complaint -> what the pack's causes keep of their shares
    gained: dict[str, float] = {}  # complaint -> share of each own cause
    for complaint in pack.complaints:
        count = sum(complaint.id in one.complaints for one in own)
        if count:
            gained[complaint.id] = 1 / (PACK_JOBS + count)
            before = sum(cause.shares.get(complaint.id, 0.0) for cause in pack.causes)
            taken = count * gained[complaint.id]
            after = min(before + taken, max(before, 1 - LEAST_NOT_LISTED))
            kept[complaint.id] = max(0.0, after - taken) / before
    causes = [
        replace(cause, shares={name: share * kept.get(name, 1.0) for name, share in cause.shares.items()})
        for cause in pack.causes
    ]
    return (*causes, *(_cause(one, {name: gained[name] for name in one.complaints if name in gained}) for one in own))


def _cause(one: OwnCause, shares: dict[str, float]) -> Cause:
    return Cause(one.id, one.words, one.system, Severity.FUNCTION, None, shares, one.mend, OWN)


def _look(pack: Pack, one: OwnCause) -> Check:
    access = _known_access(pack, one.access)
    cautions = check_cautions(pack, access, runs_engine=False)
    return Check(
        id=one.look,
        kind=CheckKind.LOOK,
        words=f"Look for this: {one.words}",
        story=False,
        story_words="",
        results=(
            Result(NO, "not there", f"“{one.words}” was not found", forbids_running=False),
            Result(YES, "found", f"“{one.words}” was found", forbids_running=False),
        ),
        leak=LOOK_LEAK,
        likelihoods=(_row(one.look, one.id, (NO, YES), LOOK_LEAK, YES, HOW_WELL["nearly always"]),),
        minutes=LOOK_MINUTES,
        tools=(),
        access=access,
        off_first=cautions.off_first,
        hazards=cautions.hazards,
        runs_engine=False,
        origin=OWN,
    )


def _check(pack: Pack, one: OwnCheck) -> Check:
    access = _known_access(pack, one.access)
    cautions = check_cautions(pack, access, runs_engine=one.runs_engine)
    return Check(
        id=one.id,
        kind=CheckKind.RUN if one.runs_engine else CheckKind.LOOK,
        words=one.words,
        story=False,
        story_words="",
        results=tuple(
            Result(result.id, result.words, f"“{one.words}” says: {result.words}", forbids_running=False)
            for result in one.results
        ),
        leak=_sound(len(one.results)),
        likelihoods=(),
        minutes=one.minutes,
        tools=one.tools,
        access=access,
        off_first=cautions.off_first,
        hazards=tuple(dict.fromkeys((*cautions.hazards, *one.hazards))),
        runs_engine=one.runs_engine,
        origin=OWN,
    )


def _sound(results: int) -> tuple[float, ...]:
    others = (1 - SOUND) / (results - 1)
    return (SOUND, *(others for _ in range(results - 1)))


def _with_rows(check: Check, own: Own) -> Check:
    """Give a check with the rows of the own causes it was seen to tell of, and of what an own check shows."""
    names = [result.id for result in check.results]
    told = {row.cause: row for row in check.likelihoods}
    seen = [
        (one.id, result, SEEN_ONCE, SEEN_WEIGHT)
        for one in own.causes
        for name, result in one.explains
        if name == check.id
    ]
    shown = [
        (s.cause, s.result, HOW_WELL[s.how_well], ROW_WEIGHT) for c in own.checks if c.id == check.id for s in c.shows
    ]
    for cause, result, chance, weight in (*seen, *shown):
        if result in names and cause not in told:
            told[cause] = replace(_row(check.id, cause, names, check.leak, result, chance), weight=weight)
    return replace(check, likelihoods=tuple(told.values()))


def _row(check: str, cause: str, names: Sequence[str], leak: Sequence[float], result: str, chance: float) -> Likelihood:
    """Give a row in which one result has a chance and the others share the rest as a sound machine's do."""
    place = names.index(result)
    rest = sum(leak) - leak[place]
    row = tuple(chance if number == place else (1 - chance) * sound / rest for number, sound in enumerate(leak))
    return Likelihood(check, cause, row, OWN)


def _repair(pack: Pack, one: OwnCause) -> Repair:
    access = _known_access(pack, one.access)
    cautions = repair_cautions(pack, access)
    low, typical, high = (one.minutes * share for share in MINUTES_SPREAD)
    return Repair(
        id=one.mend,
        words=one.repair_words,
        fixes={one.id: MENDED},
        minutes=(low, typical, high),
        access=access,
        target=None,
        parts=(RepairPart(f"parts: {one.words}", one.price),) if one.price else (),
        tools=(),
        off_first=cautions.off_first,
        hazards=cautions.hazards,
        touches=touched_by(pack, access, one.system),
        origin=OWN,
    )


def _known_access(pack: Pack, access: Iterable[str]) -> tuple[str, ...]:
    known = {one.id for one in pack.accesses}
    return tuple(name for name in access if name in known)
