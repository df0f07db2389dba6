"""An assembly written as its file's tables is the same when it is read again: by TOML's own reader, and by JSON's."""

import json
import tomllib
from dataclasses import replace

import pytest

from bellcrank.knowledge.assembly import Method, Shape, View
from bellcrank.knowledge.assembly_tables import assembly_tables, assembly_toml
from bellcrank.knowledge.assembly_text import assembly
from bellcrank.knowledge.pack import read_library

DRAWN = {one.id: one for pack in read_library().packs.values() for one in pack.assemblies}


@pytest.mark.parametrize("name", DRAWN)
def test_every_drawn_assembly_reads_back_from_its_text(name):
    assert assembly("written", tomllib.loads(assembly_toml(DRAWN[name]))) == DRAWN[name]


@pytest.mark.parametrize("name", DRAWN)
def test_and_from_its_tables_as_kept_in_the_shops_file(name):
    kept = json.dumps(assembly_tables(DRAWN[name]))
    assert assembly("kept", json.loads(kept)) == DRAWN[name]


def test_outlines_changeovers_and_other_ways_are_written_too():
    drawn = next(iter(DRAWN.values()))
    method = Method(
        "impact", "by impact", "Hit it", "hammer", 0.5, (("lead-off",),), (), (), turns_crank=False, not_when=()
    )
    first, second, *rest = drawn.operations
    full = replace(
        drawn,
        operations=(first, replace(second, words="by hand", not_when=("seized",), methods=(method,)), *rest),
        views=(View("top", 'from "above"', 300.0, 200.0, (Shape("deck", ((150.0, 100.0),), 90.0),)),),
        tool_minutes=0.2,
        turns={("upright", "on its side"): 1.5},
    )
    assert assembly("written", tomllib.loads(assembly_toml(full))) == full


def test_what_is_missing_on_one_machine_is_no_part_of_the_model():
    drawn = next(iter(DRAWN.values()))
    at = next(place for place, one in enumerate(drawn.operations) if one.fasteners)
    step = drawn.operations[at]
    lost = replace(step, fasteners=(replace(step.fasteners[0], missing=1), *step.fasteners[1:]))
    found = replace(drawn, operations=(*drawn.operations[:at], lost, *drawn.operations[at + 1 :]))
    assert assembly("written", tomllib.loads(assembly_toml(found))) == drawn
