"""Whole-library checks: every gap and contradiction between the tables of the packs, in words.

A single line that cannot be read is refused earlier, by :mod:`bellcrank.knowledge.pack`.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from itertools import combinations

from bellcrank.engine.slip_table import PULLED_BY, fingerprint
from bellcrank.errors import NotFound
from bellcrank.knowledge.closed_lists import ANSWERS, NUMBERS, TOUCHED, TRIGGERS
from bellcrank.knowledge.computed_likelihoods import wrong_rows
from bellcrank.knowledge.model import Cause, Check, Library, Pack
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.knowledge.sources_used import sources_used

COMMON = "common"
ROUNDING = 1e-6  # [-] how far a row of chances may miss a sum of one
MAY_BE_ROUNDED = 0.002  # [-] how far a computed row may miss what the tables say
STRONGEST = 4e9  # [Pa] above any metal a shop meets
WEIGHTS_MAY_MISS = 0.02  # [-] how far complaint weights may miss a sum of one


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a pack that does not fit."""

    kind: str  # folder of the pack
    file: str
    words: str


def problems(library: Library) -> tuple[Problem, ...]:
    """Give every problem of every pack, in order of packs and files."""
    found = [problem for pack in library.packs.values() for problem in _pack_problems(library, pack)]
    found.extend(Problem(COMMON, "release.csv", words) for words in _release_problems(library))
    found.extend(Problem(COMMON, "materials.csv", words) for words in _material_problems(library))
    found.extend(Problem(kind, file, words) for kind, file, words in _source_problems(library))
    return tuple(found)


def _pack_problems(library: Library, pack: Pack) -> Iterator[Problem]:
    checks: tuple[tuple[str, Callable[[Library, Pack], Iterator[str]]], ...] = (
        ("pack.toml", _about_problems),
        ("complaints.csv", _complaint_problems),
        ("causes.csv", _cause_problems),
        ("links.csv", _link_problems),
        ("results.csv", _result_problems),
        ("likelihoods.csv", _likelihood_problems),
        ("likelihoods-given.csv", _given_problems),
        ("checks.csv", _check_problems),
        ("access.csv", _access_problems),
        ("repairs.csv", _repair_problems),
        ("assembly", _assembly_problems),
        ("engine-cards.csv", _slip_table_problems),
        ("likelihoods.csv", _computed_problems),
    )
    for file, check in checks:
        yield from (Problem(pack.kind, file, words) for words in check(library, pack))


def _about_problems(_: Library, pack: Pack) -> Iterator[str]:
    if not 0 < pack.fault_scale <= 1:
        yield f"fault_scale is {pack.fault_scale:g}; it must lie above 0 and not above 1."
    if pack.give_up_minutes <= 0 or pack.start_check_minutes < 0:
        yield "give_up_minutes must be above 0 and start_check_minutes not below 0."
    for name, times in Counter(card.id for card in pack.engine_cards).items():
        if times > 1:
            yield f"the engine card “{name}” stands there {times} times."


def _computed_problems(library: Library, pack: Pack) -> Iterator[str]:
    if not any(_slip_table_problems(library, pack)):
        yield from wrong_rows(library, pack, MAY_BE_ROUNDED)


def _slip_table_problems(library: Library, pack: Pack) -> Iterator[str]:
    for card in pack.engine_cards:
        try:
            made_of = library.slip_tables[card.id].fingerprint
        except NotFound as missing:
            yield missing.sentence
            continue
        if made_of != fingerprint(card, library.operators[PULLED_BY]):
            yield f"the table of pulls of “{card.id}” was made of other values. Make it anew: bellcrank packs pulls."


def _complaint_problems(_: Library, pack: Pack) -> Iterator[str]:
    weights = sum(complaint.weight for complaint in pack.complaints)
    if abs(weights - 1) > WEIGHTS_MAY_MISS:
        yield f"the complaint weights sum to {weights:g}; they must sum to 1."
    known = {complaint.id for complaint in pack.complaints}
    for complaint in pack.complaints:
        total = sum(cause.shares.get(complaint.id, 0.0) for cause in pack.causes)
        if not 0 < total <= 1 + ROUNDING:
            yield f"“{complaint.id}”: the shares sum to {total:.0%}; they must be above 0 and not above 100 %."
    for cause in pack.causes:
        yield from _unknown(f"share of “{cause.id}”", "complaint", cause.shares, known)
        if any(not 0 < share <= 1 for share in cause.shares.values()):
            yield f"“{cause.id}”: a share must lie above 0 and not above 100 %."


def _cause_problems(_: Library, pack: Pack) -> Iterator[str]:
    told_apart = {row.cause for check in pack.checks for row in check.likelihoods if row.probabilities[0] < 1}
    for cause in pack.causes:
        if cause.id not in told_apart:
            yield f"“{cause.id}”: no check can tell that it is there."
        if cause.prevalence is not None and not 0 < cause.prevalence < 1:
            yield f"“{cause.id}”: the prevalence is {cause.prevalence:g}; it must lie between 0 and 1."
        if cause.prevalence is None and not cause.shares:
            yield f"“{cause.id}”: neither a share of a complaint nor a prevalence."
        yield from _mend_problems(pack, cause)
    for one, other in _twins(pack):
        yield f"“{one}” and “{other}” look the same to every check."


def _mend_problems(pack: Pack, cause: Cause) -> Iterator[str]:
    fixes = {repair.id: repair.fixes for repair in pack.repairs}
    if cause.repair is None and cause.system != "event":
        yield f"“{cause.id}”: no repair."
    if cause.repair is not None and cause.id not in fixes.get(cause.repair, {}):
        yield f"“{cause.id}”: there is no repair “{cause.repair}” that fixes it."


def _twins(pack: Pack) -> Iterator[tuple[str, str]]:
    """Find causes that every check sees alike."""
    rows = {(check.id, row.cause): row.probabilities for check in pack.checks for row in check.likelihoods}
    sound = {check.id: (1.0, *(0.0 for _ in check.results[1:])) for check in pack.checks}
    seen = {cause.id: tuple(rows.get((name, cause.id), row) for name, row in sound.items()) for cause in pack.causes}
    return ((one, other) for one, other in combinations(seen, 2) if seen[one] == seen[other])


def _link_problems(_: Library, pack: Pack) -> Iterator[str]:
    known = {cause.id for cause in pack.causes}
    for link in pack.links:
        where = f"“{link.root}” to “{link.consequence}”"
        yield from _unknown(where, "cause", (link.root, link.consequence), known)
        if not 0 < link.probability < 1:
            yield f"{where}: the probability is {link.probability:g}; it must lie between 0 and 1."
    for pair, times in Counter((link.root, link.consequence) for link in pack.links).items():
        if times > 1:
            yield f"“{pair[0]}” to “{pair[1]}” stands there {times} times."
    roots: dict[str, list[str]] = {}
    for link in pack.links:
        roots.setdefault(link.consequence, []).append(link.root)
    yield from _circle("causes bring each other about", roots)


def _result_problems(_: Library, pack: Pack) -> Iterator[str]:
    known = {check.id for check in pack.checks}
    for check in pack.checks:
        names = [result.id for result in check.results]
        if len(names) < 2 or len(set(names)) < len(names):
            yield f"“{check.id}”: it needs at least two results, each with a name of its own."
        lifts = (lifted for result in check.results for lifted in result.lifts)
        yield from _unknown(f"“{check.id}” lifts", "check", lifts, known)
        if check.story and names != ["no", "yes"]:
            yield f"“{check.id}” is told at the door; its results must be no and yes, in this order."


def _likelihood_problems(_: Library, pack: Pack) -> Iterator[str]:
    known = {cause.id for cause in pack.causes}
    for check in pack.checks:
        yield from _unknown(f"row of “{check.id}”", "cause", (row.cause for row in check.likelihoods), known)
        yield from _row_problems(check, "leak row", check.leak)
        for row in check.likelihoods:
            yield from _row_problems(check, f"row “{row.cause}”", row.probabilities)
        if any(chance in (0, 1) for chance in check.leak):
            yield f"“{check.id}”: the leak row holds a sure 0 or 1; nothing at the bench is that sure."


def _given_problems(_: Library, pack: Pack) -> Iterator[str]:
    checks = {check.id: check for check in pack.checks}
    rows = {(check.id, row.cause) for check in pack.checks for row in check.likelihoods}
    rows |= {(check.id, LEAK_ROW) for check in pack.checks}
    yield from _unknown(
        "a row", "complaint", (one.complaint for one in pack.given), {one.id for one in pack.complaints}
    )
    for one in pack.given:
        if (one.row.check, one.row.cause) not in rows:
            yield f"“{one.row.check}”, “{one.row.cause}”: there is no usual row to take the place of. Write it first."
        else:
            yield from _row_problems(checks[one.row.check], f"row “{one.row.cause}”", one.row.probabilities)


def _row_problems(check: Check, row: str, chances: tuple[float, ...]) -> Iterator[str]:
    if len(chances) != len(check.results):
        yield f"“{check.id}”, {row}: {len(chances)} chances for {len(check.results)} results."
    if abs(sum(chances) - 1) > ROUNDING or any(not 0 <= chance <= 1 for chance in chances):
        yield f"“{check.id}”, {row}: the chances must lie in 0 to 1 and sum to 1; they sum to {sum(chances):g}."


def _check_problems(library: Library, pack: Pack) -> Iterator[str]:
    accesses = {access.id for access in pack.accesses}
    for check in pack.checks:
        yield from _unknown(f"“{check.id}”", "access", check.access, accesses)
        yield from _unknown(f"“{check.id}”", "hazard", check.hazards, library.hazards)
        if check.minutes <= 0:
            yield f"“{check.id}”: it takes {check.minutes:g} min; it must be above 0."


def _access_problems(_: Library, pack: Pack) -> Iterator[str]:
    known = {access.id for access in pack.accesses}
    parts = _parts(pack)
    for access in pack.accesses:
        yield from _unknown(f"“{access.id}”", "access", access.needs, known)
        if access.opens and parts and access.opens not in parts:
            yield f"“{access.id}”: no part “{access.opens}” in an assembly."
    yield from _circle("accesses need each other", {access.id: access.needs for access in pack.accesses})


def _repair_problems(library: Library, pack: Pack) -> Iterator[str]:
    causes = {cause.id for cause in pack.causes}
    accesses = {access.id for access in pack.accesses}
    parts = _parts(pack)
    for repair in pack.repairs:
        where = f"“{repair.id}”"
        yield from _unknown(where, "cause", repair.fixes, causes)
        yield from _unknown(where, "access", repair.access, accesses)
        yield from _unknown(where, "hazard", repair.hazards, library.hazards)
        yield from _unknown(where, "thing touched", repair.touches, TOUCHED)
        if any(not 0 < chance < 1 for chance in repair.fixes.values()):
            yield f"{where}: the chance to mend a cause must lie between 0 and 1."
        if repair.target and parts and repair.target not in parts:
            yield f"{where}: no part “{repair.target}” in an assembly."
        if list(repair.minutes) != sorted(repair.minutes) or repair.minutes[0] <= 0:
            yield f"{where}: the minutes must rise from low over typical to high, all above 0."


def _assembly_problems(library: Library, pack: Pack) -> Iterator[str]:
    for assembly in pack.assemblies:
        known = {fastener.id for operation in assembly.operations for fastener in operation.fasteners}
        nut = (assembly.taper_nut,) if assembly.taper_nut else ()
        yield from _unknown(f"“{assembly.id}”, taper_nut", "fastener", nut, known)
    operations = (operation for assembly in pack.assemblies for operation in assembly.operations)
    for operation in operations:
        hazards = (*operation.hazards, *operation.undo_hazards)
        yield from _unknown(f"step “{operation.id}”", "hazard", hazards, library.hazards)
        yield from _unknown(f"step “{operation.id}”", "thing touched", operation.touches, TOUCHED)
        yield from _unknown(f"step “{operation.id}”", "number", operation.numbers, NUMBERS)
        for fastener in operation.fasteners:
            where = f"fastener “{fastener.id}”"
            named = [name for name in (fastener.into, fastener.under_head) if name]
            yield from _unknown(where, "material", named, library.materials)
            if fastener.strength:
                yield from _unknown(where, "strength class", (fastener.strength,), library.strength_classes)


def _release_problems(library: Library) -> Iterator[str]:
    items = {item.id for item in library.release_items}
    for item in library.release_items:
        where = f"“{item.id}”"
        yield from _unknown(where, "hazard", item.hazards, library.hazards)
        yield from _unknown(where, "trigger", item.triggers, TRIGGERS)
        yield from _unknown(where, "thing touched or item", item.redo_after, {*TOUCHED, *items})
        yield from _unknown(where, "kind of answer", (item.answer,), ANSWERS)


def _material_problems(library: Library) -> Iterator[str]:
    for material in library.materials.values():
        if not 0 < material.knock_down <= 1:
            yield f"“{material.key}”: the share counted on is {material.knock_down:g}; it must lie above 0, at most 1."
        strengths = {"tensile": material.tensile, "shear": material.shear, "bearing": material.bearing}
        for name, strength in strengths.items():
            if strength is not None and not 0 < strength < STRONGEST:
                yield f"“{material.key}”: the {name} strength is {strength / 1e6:g} MPa; it must lie in 0 to 4000 MPa."


def _source_problems(library: Library) -> Iterator[tuple[str, str, str]]:
    used = sources_used(library)
    for kind, file, key in sorted(used):
        if key not in library.sources:
            yield kind, file, f"the source “{key}” is not in {COMMON}/sources.csv."
    for key in sorted(library.sources.keys() - {key for _, _, key in used}):
        yield COMMON, "sources.csv", f"nothing rests on the source “{key}”."


def _parts(pack: Pack) -> set[str]:
    return {part for assembly in pack.assemblies for part in assembly.targets}


def _unknown(where: str, what: str, names: Iterable[str], known: Iterable[str]) -> Iterator[str]:
    familiar = set(known)
    return (f"{where}: there is no {what} “{name}”." for name in names if name not in familiar)


def _circle(words: str, needs: Mapping[str, Iterable[str]]) -> Iterator[str]:
    try:
        TopologicalSorter(needs).prepare()
    except CycleError as circle:
        yield f"{words} in a circle: {' → '.join(circle.args[1])}."
