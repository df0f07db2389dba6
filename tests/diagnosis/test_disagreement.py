from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found

from .small_pack import COMPILED, PACK, check, compile_pack, replace


def disagreement(*events, compiled=COMPILED):
    return believe(compiled, Case(("wont-start",), events)).disagreement


def test_names_both_findings_that_go_badly_together():
    rows = {"key": (0.02, 0.98)}
    sharp = check("mark", ("the mark comes at the right time", "the mark comes early"), (0.995, 0.005), rows)
    compiled = compile_pack(replace(PACK, checks=(*PACK.checks, sharp)))
    words = disagreement(Found("key-look", "r1"), Found("mark", "r0"), Found("smell", "r0"), compiled=compiled)
    assert words.startswith("That the keyway is off goes badly with this: the mark comes at the right time.")
    assert words.endswith("Look at both once more, or something is wrong that is not on this list.")


def test_a_finding_that_fits_nothing_is_named_alone():
    rare = check("howl", ("it is still", "it howls"), (0.995, 0.005), {})
    compiled = compile_pack(replace(PACK, checks=(*PACK.checks, rare)))
    words = disagreement(Found("howl", "r1"), compiled=compiled)
    # By hand: nothing in the pack makes it howl, so the leak alone: 1 in 200.
    assert words.startswith("That it howls was to be expected in 1 machine in 200")


def test_findings_that_fit_together_are_left_alone():
    assert disagreement(Found("hit", "r1"), Found("key-look", "r1"), Found("timing", "r1")) == ""
    assert disagreement() == ""
