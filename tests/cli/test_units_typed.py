"""Every number without a job takes the shop's units, computes the same in each, and says the one that was asked for."""

import json
import re
from collections.abc import Callable
from typing import Any

import pytest
from tests.cli.conftest import Run

from bellcrank.both_systems import both_forces, both_lengths, both_torques, both_windows

Refused = Callable[..., str]
# One length, one torque and one force, each in every unit; by hand from 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N and
# 1 kgf = 9.80665 N exactly (NIST SP 811, Appendix B.8)
LENGTHS = ("9.525 mm", "0.9525 cm", "0.375 in", "3/8 in", '3/8"', "375 thou", "9.525")
WIDER = ("10.16 mm", "0.4 in", "400 thou", "1.016 cm")
LONG = ("31.75 mm", "1.25 in", "1 1/4 in", "5/4 in")
TORQUES = ("81.34907689 N·m", "60 ft·lb", "720 in·lb", "8.295297 kgf·m", "60 ft-lbs", "720 in lb")
FORCES = ("25 kN", "25000 N", "5620.2236 lbf", "2549.29 kgf")
UNITS = ("N·m", "ft·lb", "in·lb", "kgf·m")
TAPER = ("--ratio", "1:8", "--mean-diameter", "20mm", "--length", "25mm")
HOLES = ("--bolt", "1/4-20", "--class", "G5", "--engaged", "8mm", "--circle", "20mm")
BLOW = ("--flywheel-inertia", "0.01", "--speed", "3000", "--stop-angle", "45")
NUT = ("--nut", "5/8-18", "--nut-torque", "60 ft·lb")
NUMBERS = {
    "torque": ("torque", "--thread", "M6", "--engaged", "12mm"),
    "strip": ("strip", "--thread", "M6", "--engaged", "12mm", "--into", "die-cast aluminium"),
    "taper": ("taper", *TAPER, *NUT, "--hub-diameter", "45mm"),
    "key": ("key", "606", "--shaft", "20mm"),
    "pull-off": ("pull-off", *TAPER, *NUT, *HOLES),
    "strike": ("strike", *TAPER, *NUT, *BLOW, "--key", "606"),
}


def told(run: Run, *words: str) -> Any:
    outcome = run(*words, "--json")
    assert outcome.code == 0, outcome.everything
    return json.loads(outcome.out)


def figures(answer: Any) -> dict[str, float]:
    return {name: value for name, value in answer.items() if isinstance(value, float)}


def same(run: Run, words: tuple[str, ...], option: str, typed: tuple[str, ...]) -> None:
    first, *others = (figures(told(run, *words, option, text)) for text in typed)
    assert first
    for other in others:
        assert other == pytest.approx(first, rel=1e-6)


@pytest.mark.parametrize(
    ("words", "option", "typed"),
    [
        (NUMBERS["torque"], "--engaged", LENGTHS),
        ((*NUMBERS["torque"], "--thread", "M8"), "--hole", LENGTHS),
        (NUMBERS["strip"], "--engaged", LENGTHS),
        (NUMBERS["strip"], "--boss", LENGTHS),
        ((*NUMBERS["strip"], "--thread", "M12"), "--hole", WIDER),
        (NUMBERS["taper"], "--mean-diameter", LONG),
        (NUMBERS["taper"], "--length", LONG),
        (("key", "606"), "--shaft", LENGTHS),
        (("key", "--shaft", "20mm"), "--length", LENGTHS),
        (NUMBERS["pull-off"], "--engaged", LENGTHS),
        (NUMBERS["pull-off"], "--circle", LENGTHS),
        (NUMBERS["pull-off"], "--tapped", LENGTHS),
        (NUMBERS["pull-off"], "--length", LONG),
        (NUMBERS["strike"], "--mean-diameter", LONG),
        (("strike", *TAPER, *NUT, *BLOW), "--key-length", LENGTHS),
    ],
)
def test_a_length_gives_the_same_numbers_in_every_unit(
    run: Run, words: tuple[str, ...], option: str, typed: tuple[str, ...]
) -> None:
    same(run, words, option, typed)


@pytest.mark.parametrize("command", ["taper", "pull-off", "strike"])
def test_a_nut_torque_gives_the_same_numbers_in_every_unit(run: Run, command: str) -> None:
    same(run, NUMBERS[command], "--nut-torque", TORQUES)


def test_a_printed_torque_is_the_same_doubt_in_every_unit(run: Run) -> None:
    doubts = {told(run, *NUMBERS["torque"], "--check", text)["doubt"].split(" is ", 1)[1][:12] for text in TORQUES[1:4]}
    assert doubts == {"81 N·m, more"}


def test_a_push_gives_the_same_numbers_in_every_unit(run: Run) -> None:
    same(run, ("taper", *TAPER), "--nut-force", FORCES)


def test_the_forces_of_a_pull_give_the_same_numbers_in_every_unit(run: Run) -> None:
    same(run, ("pull-off", *HOLES, "--force-low", "6 kN"), "--force-high", FORCES)
    same(run, ("pull-off", *HOLES, "--force-high", "60 kN"), "--force-low", FORCES)


def test_a_reading_gives_the_same_hand_in_every_unit(run: Run) -> None:
    # By hand: 54 in·lb = 54 x 0.0254 x 4.4482216152605 = 6.1011808 N·m
    hands = []
    for person, text in enumerate(("6.1011808 N·m", "4.5 ft·lb", "54 in·lb", "0.62214730 kgf·m")):
        readings = (word for one in (text, text, "7 N·m", "6.5 N·m", text) for word in ("--reading", one))
        hands.append(told(run, "hand", "--person", f"Ina {person}", "--thread", "M6", *readings)["threads"][0])
    assert all(figures(hand) == pytest.approx(figures(hands[0]), rel=1e-6) for hand in hands)


@pytest.mark.parametrize("command", NUMBERS)
@pytest.mark.parametrize("unit", UNITS)
def test_the_unit_asked_for_comes_first_and_no_figure_moves(run: Run, command: str, unit: str) -> None:
    words = NUMBERS[command]
    assert figures(told(run, *words, "--unit", unit)) == figures(told(run, *words))
    text = " ".join(run(*words, "--unit", unit).out.split())
    force = {"N·m": "k?N", "kgf·m": "kgf"}.get(unit, "lbf")
    beside = "N·m" if unit != "N·m" else "(ft|in)·lb"
    torques = re.findall(rf"[\d.]+ {unit} \([\d.]+( to [\d.]+)? {beside}\)", text)
    forces = re.findall(rf"[\d.]+ {force} \([\d.]+ (lbf|k?N)\)", text)
    assert torques or forces
    if unit != "N·m":  # newton metres and newtons stand in brackets and nowhere else
        assert not re.search(r"[\d.]+ (N·m|k?N)\b", re.sub(r"\([^()]*\)", "", text))


@pytest.mark.parametrize("unit", UNITS)
def test_text_says_the_figures_of_the_json_in_the_unit_asked_for(run: Run, unit: str) -> None:
    found = {name: (told(run, *words), " ".join(run(*words, "--unit", unit).out.split())) for name, words in
             NUMBERS.items()}  # fmt: skip
    strip, stripped = found["strip"]
    assert both_forces(strip["strip_force_low_n"], unit) in stripped
    assert both_lengths(strip["engaged_mm"] / 1000, unit, 1) in stripped
    taper, seated = found["taper"]
    assert both_torques(taper["slip_torque_low_nm"], unit) in seated
    assert both_lengths(taper["axial_advance_mm"] / 1000, unit) in seated
    key, keyed = found["key"]
    assert both_windows(key["shear_low_nm"], key["shear_high_nm"], unit) in keyed
    assert both_lengths(key["hub_seat_mm"] / 1000, unit) in keyed
    pull, pulled = found["pull-off"]
    assert both_forces(pull["release_high_n"], unit) in pulled
    assert f"Stop at {both_torques(pull['screw_torque_limit_nm'], unit)}" in pulled
    torque, window = found["torque"]
    assert both_torques(torque["torque_nm"], unit) in window
    assert both_forces(torque["preload_n"], unit) in window


def test_the_words_of_a_json_answer_are_in_the_unit_asked_for(run: Run) -> None:
    assert "463 ft·lb (628 N·m)" in told(run, *NUMBERS["strike"], "--unit", "ft·lb")["words"][0]
    assert " in·lb (" in told(run, *NUMBERS["pull-off"], "--unit", "in·lb")["words"]
    assert "lbf (" in told(run, *NUMBERS["taper"], "--unit", "in·lb")["notes"][0]


def test_a_hand_is_said_in_the_unit_asked_for(run: Run) -> None:
    readings = (word for one in ("6 N·m", "7 N·m", "7 N·m", "8 N·m", "7 N·m") for word in ("--reading", one))
    hand = told(run, "hand", "--person", "Ina", "--thread", "M6", *readings, "--wanted", "80 in·lb", "--unit", "in·lb")
    # 3.9 to 10.1 N·m by hand in fastening/hand.py; 1 N·m = 8.8507 in·lb
    assert hand["threads"][0]["words"] == "By your hand M6×1 gets 35 to 89 in·lb (3.9 to 10.1 N·m) (from 5 readings)."
    assert "62 in·lb (7.0 N·m) where 80 in·lb (9.0 N·m) is wanted" in hand["against"]["words"]
    assert "gets 35 to 89 in·lb (3.9 to 10.1 N·m)" in " ".join(
        run("hand", "--person", "Ina", "--unit", "in·lb").out.split()
    )


def test_how_hard_a_nut_pushes_is_said_once(run: Run, refused: Refused) -> None:
    # By hand: 60 ft·lb = 81.349 N·m on 15.875 mm, K 0.20: 81.349/(0.20 x 0.015875) = 25 622 N
    by_torque = told(run, "taper", *TAPER, *NUT)
    by_force = told(run, "taper", *TAPER, "--nut-force", f"{81.34907689 / (0.20 * 0.015875)!r} N")
    assert figures(by_torque) == pytest.approx(figures(by_force), rel=1e-8)
    assert by_torque["notes"][0].startswith("Push of the nut: 25.6 kN (5760 lbf), its torque on a dry thread")
    assert by_torque["notes"][1:] == by_force["notes"]
    for words in ((), NUT[:2], NUT[2:], (*NUT, "--nut-force", "25 kN"), (*NUT[:2], "--nut-force", "25 kN")):
        assert "not clear how hard the nut pushes" in refused("taper", *TAPER, *words)


@pytest.mark.parametrize(
    ("typed", "unit"), [("ft-lb", "ft·lb"), ("FT LB", "ft·lb"), ("in-lb", "in·lb"), ("Nm", "N·m"), ("kgf-m", "kgf·m")]
)
def test_a_unit_is_taken_as_a_keyboard_has_it(run: Run, typed: str, unit: str) -> None:
    for words in NUMBERS.values():
        assert run(*words, "--unit", typed) == run(*words, "--unit", unit)


def test_readings_that_cannot_be_are_said_back_in_the_unit_they_were_typed_in(refused: Refused) -> None:
    # By hand: 1 N·m = 8.8507 in·lb, so 6.779 N·m are 60; 200 N·m are 200/1.35582 = 147.5 ft·lb
    hand = ("hand", "--person", "Ina", "--thread", "M6", "--reading")
    assert "run from 1.0 to 6.8 N·m (8.9 to 60.0 in·lb)" in refused(*hand, "60 in·lb", "--reading", "1 N·m")
    assert "is 200 N·m (148 ft·lb)" in refused(*hand, "200 N·m")


@pytest.mark.parametrize("command", NUMBERS)
@pytest.mark.parametrize("typed", ["kgf·cm", "kN", ""])
def test_a_unit_that_is_none_of_the_four_is_refused_with_the_four(run: Run, command: str, typed: str) -> None:
    outcome = run(*NUMBERS[command], "--unit", typed)
    assert outcome.code == 2
    assert "'in·lb'" in outcome.everything


@pytest.mark.parametrize("command", NUMBERS)
def test_a_unit_that_is_none_of_these_is_refused(run: Run, command: str) -> None:
    outcome = run(*NUMBERS[command], "--unit", "lbs")
    assert outcome.code == 2
    assert "kgf·m" in outcome.everything
