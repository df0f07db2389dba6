"""Whole-library checks: every gap and contradiction of the packs, in words."""

from collections.abc import Iterator
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from itertools import combinations

from bellcrank.knowledge.model import Library, Pack

ROUNDING = 1e-6  # [-] how far a row of chances may miss a sum of one
WEIGHTS_MAY_MISS = 0.02  # [-] how far complaint weights may miss a sum of one


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a pack that does not fit."""

    kind: str
    file: str
    words: str


def problems(library: Library) -> tuple[Problem, ...]:
    """Give every problem of every pack, in order of packs and files."""
    found = [problem for pack in library.packs.values() for problem in _pack_problems(library, pack)]
    found.extend(Problem(COMMON_KIND, "release.csv", words) for words in _release_problems(library))
    return tuple(found)


COMMON_KIND = "common"


def _pack_problems(library: Library, pack: Pack) -> Iterator[Problem]:
    for file, check in (
        ("likelihoods.csv", _likelihood_problems),
        ("checks.csv", _unknown_names),
        ("causes.csv", _cause_problems),
        ("complaints.csv", _complaint_problems),
        ("access.csv", _access_problems),
    ):
        for words in check(library, pack):
            yield Problem(pack.kind, file, words)
    for file, words in _source_problems(library, pack):
        yield Problem(pack.kind, file, words)


def _likelihood_problems(_: Library, pack: Pack) -> Iterator[str]:
    causes = {cause.id for cause in pack.causes}
    for check in pack.checks:
        rows = [("leak", check.leak), *((row.cause, row.probabilities) for row in check.likelihoods)]
        for name, chances in rows:
            if len(chances) != len(check.results):
                yield f"“{check.id}”, row {name}: {len(chances)} chances for {len(check.results)} results."
            if abs(sum(chances) - 1) > ROUNDING or any(not 0 <= one <= 1 for one in chances):
                yield f"“{check.id}”, row {name}: chances must lie in 0 to 1 and sum to 1."
            if name != "leak" and name not in causes:
                yield f"“{check.id}” names the cause “{name}”, which is not in causes.csv."
        if any(one in (0, 1) for one in check.leak):
            yield f"“{check.id}”: the leak row holds a sure 0 or 1; nothing at the bench is that sure."


def _unknown_names(library: Library, pack: Pack) -> Iterator[str]:
    accesses = {access.id for access in pack.accesses}
    targets = {part for assembly in pack.assemblies for part in assembly.targets}
    for one in (*pack.checks, *pack.repairs):
        yield from (f"“{one.id}”: no access “{name}”." for name in one.access if name not in accesses)
        yield from (f"“{one.id}”: no hazard “{name}”." for name in one.hazards if name not in library.hazards)
    for repair in pack.repairs:
        if repair.target and targets and repair.target not in targets:
            yield f"“{repair.id}”: no part “{repair.target}” in an assembly."
    for assembly in pack.assemblies:
        for operation in assembly.operations:
            for name in (*operation.hazards, *operation.undo_hazards):
                if name not in library.hazards:
                    yield f"step “{operation.id}”: no hazard “{name}”."
            for fastener in operation.fasteners:
                yield from _fastener_problems(library, fastener.id, fastener.into, fastener.under_head)
                if fastener.strength and fastener.strength not in library.strength_classes:
                    yield f"fastener “{fastener.id}”: no strength class “{fastener.strength}”."


def _fastener_problems(library: Library, name: str, *materials: str) -> Iterator[str]:
    for material in materials:
        if material and material not in library.materials:
            yield f"fastener “{name}”: no material “{material}”."


def _cause_problems(_: Library, pack: Pack) -> Iterator[str]:
    ids = {cause.id for cause in pack.causes}
    fixes = {repair.id: repair.fixes for repair in pack.repairs}
    seen = {row.cause for check in pack.checks for row in check.likelihoods}
    for cause in pack.causes:
        if cause.id not in seen:
            yield f"“{cause.id}”: no check tells it from others."
        if cause.repair is None and cause.system != "event":
            yield f"“{cause.id}”: no repair."
        if cause.repair and cause.id not in fixes.get(cause.repair, {}):
            yield f"“{cause.id}”: the repair “{cause.repair}” does not fix it."
        if cause.prevalence is None and not cause.shares and not _is_brought_about(pack, cause.id):
            yield f"“{cause.id}”: neither a share of a complaint, nor a prevalence, nor a root."
    for link in pack.links:
        for name in (link.root, link.consequence):
            if name not in ids:
                yield f"link {link.root} to {link.consequence}: no cause “{name}”."
    yield from _twins(pack)


def _is_brought_about(pack: Pack, cause: str) -> bool:
    return any(link.consequence == cause for link in pack.links)


def _twins(pack: Pack) -> Iterator[str]:
    """Causes with one and the same row everywhere cannot be told apart by any check."""
    columns = {
        cause.id: tuple(
            next((row.probabilities for row in check.likelihoods if row.cause == cause.id), None)
            for check in pack.checks
        )
        for cause in pack.causes
    }
    for one, other in combinations(columns, 2):
        if columns[one] == columns[other]:
            yield f"“{one}” and “{other}” look the same to every check."


def _complaint_problems(_: Library, pack: Pack) -> Iterator[str]:
    weights = sum(complaint.weight for complaint in pack.complaints)
    if abs(weights - 1) > WEIGHTS_MAY_MISS:
        yield f"the complaint weights sum to {weights:g}; they must sum to 1."
    known = {complaint.id for complaint in pack.complaints}
    for complaint in pack.complaints:
        total = sum(cause.shares.get(complaint.id, 0.0) for cause in pack.causes)
        if not 0 < total <= 1:
            yield f"“{complaint.id}”: the shares sum to {total:.0%}; they must be above 0 and leave room for others."
    for cause in pack.causes:
        yield from (
            f"“{cause.id}” has a share of “{name}”, no complaint." for name in cause.shares if name not in known
        )


def _access_problems(_: Library, pack: Pack) -> Iterator[str]:
    known = {access.id for access in pack.accesses}
    targets = {part for assembly in pack.assemblies for part in assembly.targets}
    for access in pack.accesses:
        yield from (f"“{access.id}” needs “{name}”, no access." for name in access.needs if name not in known)
        if access.opens and targets and access.opens not in targets:
            yield f"“{access.id}” opens “{access.opens}”, no part of an assembly."
    try:
        TopologicalSorter({access.id: access.needs for access in pack.accesses}).prepare()
    except CycleError as circle:
        yield f"accesses need each other in a circle: {' → '.join(circle.args[1])}."


def _source_problems(library: Library, pack: Pack) -> Iterator[tuple[str, str]]:
    used = {(one.origin.source, "causes.csv") for one in pack.causes}
    used |= {(one.origin.source, "checks.csv") for one in pack.checks}
    used |= {(one.origin.source, "repairs.csv") for one in pack.repairs}
    used |= {(one.origin.source, "assembly") for one in pack.assemblies}
    used |= {(row.origin.source, "likelihoods.csv") for check in pack.checks for row in check.likelihoods}
    for key, file in sorted(used):
        if key not in library.sources:
            yield file, f"the source “{key}” is not in sources.csv."


def _release_problems(library: Library) -> Iterator[str]:
    for item in library.release_items:
        yield from (f"“{item.id}”: no hazard “{name}”." for name in item.hazards if name not in library.hazards)
        if item.source not in library.sources:
            yield f"“{item.id}”: the source “{item.source}” is not in sources.csv."
    for hazard in library.hazards.values():
        if hazard.source not in library.sources:
            yield f"hazard “{hazard.id}”: the source “{hazard.source}” is not in sources.csv."
