"""The fastener tables of packs/common."""

from collections.abc import Callable
from pathlib import Path

import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.fastening.strength import strength_at
from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis

Spoil = Callable[[str, str, str], None]


def test_what_is_from_memory_is_marked_a_guess():
    library = read_library()
    for one in (*library.screw_tables.twist_shares.values(), *library.screw_tables.expansions.values()):
        assert one.basis is Basis.GUESS
        assert library.sources[one.source].status == "from memory"


def test_every_share_of_twist_is_for_a_class_on_record():
    library = read_library()
    for key in library.screw_tables.twist_shares:
        assert strength_at(library.strength_classes[key], 0.006)


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        ("locking-nuts.csv", "M6,3,0.45,0.3", "M6,3,0.45,0.6", "must fall from first on to fifth off"),
        ("locking-nuts.csv", "M6,3,", "M66,3,", "M66 is not a metric thread we know"),
        ("friction.csv", "0.14,0.24", "0.24,0.14", "must rise and lie between 0 and 1"),
        ("forming-screws.csv", "M3,1.8", "M3,much", "“breaking_torque_nm” holds “much”"),
    ],
)
def test_names_file_and_line_of_a_table_that_cannot_be(packs: Path, spoil: Spoil, name: str, old: str, new: str, words):
    spoil(f"common/{name}", old, new)
    with pytest.raises(KnowledgeFault, match=f"common/{name}, line .*{words}"):
        read_library(packs)
