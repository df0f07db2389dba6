"""Every published value is met, and every physics function has one."""

import csv
import math

import pytest

import bellcrank.cutting
import bellcrank.engine
import bellcrank.fastening
from bellcrank.sources import Status
from tests.architecture.physics import physics_functions

from . import (
    functions_cutting,
    functions_engine,
    functions_fastening,
    functions_joints,
    functions_pulling,
    functions_stats,
    functions_tapers,
    functions_windows,
)
from .printed import FACTORS, FOLDER, read_rows

# A package with published rows adds its module here.
COLLECTED = (
    functions_fastening,
    functions_joints,
    functions_windows,
    functions_tapers,
    functions_pulling,
    functions_cutting,
    functions_engine,
    functions_stats,
)
FUNCTIONS = {name: one for module in COLLECTED for name, one in module.FUNCTIONS.items()}
NOT_TABLES_OF_VALUES = ("sources.csv",)
TABLES = sorted(path.name for path in FOLDER.glob("*.csv") if path.name not in NOT_TABLES_OF_VALUES)
ROWS = [row for name in TABLES for row in read_rows(name)]
WAYS = ("published", "second-route", "high-precision", "frozen")
STRENGTH = [Status.COMMON_PRACTICE, Status.FROM_MEMORY, Status.SECONDARY, Status.VERIFIED]


def sources():
    with (FOLDER / "sources.csv").open(encoding="utf-8", newline="") as file:
        return {line["key"]: line for line in csv.DictReader(file)}


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_meets_the_published_value(row):
    assert FUNCTIONS[row.function].call(**row.inputs) == pytest.approx(
        row.expected * FACTORS[row.unit], rel=row.rel_tol, abs=0
    )


def test_no_function_name_is_given_twice():
    assert sum(len(module.FUNCTIONS) for module in COLLECTED) == len(FUNCTIONS)


def test_every_row_says_where_it_is_from_and_how_sure_that_is():
    known = sources()
    for row in ROWS:
        assert row.source in known, f"{row}: source {row.source}"
        assert row.where.strip(), f"{row}: no table, example or page"
        assert row.how in WAYS, f"{row}: how {row.how}"
        assert Status(row.status) in STRENGTH, f"{row}: status {row.status}"


def test_no_row_claims_more_than_its_source():
    known = sources()
    for row in ROWS:
        claimed, held = Status(row.status), Status(known[row.source]["status"])
        assert STRENGTH.index(claimed) <= STRENGTH.index(held), f"{row}: {claimed}, but its source is {held}"


def test_every_tolerance_is_a_small_positive_share():
    assert all(0 < row.rel_tol <= 0.02 and math.isfinite(row.rel_tol) for row in ROWS)


def test_every_source_is_used():
    assert {row.source for row in ROWS} == set(sources())


def test_every_physics_function_has_a_row_from_outside():
    proved = {name for row in ROWS if row.how != "frozen" for name in FUNCTIONS[row.function].proves}
    physics = {one.__name__ for one in physics_functions((bellcrank.fastening, bellcrank.cutting, bellcrank.engine))}
    assert physics - proved == {"worst_stop"}  # the largest of a list: nobody publishes that
