"""Which sources the library rests on, and where."""

from collections.abc import Iterator

from bellcrank.knowledge.model import Library, Pack

COMMON = "common"


def sources_used(library: Library) -> set[tuple[str, str, str]]:
    """Give pack folder, file and source key of everything that names a source."""
    used = {(pack.kind, file, key) for pack in library.packs.values() for file, key in _of_pack(pack)}
    used |= {(COMMON, "hazards.csv", one.source) for one in library.hazards.values()}
    used |= {(COMMON, "release.csv", one.source) for one in library.release_items}
    used |= {(COMMON, "materials.csv", one.source) for one in library.materials.values()}
    used |= {
        (COMMON, "strength-classes.csv", one.source)
        for strength in library.strength_classes.values()
        for one in strength.ranges
    }
    return used


def _of_pack(pack: Pack) -> Iterator[tuple[str, str]]:
    yield from (("complaints.csv", one.origin.source) for one in pack.complaints)
    yield from (("causes.csv", one.origin.source) for one in pack.causes)
    yield from (("links.csv", one.origin.source) for one in pack.links)
    yield from (("checks.csv", one.origin.source) for one in pack.checks)
    yield from (("repairs.csv", one.origin.source) for one in pack.repairs)
    for check in pack.checks:
        yield from (("likelihoods.csv", row.origin.source) for row in check.likelihoods)
    for assembly in pack.assemblies:
        yield "assembly", assembly.origin.source
        for operation in assembly.operations:
            yield from (("assembly", fastener.source) for fastener in operation.fasteners)
