"""Which sources the library rests on, and where."""

from collections.abc import Iterator

from bellcrank.engine.card import OPERATOR_QUANTITIES, QUANTITIES
from bellcrank.fastening.screw_tables import ScrewTables
from bellcrank.knowledge.model import Library, Pack

COMMON = "common"


def sources_used(library: Library) -> set[tuple[str, str, str, str]]:
    """Give pack, table, name of the line (where known) and source key of everything that names a source."""
    used = {(pack.kind, file, name, key) for pack in library.packs.values() for file, name, key in _of_pack(pack)}
    used |= {(COMMON, "hazards.csv", "", one.source) for one in library.hazards.values()}
    used |= {(COMMON, "release.csv", "", one.source) for one in library.release_items}
    used |= {(COMMON, "materials.csv", "", one.source) for one in library.materials.values()}
    used |= {(COMMON, "tools.csv", "", one.origin.source) for one in library.tools.values()}
    used |= {(COMMON, file, "", key) for file, key in _of_screw_tables(library.screw_tables)}
    used |= {
        (COMMON, "strength-classes.csv", "", one.source)
        for strength in library.strength_classes.values()
        for one in strength.ranges
    }
    used |= {(COMMON, "woodruff-keys.csv", "", one.source) for one in library.woodruff_keys}
    used |= {(COMMON, "parallel-keys.csv", "", one.source) for one in library.parallel_keys}
    for operator in library.operators.values():
        used |= {(COMMON, "operators.csv", "", getattr(operator, name).source) for name in OPERATOR_QUANTITIES}
    for material in library.drive_materials.values():
        used |= {(COMMON, "drive-materials.csv", "", key) for key in (material.source, material.stiffness_source)}
    return used


def _of_pack(pack: Pack) -> Iterator[tuple[str, str, str]]:
    yield from (("complaints.csv", one.id, one.origin.source) for one in pack.complaints)
    yield from (("causes.csv", one.id, one.origin.source) for one in pack.causes)
    yield from (("links.csv", f"{one.root},{one.consequence}", one.origin.source) for one in pack.links)
    yield from (("checks.csv", one.id, one.origin.source) for one in pack.checks)
    yield from (("repairs.csv", one.id, one.origin.source) for one in pack.repairs)
    scales = ((one.id, one.scale) for one in pack.checks if one.scale)
    yield from (("scales.csv", name, scale.origin.source) for name, scale in scales)
    for check in pack.checks:
        yield from (("likelihoods.csv", f"{check.id},{row.cause}", row.origin.source) for row in check.likelihoods)
    for one in pack.given:
        yield "likelihoods-given.csv", f"{one.complaint},{one.row.check},{one.row.cause}", one.row.origin.source
    for card in pack.engine_cards:
        yield from (("engine-cards.csv", "", getattr(card, name).source) for name in QUANTITIES)
    for assembly in pack.assemblies:
        yield "assembly", "", assembly.origin.source
        for operation in assembly.operations:
            yield from (("assembly", "", fastener.source) for fastener in operation.fasteners)
            yield from (("assembly", "", gap.origin.source) for gap in operation.gaps)


def _of_screw_tables(tables: ScrewTables) -> Iterator[tuple[str, str]]:
    yield from (("friction.csv", one.source) for one in tables.frictions.values())
    yield from (("nut-factors.csv", one.source) for one in tables.nut_factors.values())
    yield from (("twist-off.csv", one.source) for one in tables.twist_shares.values())
    yield from (("engagement.csv", one.source) for one in tables.engagement_rules.values())
    yield from (("locking-nuts.csv", one.source) for one in tables.locking_nuts)
    yield from (("shoulder-screws.csv", one.source) for one in tables.shoulder_screws)
    yield from (("forming-screws.csv", one.source) for one in tables.forming_screws)
    yield from (("sheet-screws.csv", one.source) for one in tables.sheet_screws.values())
    yield from (("plastic-bosses.csv", one.source) for one in tables.boss_rules.values())
    yield from (("plastic-screws.csv", one.source) for one in tables.plastic_screws.values())
    yield from (("keyed-inserts.csv", one.source) for one in tables.keyed_inserts)
    yield from (("expansions.csv", one.source) for one in tables.expansions.values())
