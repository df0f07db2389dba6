"""What a published row is made of: the function it is about, and printed units turned into SI.

The factors stand here a second time on purpose: a wrong one in bellcrank.units must not hide itself.
"""

import csv
import json
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).parent
INCH = 0.0254
POUND_FORCE = 4.4482216152605
FACTORS = {
    "-": 1.0,
    "%": 0.01,
    "m": 1.0,
    "mm": 1e-3,
    "in": INCH,
    "mm²": 1e-6,
    "in²": INCH**2,
    "N": 1.0,
    "kN": 1e3,
    "lbf": POUND_FORCE,
    "N·m": 1.0,
    "in·lb": INCH * POUND_FORCE,
    "ft·lb": 12 * INCH * POUND_FORCE,
    "MPa": 1e6,
    "ksi": 1e3 * POUND_FORCE / INCH**2,
    "m/s": 1.0,
    "ft/min": 12 * INCH / 60,
    "rad/s": 1.0,
    "rpm": 2 * math.pi / 60,
    "°": math.pi / 180,
    "s": 1.0,
    "J": 1.0,
    "µm": 1e-6,
    "µm²/N": 1e-12,
    "GPa": 1e9,
    "psi": POUND_FORCE / INCH**2,
    "Pa": 1.0,
    "K": 1.0,
    "kg/m³": 1.0,
    "cm³": 1e-6,
    "g/s": 1e-3,
    "kV": 1e3,
}
PRINTED = re.compile(r"(-?\d+(?:\.\d+)?) ([^\s\d].*)")


@dataclass(frozen=True)
class Published:
    """How a row's function is called, and which public functions a matching value speaks for."""

    call: Callable[..., float]
    proves: tuple[str, ...]


@dataclass(frozen=True)
class Row:
    """One line of a table of published values."""

    file: str
    line: int
    function: str
    inputs: dict[str, object]
    expected: float
    unit: str
    rel_tol: float
    source: str
    where: str
    how: str
    status: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line} {self.function}"


def in_si(value: object) -> object:
    """Turn "0.25 in" into metres; leave a plain number or a name as it is."""
    match = PRINTED.fullmatch(value) if isinstance(value, str) else None
    return float(match[1]) * FACTORS[match[2]] if match and match[2] in FACTORS else value


def read_rows(name: str) -> list[Row]:
    """Read one table; every line names its function, inputs, value, tolerance and source."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return [_row(name, number, line) for number, line in enumerate(csv.DictReader(file), start=2)]


def _row(name: str, number: int, line: dict[str, str]) -> Row:
    inputs = {key: in_si(value) for key, value in json.loads(line["inputs"]).items()}
    numbers = {"expected": float(line["expected"]), "rel_tol": float(line["rel_tol"])}
    words = {key: line[key] for key in ("function", "unit", "source", "where", "how", "status")}
    return Row(file=name, line=number, inputs=inputs, **numbers, **words)
