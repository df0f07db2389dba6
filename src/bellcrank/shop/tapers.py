"""Reading tapers, shafts and what they are made of from what was typed."""

from collections.abc import Iterable, Mapping

from bellcrank.errors import NotFound
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.taper_forces import Taper, parse_taper
from bellcrank.knowledge.model import Library
from bellcrank.units import read_positive


def taper_from_words(typed: Mapping[str, str]) -> Taper:
    """Read a taper from ratio, mean_diameter and length; lengths without a unit are millimetres."""
    return Taper(
        parse_taper(typed.get("ratio", "")),
        read_positive(typed.get("mean_diameter", ""), "length", default="mm", what="Mean diameter of the taper").si,
        read_positive(typed.get("length", ""), "length", default="mm", what="Length of the taper").si,
    )


def drive_material_named(library: Library, name: str, field: str) -> DriveMaterial:
    """Find what a shaft, hub or key is made of, by its key or its words."""
    plain = name.strip().casefold()
    found = next((m for m in library.drive_materials.values() if plain in _names(m)), None)
    if found is None:
        known = ", ".join(material.words for material in library.drive_materials.values())
        raise NotFound(f"There is no shaft, hub or key material “{name}”. It must be one of {known}.", field)
    return found


def _names(material: DriveMaterial) -> Iterable[str]:
    return material.key.casefold(), material.words.casefold()
