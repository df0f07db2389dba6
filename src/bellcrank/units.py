"""Shop units to SI and back: the one place that converts.

Every unit has a kind, so a torque is never taken for an energy or a force. Text is read by :func:`read`
(``read("80 in·lb", "torque")``) and shown by :func:`show`. Inside Bellcrank every number is SI.

References
----------
1 in = 0.0254 m and 1 lb = 0.45359237 kg exactly, standard gravity 9.80665 m/s²: NIST SP 811, Appendix B.8.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from bellcrank.errors import NotUnderstood, OutOfRange

INCH = 0.0254  # [m] exact
POUND_FORCE = 0.45359237 * 9.80665  # [N] exact
KILOGRAM_FORCE = 9.80665  # [N] exact
PSI = POUND_FORCE / INCH**2  # [Pa]


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of the shop: ``value_si = value * factor + offset``."""

    symbol: str
    kind: str
    factor: float
    aliases: tuple[str, ...] = ()
    offset: float = 0.0
    digits: int = 2  # digits after the point that make sense on a bench, for showing


FOOT_POUNDS = (
    "ft-lb", "ft lb", "ftlb", "ft-lbs", "ft·lbs", "ftlbs", "ft lbs", "lb-ft", "lb·ft", "lbft", "lb ft", "lbf·ft",
    "lbf-ft", "ft·lbf", "ft-lbf", "foot-pounds", "foot pounds", "foot-pound", "foot pound", "pound-feet",
)  # fmt: skip
INCH_POUNDS = (
    "in-lb", "in lb", "inlb", "in-lbs", "in·lbs", "inlbs", "in lbs", "lb-in", "lb·in", "lbin", "lb in", "lbf·in",
    "lbf-in", "in·lbf", "in-lbf", "inch-pounds", "inch pounds", "inch-pound", "inch pound",
)  # fmt: skip
UNITS: tuple[Unit, ...] = (
    Unit("m", "length", 1.0, ("metre", "meter"), digits=3),
    Unit("mm", "length", 1e-3, ("millimetre", "millimeter"), digits=2),
    Unit("cm", "length", 1e-2, digits=2),
    Unit("in", "length", INCH, ('"', "inch", "inches", "″"), digits=4),
    Unit("thou", "length", INCH / 1000, ("mil", "mils"), digits=1),
    Unit("ft", "length", 12 * INCH, ("foot", "feet"), digits=3),
    Unit("m²", "area", 1.0, ("m2",), digits=6),
    Unit("mm²", "area", 1e-6, ("mm2",), digits=1),
    Unit("in²", "area", INCH**2, ("in2",), digits=4),
    Unit("m³", "volume", 1.0, ("m3",), digits=6),
    Unit("cm³", "volume", 1e-6, ("cm3", "cc", "ccm", "ml"), digits=1),
    Unit("N·m", "torque", 1.0, ("Nm", "N.m", "N*m", "newton metre", "newton meter"), digits=1),
    Unit("ft·lb", "torque", 12 * INCH * POUND_FORCE, FOOT_POUNDS, digits=1),
    Unit("in·lb", "torque", INCH * POUND_FORCE, INCH_POUNDS, digits=0),
    Unit("kgf·m", "torque", KILOGRAM_FORCE, ("kgf-m", "kgf m", "kgfm", "kg·m", "kg-m", "kgm", "kg m"), digits=2),
    Unit("kgf·cm", "torque", KILOGRAM_FORCE / 100, ("kgf-cm", "kgfcm", "kg·cm", "kg-cm", "kgcm"), digits=0),
    Unit("N", "force", 1.0, ("newton", "newtons"), digits=0),
    Unit("kN", "force", 1e3, digits=1),
    Unit("lbf", "force", POUND_FORCE, digits=0),
    Unit("kgf", "force", KILOGRAM_FORCE, digits=1),
    Unit("Pa", "pressure", 1.0, digits=0),
    Unit("kPa", "pressure", 1e3, digits=0),
    Unit("MPa", "pressure", 1e6, digits=0),
    Unit("bar", "pressure", 1e5, digits=2),
    Unit("psi", "pressure", PSI, digits=0),
    Unit("ksi", "pressure", 1e3 * PSI, digits=1),
    Unit("V", "voltage", 1.0, ("volt", "volts"), digits=0),
    Unit("kV", "voltage", 1e3, digits=1),
    Unit("rad/s", "speed", 1.0, digits=1),
    Unit("rpm", "speed", 2 * math.pi / 60, ("r/min", "1/min", "turns a minute", "revs"), digits=0),
    Unit("m/s", "velocity", 1.0, digits=1),
    Unit("ft/min", "velocity", 12 * INCH / 60, ("fpm",), digits=0),
    Unit("s", "time", 1.0, ("sec", "second", "seconds"), digits=2),
    Unit("min", "time", 60.0, ("minute", "minutes"), digits=0),
    Unit("h", "time", 3600.0, ("hour", "hours"), digits=1),
    Unit("kg", "mass", 1.0, digits=3),
    Unit("g", "mass", 1e-3, ("gram", "grams"), digits=1),
    Unit("lb", "mass", 0.45359237, ("lbs", "pound", "pounds"), digits=2),
    Unit("oz", "mass", 0.45359237 / 16, ("ounce", "ounces"), digits=2),
    Unit("kg/m³", "density", 1.0, ("kg/m3",), digits=3),
    Unit("K", "temperature", 1.0, digits=0),
    Unit("°C", "temperature", 1.0, ("C", "degC"), offset=273.15, digits=0),
    Unit("°F", "temperature", 5 / 9, ("F", "degF"), offset=459.67 * 5 / 9, digits=0),
    Unit("rad", "angle", 1.0, digits=3),
    Unit("°", "angle", math.pi / 180, ("deg", "degree", "degrees"), digits=0),
)

TORQUE_UNITS = ("N·m", "ft·lb", "in·lb", "kgf·m")  # a torque may be asked for in these

EXAMPLES = {
    "length": "12 mm, 3/8 in or 0.030 in",
    "area": "36.6 mm²",
    "volume": "4 cm³",
    "density": "1.2 kg/m³",
    "torque": "9 N·m, 80 in·lb or 7 ft·lb",
    "force": "5 kN or 1100 lbf",
    "pressure": "5.5 bar or 80 psi",
    "voltage": "9.5 kV",
    "speed": "3100 rpm",
    "velocity": "96.5 m/s",
    "time": "2.4 s",
    "mass": "0.6 kg or 21 oz",
    "temperature": "20 °C or 68 °F",
    "angle": "25 °",
}

FRACTIONS_OF = {"length": "in"}  # no rule is marked in fractions of a millimetre
_BY_NAME = {(unit.kind, name.casefold()): unit for unit in UNITS for name in (unit.symbol, *unit.aliases)}
THOUSANDS = 3  # digits between the signs that part thousands
_NUMBER = re.compile(
    r"\s*(?P<sign>[-+−]?)\s*(?:(?P<whole>\d+)\s+(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<numerator>\d+)\s*/\s*(?P<denominator>\d+)|(?P<decimal>\d+(?:[.,]\d+)?|[.,]\d+))\s*(?P<unit>.*?)\s*$"
)


@dataclass(frozen=True, slots=True)
class Reading:
    """A quantity as typed and as used: the SI value and the text it came from."""

    si: float
    typed: str
    unit: Unit


def unit_named(name: str, kind: str) -> Unit:
    """Give the unit of that kind with that name, or refuse with the names that would do."""
    unit = _BY_NAME.get((kind, " ".join(name.split()).casefold()))
    if unit is not None:
        return unit
    other = next((u for (_, alias), u in _BY_NAME.items() if alias == name.casefold()), None)
    hint = f"“{name}” is {_a(other.kind)}, not {_a(kind)}" if other else f"“{name}” is not a unit of {kind} we know"
    raise NotUnderstood(f"{hint}. Write it like {EXAMPLES[kind]}.")


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def read(text: str, kind: str, *, default: str | None = None, what: str | None = None) -> Reading:
    """Read a typed quantity; ``default`` is the unit meant when none is typed, but a bare fraction is of an inch.

    >>> round(read("1 1/2 in", "length").si, 4)
    0.0381
    >>> round(read("3/8", "length", default="mm").si, 6)
    0.009525
    >>> round(read("80 in·lb", "torque").si, 2)
    9.04
    """
    name = what or kind.capitalize()
    match = _NUMBER.match(text)
    if not match:
        raise NotUnderstood(f"{name}: “{text.strip()}” cannot be read as a number. Write it like {EXAMPLES[kind]}.")
    unit_text = match["unit"] or (FRACTIONS_OF.get(kind) if "/" in text else None) or default
    if not unit_text:
        raise NotUnderstood(f"{name}: “{text.strip()}” has no unit. Write it like {EXAMPLES[kind]}.")
    try:
        unit = unit_named(unit_text, kind)
    except NotUnderstood as refusal:
        raise NotUnderstood(f"{name}: {refusal.sentence}") from None
    value = _number(match) * unit.factor + unit.offset
    typed = " ".join(text.split())
    return Reading(
        si=value, typed=typed if match["unit"] or unit_text == default else f"{typed} {unit_text}", unit=unit
    )


def read_positive(text: str, kind: str, *, default: str | None = None, what: str | None = None) -> Reading:
    """Read a typed quantity that must be above zero."""
    reading = read(text, kind, default=default, what=what)
    if reading.si <= 0:
        name = what or kind.capitalize()
        raise OutOfRange(
            f"{name} is {reading.typed}; it must be above zero. Measure again and type it like {EXAMPLES[kind]}."
        )
    return reading


def show(si: float, symbol: str, kind: str, digits: int | None = None) -> str:
    """Show an SI value in a shop unit, a space before the unit.

    >>> show(9.04, "in·lb", "torque")
    '80 in·lb'
    """
    unit = unit_named(symbol, kind)
    places = unit.digits if digits is None else digits
    return f"{convert(si, symbol, kind):.{places}f} {unit.symbol}"


def convert(si: float, symbol: str, kind: str) -> float:
    """Give the number an SI value has in a shop unit.

    >>> round(convert(1.0, "ft·lb", "torque"), 4)
    0.7376
    """
    unit = unit_named(symbol, kind)
    return (si - unit.offset) / unit.factor


def to_si(number: float, symbol: str, kind: str) -> float:
    """Give the SI value of a number in a shop unit, for tables that are printed in that unit.

    >>> to_si(0.25, "in", "length")
    0.00635
    """
    unit = unit_named(symbol, kind)
    return number * unit.factor + unit.offset


def _number(match: re.Match[str]) -> float:
    if match["whole"]:
        value = int(match["whole"]) + float(_fraction(match["top"], match["bottom"]))
    elif match["numerator"]:
        value = float(_fraction(match["numerator"], match["denominator"]))
    else:
        value = float(_decimal(match["decimal"]))
    if not math.isfinite(value):
        raise OutOfRange("The number is too large to be a measurement. Type it again.")
    return -value if match["sign"] in ("-", "−") else value


def _decimal(typed: str) -> str:
    """Read a comma as the decimal sign, but not where it may part thousands: “3,100” is a thousandfold apart."""
    whole, comma, part = typed.partition(",")
    if comma and len(part) == THOUSANDS and whole.strip("0"):
        raise NotUnderstood(
            f"“{typed}” may mean {whole}{part} or {whole}.{part}. Write it without the comma, or with a point."
        )
    return typed.replace(",", ".")


def _fraction(top: str, bottom: str) -> Fraction:
    if int(bottom) == 0:
        raise NotUnderstood(f"“{top}/{bottom}” divides by zero. Write a fraction like 3/8.")
    return Fraction(int(top), int(bottom))
