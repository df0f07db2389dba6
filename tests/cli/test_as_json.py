import json
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from pathlib import Path

import numpy as np
import pytest

from bellcrank.cli.as_json import json_text, plain
from bellcrank.shop.sheet import JobSheet


class Colour(StrEnum):
    RED = "red"


@dataclass(frozen=True, slots=True)
class Pair:
    torque_nm: float
    rest: tuple[object, ...]


def test_a_record_becomes_keys_in_the_order_of_its_fields() -> None:
    assert list(plain(Pair(1.0, ()))) == ["torque_nm", "rest"]


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Decimal("12.30"), "12.30"),
        (Colour.RED, "red"),
        ((1, (2, None)), [1, [2, None]]),
        ({"a": Decimal(1)}, {"a": "1"}),
        (Path("a/b"), str(Path("a/b"))),
        (np.float64(2.5), 2.5),
        (float("nan"), None),
        (float("inf"), None),
        (True, True),
    ],
)
def test_each_kind_of_value_has_one_form(value: object, expected: object) -> None:
    assert plain(Pair(0.0, (value,)))["rest"] == [expected]


def test_a_whole_job_survives_the_round_trip(sheet: JobSheet) -> None:
    read_back = json.loads(json_text(sheet))
    assert read_back["customer"]["name"] == "Zoë Wałęsa 王"
    assert read_back["work"]["steps_out"][0]["fasteners"][0]["torque"]["target_nm"] == 8.0
    assert read_back["price"]["agreed_limit"] == "120"
