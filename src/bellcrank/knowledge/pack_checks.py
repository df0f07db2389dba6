"""What does not fit within one kind of machine: gaps and contradictions between its tables, each with the line's name.

A single line that cannot be read is refused earlier, by :mod:`bellcrank.knowledge.pack`.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from itertools import combinations

from bellcrank.engine.slip_table import PULLED_BY, fingerprint
from bellcrank.errors import NotFound
from bellcrank.knowledge.closed_lists import NUMBERS, TOUCHED
from bellcrank.knowledge.computed_likelihoods import wrong_rows
from bellcrank.knowledge.gauge_table import mark_of_card
from bellcrank.knowledge.model import Cause, Check, Library, Pack
from bellcrank.knowledge.records import LEAK_ROW

ROUNDING = 1e-6  # [-] how far a row of chances may miss a sum of one
MAY_BE_ROUNDED = 0.002  # [-] how far a computed row may miss what the tables say
WEIGHTS_MAY_MISS = 0.02  # [-] how far complaint weights may miss a sum of one

Gap = tuple[str, str]  # name of the line in its table, empty for the table as a whole; what does not fit
Gaps = Iterator[Gap]


def gaps(library: Library, pack: Pack) -> Iterator[tuple[str, str, str]]:
    """Give table, name of the line and words of everything in a pack that does not fit."""
    yield from table_gaps(library, pack)
    looks = (
        ("assembly", _assembly),
        ("engine-cards.csv", _slip_tables),
        ("gauge-readings.csv", _gauge),
        ("likelihoods.csv", _computed),
    )
    for table, look in looks:
        yield from ((table, name, words) for name, words in look(library, pack))


def table_gaps(library: Library, pack: Pack) -> Iterator[tuple[str, str, str]]:
    """Give the same of the tables that a shop may add to; engines, pulls and the way in are left out."""
    looks: tuple[tuple[str, Callable[[Library, Pack], Gaps]], ...] = (
        ("pack.toml", _about),
        ("complaints.csv", _complaints),
        ("shares.csv", _shares),
        ("causes.csv", _causes),
        ("links.csv", _links),
        ("results.csv", _results),
        ("likelihoods.csv", _likelihoods),
        ("likelihoods-given.csv", _given),
        ("checks.csv", _checks),
        ("access.csv", _accesses),
        ("repairs.csv", _repairs),
    )
    for table, look in looks:
        yield from ((table, name, words) for name, words in look(library, pack))


def unknown(name: str, where: str, what: str, names: Iterable[str], known: Iterable[str]) -> Gaps:
    """Tell which names nothing stands for."""
    familiar = set(known)
    return ((name, f"{where}: there is no {what} “{one}”.") for one in names if one not in familiar)


def _about(_: Library, pack: Pack) -> Gaps:
    if not 0 < pack.fault_scale <= 1:
        yield "", f"fault_scale is {pack.fault_scale:g}; it must lie above 0 and not above 1."
    if pack.give_up_minutes <= 0 or pack.start_check_minutes < 0:
        yield "", "give_up_minutes must be above 0 and start_check_minutes not below 0."
    for name, times in Counter(card.id for card in pack.engine_cards).items():
        if times > 1:
            yield "", f"the engine card “{name}” stands there {times} times."


def _computed(library: Library, pack: Pack) -> Gaps:
    if not any(_slip_tables(library, pack)):
        yield from wrong_rows(library, pack, MAY_BE_ROUNDED)


def _slip_tables(library: Library, pack: Pack) -> Gaps:
    for card in pack.engine_cards:
        try:
            made_of = library.slip_tables[card.id].fingerprint
        except NotFound as missing:
            yield "", missing.sentence
            continue
        if made_of != fingerprint(card, library.operators[PULLED_BY]):
            yield (
                "",
                f"the table of pulls of “{card.id}” was made of other values. Make it anew: bellcrank packs pulls.",
            )


def _gauge(_: Library, pack: Pack) -> Gaps:
    cards = {card.id: card for card in pack.engine_cards}
    for name, release in pack.gauge.readings:
        line = f"{name},{release}"
        yield from unknown(line, "a reading", "engine card", (name,), cards)
        if name in cards and pack.gauge.made_of[name, release] != mark_of_card(cards[name]):
            yield line, f"it was worked out from other values of “{name}”. Make it anew: bellcrank packs gauges."


def _complaints(_: Library, pack: Pack) -> Gaps:
    weights = sum(complaint.weight for complaint in pack.complaints)
    if abs(weights - 1) > WEIGHTS_MAY_MISS:
        yield "", f"the complaint weights sum to {weights:g}; they must sum to 1."
    for complaint in pack.complaints:
        total = sum(cause.shares.get(complaint.id, 0.0) for cause in pack.causes)
        if not 0 < total <= 1 + ROUNDING:
            words = f"“{complaint.id}”: the shares sum to {total:.0%}; they must be above 0 and not above 100 %."
            yield complaint.id, words


def _shares(_: Library, pack: Pack) -> Gaps:
    known = {complaint.id for complaint in pack.complaints}
    for cause in pack.causes:
        for complaint, share in cause.shares.items():
            line = f"{complaint},{cause.id}"
            yield from unknown(line, f"share of “{cause.id}”", "complaint", (complaint,), known)
            if not 0 < share <= 1:
                yield line, f"“{cause.id}”: a share must lie above 0 and not above 100 %."


def _causes(_: Library, pack: Pack) -> Gaps:
    told_apart = {row.cause for check in pack.checks for row in check.likelihoods if row.probabilities[0] < 1}
    for cause in pack.causes:
        if cause.id not in told_apart:
            yield cause.id, f"“{cause.id}”: no check can tell that it is there."
        if cause.prevalence is not None and not 0 < cause.prevalence < 1:
            yield cause.id, f"“{cause.id}”: the prevalence is {cause.prevalence:g}; it must lie between 0 and 1."
        if cause.prevalence is None and not cause.shares:
            yield cause.id, f"“{cause.id}”: neither a share of a complaint nor a prevalence."
        yield from _mended(pack, cause)
    for one, other in _twins(pack):
        yield one, f"“{one}” and “{other}” look the same to every check."


def _mended(pack: Pack, cause: Cause) -> Gaps:
    fixes = {repair.id: repair.fixes for repair in pack.repairs}
    if cause.repair is None and cause.system != "event":
        yield cause.id, f"“{cause.id}”: no repair."
    if cause.repair is not None and cause.id not in fixes.get(cause.repair, {}):
        yield cause.id, f"“{cause.id}”: there is no repair “{cause.repair}” that fixes it."


def _twins(pack: Pack) -> Iterator[tuple[str, str]]:
    """Find causes that every check sees alike."""
    rows = {(check.id, row.cause): row.probabilities for check in pack.checks for row in check.likelihoods}
    sound = {check.id: (1.0, *(0.0 for _ in check.results[1:])) for check in pack.checks}
    seen = {cause.id: tuple(rows.get((name, cause.id), row) for name, row in sound.items()) for cause in pack.causes}
    return ((one, other) for one, other in combinations(seen, 2) if seen[one] == seen[other])


def _links(_: Library, pack: Pack) -> Gaps:
    known = {cause.id for cause in pack.causes}
    for link in pack.links:
        line, where = f"{link.root},{link.consequence}", f"“{link.root}” to “{link.consequence}”"
        yield from unknown(line, where, "cause", (link.root, link.consequence), known)
        if not 0 < link.probability < 1:
            yield line, f"{where}: the probability is {link.probability:g}; it must lie between 0 and 1."
    roots: dict[str, list[str]] = {}
    for link in pack.links:
        roots.setdefault(link.consequence, []).append(link.root)
    yield from _circle("causes bring each other about", roots)


def _results(_: Library, pack: Pack) -> Gaps:
    known = {check.id for check in pack.checks}
    for check in pack.checks:
        names = [result.id for result in check.results]
        first = f"{check.id},{names[0]}"
        if len(names) < 2:
            yield first, f"“{check.id}”: it needs at least two results."
        for result in check.results:
            yield from unknown(f"{check.id},{result.id}", f"“{check.id}” lifts", "check", result.lifts, known)
        if check.story and len(names) == 2 and names != ["no", "yes"]:
            yield first, f"“{check.id}” is told at the door; its results must be no and yes, in this order."


def _likelihoods(_: Library, pack: Pack) -> Gaps:
    known = {cause.id for cause in pack.causes}
    for check in pack.checks:
        leak = f"{check.id},{LEAK_ROW}"
        yield from _row(leak, check, "leak row", check.leak)
        if any(chance in (0, 1) for chance in check.leak):
            yield leak, f"“{check.id}”: the leak row holds a sure 0 or 1; nothing at the bench is that sure."
        for row in check.likelihoods:
            line = f"{check.id},{row.cause}"
            yield from unknown(line, f"row of “{check.id}”", "cause", (row.cause,), known)
            yield from _row(line, check, f"row “{row.cause}”", row.probabilities)


def _given(_: Library, pack: Pack) -> Gaps:
    checks = {check.id: check for check in pack.checks}
    rows = {(check.id, row.cause) for check in pack.checks for row in check.likelihoods}
    rows |= {(check.id, LEAK_ROW) for check in pack.checks}
    complaints = {one.id for one in pack.complaints}
    for one in pack.given:
        line = f"{one.complaint},{one.row.check},{one.row.cause}"
        yield from unknown(line, "a row", "complaint", (one.complaint,), complaints)
        if (one.row.check, one.row.cause) not in rows:
            words = f"“{one.row.check}”, “{one.row.cause}”: there is no usual row to take the place of. Write it first."
            yield line, words
        else:
            yield from _row(line, checks[one.row.check], f"row “{one.row.cause}”", one.row.probabilities)


def _row(line: str, check: Check, row: str, chances: tuple[float, ...]) -> Gaps:
    if len(chances) != len(check.results):
        yield line, f"“{check.id}”, {row}: {len(chances)} chances for {len(check.results)} results."
    if abs(sum(chances) - 1) > ROUNDING or any(not 0 <= chance <= 1 for chance in chances):
        told = f"the chances must lie in 0 to 1 and sum to 1; they sum to {sum(chances):g}."
        yield line, f"“{check.id}”, {row}: {told}"


def _checks(library: Library, pack: Pack) -> Gaps:
    accesses = {access.id for access in pack.accesses}
    for check in pack.checks:
        where = f"“{check.id}”"
        yield from unknown(check.id, where, "access", check.access, accesses)
        yield from unknown(check.id, where, "hazard", check.hazards, library.hazards)
        if check.minutes <= 0:
            yield check.id, f"{where}: it takes {check.minutes:g} min; it must be above 0."
        if check.scale is not None:
            told = {result.id for result in check.results}
            yield from unknown(check.id, f"scale of {where}", "result", check.scale.results, told)
            yield from unknown(check.id, f"scale of {where}", "reading for", told, check.scale.results)
        if not check.likelihoods:
            yield check.id, f"{where}: it tells nothing of any cause. Give it rows or leave it out."


def _accesses(_: Library, pack: Pack) -> Gaps:
    known = {access.id for access in pack.accesses}
    parts = _parts(pack)
    for access in pack.accesses:
        yield from unknown(access.id, f"“{access.id}”", "access", access.needs, known)
        if access.opens and parts and access.opens not in parts:
            yield access.id, f"“{access.id}”: no part “{access.opens}” in an assembly."
    yield from _circle("accesses need each other", {access.id: access.needs for access in pack.accesses})


def _repairs(library: Library, pack: Pack) -> Gaps:
    causes = {cause.id for cause in pack.causes}
    accesses = {access.id for access in pack.accesses}
    parts = _parts(pack)
    for repair in pack.repairs:
        name, where = repair.id, f"“{repair.id}”"
        yield from unknown(name, where, "cause", repair.fixes, causes)
        yield from unknown(name, where, "access", repair.access, accesses)
        yield from unknown(name, where, "hazard", repair.hazards, library.hazards)
        yield from unknown(name, where, "thing touched", repair.touches, TOUCHED)
        if not repair.fixes:
            yield name, f"{where}: it mends nothing this kind of machine has. Leave it out."
        if any(not 0 < chance < 1 for chance in repair.fixes.values()):
            yield name, f"{where}: the chance to mend a cause must lie between 0 and 1."
        if repair.target and parts and repair.target not in parts:
            yield name, f"{where}: no part “{repair.target}” in an assembly."
        if list(repair.minutes) != sorted(repair.minutes) or repair.minutes[0] <= 0:
            yield name, f"{where}: the minutes must rise from low over typical to high, all above 0."


def _assembly(library: Library, pack: Pack) -> Gaps:
    for assembly in pack.assemblies:
        known = {fastener.id for operation in assembly.operations for fastener in operation.fasteners}
        nut = (assembly.taper_nut,) if assembly.taper_nut else ()
        yield from unknown("", f"“{assembly.id}”, taper_nut", "fastener", nut, known)
    operations = (operation for assembly in pack.assemblies for operation in assembly.operations)
    for operation in operations:
        step = f"step “{operation.id}”"
        hazards = [
            *operation.hazards,
            *operation.undo_hazards,
            *(name for m in operation.methods for name in m.hazards),
        ]
        yield from unknown("", step, "hazard", hazards, library.hazards)
        yield from unknown("", step, "thing touched", operation.touches, TOUCHED)
        yield from unknown("", step, "number", operation.numbers, NUMBERS)
        for fastener in operation.fasteners:
            where = f"fastener “{fastener.id}”"
            named = [name for name in (fastener.into, fastener.under_head) if name]
            yield from unknown("", where, "material", named, library.materials)
            if fastener.strength:
                yield from unknown("", where, "strength class", (fastener.strength,), library.strength_classes)


def _parts(pack: Pack) -> set[str]:
    return {part for assembly in pack.assemblies for part in assembly.targets}


def _circle(words: str, needs: Mapping[str, Iterable[str]]) -> Gaps:
    try:
        TopologicalSorter(needs).prepare()
    except CycleError as circle:
        yield "", f"{words} in a circle: {' → '.join(circle.args[1])}."
