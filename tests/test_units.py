"""Shop units: what is read, what is shown, and what is refused; pint is the oracle for the factors."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.both_systems import show_torque
from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.units import EXAMPLES, UNITS, convert, read, read_positive, show, to_si, unit_named

# pint's own names: it reads "Nm" as a textile unit, "mil" and "ft*lb" as other kinds of thing, so each is written out.
ORACLE = {
    ("m", "length"): ("meter", "meter"),
    ("mm", "length"): ("millimeter", "meter"),
    ("cm", "length"): ("centimeter", "meter"),
    ("in", "length"): ("inch", "meter"),
    ("thou", "length"): ("thou", "meter"),
    ("ft", "length"): ("foot", "meter"),
    ("m²", "area"): ("meter ** 2", "meter ** 2"),
    ("mm²", "area"): ("millimeter ** 2", "meter ** 2"),
    ("in²", "area"): ("inch ** 2", "meter ** 2"),
    ("N·m", "torque"): ("newton * meter", "newton * meter"),
    ("ft·lb", "torque"): ("force_pound * foot", "newton * meter"),
    ("in·lb", "torque"): ("force_pound * inch", "newton * meter"),
    ("kgf·m", "torque"): ("force_kilogram * meter", "newton * meter"),
    ("kgf·cm", "torque"): ("force_kilogram * centimeter", "newton * meter"),
    ("N", "force"): ("newton", "newton"),
    ("kN", "force"): ("kilonewton", "newton"),
    ("lbf", "force"): ("force_pound", "newton"),
    ("kgf", "force"): ("force_kilogram", "newton"),
    ("Pa", "pressure"): ("pascal", "pascal"),
    ("kPa", "pressure"): ("kilopascal", "pascal"),
    ("MPa", "pressure"): ("megapascal", "pascal"),
    ("bar", "pressure"): ("bar", "pascal"),
    ("psi", "pressure"): ("force_pound / inch ** 2", "pascal"),
    ("ksi", "pressure"): ("1000 * force_pound / inch ** 2", "pascal"),
    ("m³", "volume"): ("meter ** 3", "meter ** 3"),
    ("cm³", "volume"): ("centimeter ** 3", "meter ** 3"),
    ("kg/m³", "density"): ("kilogram / meter ** 3", "kilogram / meter ** 3"),
    ("V", "voltage"): ("volt", "volt"),
    ("kV", "voltage"): ("kilovolt", "volt"),
    ("rad/s", "speed"): ("radian / second", "radian / second"),
    ("rpm", "speed"): ("revolution / minute", "radian / second"),
    ("m/s", "velocity"): ("meter / second", "meter / second"),
    ("ft/min", "velocity"): ("foot / minute", "meter / second"),
    ("s", "time"): ("second", "second"),
    ("min", "time"): ("minute", "second"),
    ("h", "time"): ("hour", "second"),
    ("kg", "mass"): ("kilogram", "kilogram"),
    ("g", "mass"): ("gram", "kilogram"),
    ("lb", "mass"): ("pound", "kilogram"),
    ("oz", "mass"): ("ounce", "kilogram"),
    ("rad", "angle"): ("radian", "radian"),
    ("°", "angle"): ("degree", "radian"),
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


def test_every_unit_but_temperature_meets_the_oracle(registry):
    assert {(unit.symbol, unit.kind) for unit in UNITS if unit.kind != "temperature"} == set(ORACLE)
    for (symbol, kind), (theirs, si) in ORACLE.items():
        expected = registry.Quantity(theirs).to(si).magnitude
        assert to_si(1.0, symbol, kind) == pytest.approx(expected, rel=1e-12), symbol


@pytest.mark.parametrize(
    ("typed", "kelvin"), [("20 °C", 293.15), ("68 °F", 293.15), ("-40 C", 233.15), ("-40 F", 233.15)]
)
def test_temperatures_meet_at_their_fixed_points(typed, kelvin):
    assert read(typed, "temperature").si == pytest.approx(kelvin)


@pytest.mark.parametrize(
    ("typed", "newton_metres"),
    [
        ("1 ft·lb", 1.3558179483),
        ("1 ft-lb", 1.3558179483),
        ("1 ft lbs", 1.3558179483),
        ("1 lb-ft", 1.3558179483),
        ("1 in·lb", 0.1129848290),
        ("1 in-lbs", 0.1129848290),
        ("1 inch-pounds", 0.1129848290),
        ("1 kgf·m", 9.80665),
        ("1 kg-m", 9.80665),
        ("1 Nm", 1.0),
        ("1 nm", 1.0),
        ("1 N·m", 1.0),
        ("1 N.m", 1.0),
    ],
)
def test_a_torque_is_read_however_it_is_written(typed, newton_metres):
    assert read(typed, "torque").si == pytest.approx(newton_metres, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "metres"),
    [
        ("12 mm", 0.012),
        ("3/8 in", 0.009525),
        ("1 1/2 in", 0.0381),
        ('21"', 0.5334),
        ("0.030 in", 0.000762),
        (".030 in", 0.000762),
        ("30 thou", 0.000762),
        ("12,5 mm", 0.0125),
        (" 12mm ", 0.012),
    ],
)
def test_a_length_is_read_however_it_is_written(typed, metres):
    assert read(typed, "length").si == pytest.approx(metres)


def test_the_unit_left_out_is_the_one_the_field_says():
    assert read("9", "torque", default="ft·lb").si == pytest.approx(9 * 1.3558179483)


def test_what_was_typed_is_kept_beside_the_number():
    reading = read("  80   in·lb ", "torque")
    assert (reading.typed, reading.unit.symbol) == ("80 in·lb", "in·lb")


@pytest.mark.parametrize(
    ("typed", "kind", "words"),
    [
        ("55 lbs", "torque", "is a mass, not a torque"),
        ("9 N", "torque", "is a force, not a torque"),
        ("9 J", "torque", "is not a unit of torque we know"),
        ("80 in·lb", "length", "is a torque, not a length"),
        ("9", "torque", "has no unit"),
        ("tight", "torque", "cannot be read as a number"),
        ("", "torque", "cannot be read as a number"),
        ("1/0 in", "length", "divides by zero"),
        ("1 1/0 in", "length", "divides by zero"),
        ("nan N·m", "torque", "cannot be read as a number"),
        ("9 9 9 N·m", "torque", "is not a unit of torque|cannot be read"),
    ],
)
def test_refuses_what_is_not_that_kind_of_quantity_and_shows_how_to_write_it(typed, kind, words):
    with pytest.raises(NotUnderstood, match=words):
        read(typed, kind)


@pytest.mark.parametrize("typed", ["-5 mm", "−5 mm", "0 mm", "- 0.1 in"])
def test_refuses_a_length_that_is_not_above_zero(typed):
    with pytest.raises(OutOfRange, match=r"Blade length is .*; it must be above zero"):
        read_positive(typed, "length", what="Blade length")


def test_refuses_a_number_no_bench_has():
    with pytest.raises(OutOfRange, match="too large to be a measurement"):
        read("9" * 400 + " mm", "length")


def test_the_sentence_names_the_field_it_is_about():
    with pytest.raises(NotUnderstood, match=r"^Torque on the blade bolt: "):
        read("55 lbs", "torque", what="Torque on the blade bolt")


@given(
    unit=st.sampled_from(UNITS),
    number=st.floats(-1e6, 1e6),
)
def test_there_and_back_is_the_same_number(unit, number):
    back = convert(to_si(number, unit.symbol, unit.kind), unit.symbol, unit.kind)
    assert back == pytest.approx(number, rel=1e-9, abs=1e-6)


@given(number=st.decimals(0, 10_000, places=2, allow_nan=False), unit=st.sampled_from(UNITS))
def test_what_is_shown_can_be_typed_again(number, unit):
    shown = show(to_si(float(number), unit.symbol, unit.kind), unit.symbol, unit.kind, 4)
    assert read(shown, unit.kind).si == pytest.approx(to_si(float(number), unit.symbol, unit.kind), abs=1e-3, rel=1e-3)


def test_no_name_of_a_unit_means_two_things_of_one_kind():
    names = [(unit.kind, name.casefold()) for unit in UNITS for name in (unit.symbol, *unit.aliases)]
    assert len(names) == len(set(names))


def test_every_kind_has_an_example_that_can_be_read():
    for kind, words in EXAMPLES.items():
        for example in words.replace(" or ", ", ").split(", "):
            assert math.isfinite(read(example, kind).si)
    assert {unit.kind for unit in UNITS} == set(EXAMPLES)


def test_a_unit_is_found_by_its_name_in_any_case():
    assert unit_named("FT-LB", "torque").symbol == "ft·lb"


def test_a_comma_that_may_part_thousands_is_refused():
    with pytest.raises(NotUnderstood, match=r"may mean 3100 or 3\.100"):
        read("3,100 rpm", "speed")
    assert read("0,125 in", "length").si == read("0.125 in", "length").si
    assert read("2,5 s", "time").si == read("2.5 s", "time").si


@pytest.mark.parametrize("typed", ["3/8", "3/8 in", '3/8"', "0.375 in"])
def test_a_bare_fraction_is_of_an_inch_also_where_millimetres_are_meant_without_a_unit(typed):
    # 3/8 in = 9.525 mm exactly, by 1 in = 25.4 mm (NIST SP 811)
    assert read(typed, "length", default="mm").si == pytest.approx(9.525e-3, rel=1e-12)
    assert "in" in read("3/8", "length", default="mm").typed


def test_a_fraction_of_a_millimetre_stays_one_when_it_is_typed_so():
    assert read("1/2 mm", "length", default="in").si == pytest.approx(0.5e-3, rel=1e-12)


@pytest.mark.parametrize(("torque", "said"), [(0.066, "0.07 N·m"), (9.04, "9.0 N·m"), (81.3, "81 N·m")])
def test_a_torque_is_said_as_finely_as_a_wrench_holds_it(torque, said):
    assert show_torque(torque) == said
