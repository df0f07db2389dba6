"""A hub pulled by bolts in its own holes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.threads import parse_thread
from bellcrank.units import convert
from tests.fastening.test_puller import pull

from .drawn import bold, inked, paths, refuse_a_muddle, texts, told
from .others import OTHERS, PULLS, pulled


@pytest.mark.parametrize("verdict", PULLS)
def test_the_title_states_the_verdict(verdict):
    assert judge_pull(pull(**PULLS[verdict])).verdict == verdict
    assert told(OTHERS[f"pull, {verdict}"])[0].lower().startswith(verdict)


def test_says_why_another_way_is_asked_for():
    assert told(OTHERS["pull, use another way"])[0] == "Use another way: no depth of thread helps"
    assert told(OTHERS["pull, no room"])[0] == "Use another way: no room for more thread"


@pytest.mark.parametrize("verdict", PULLS)
def test_a_limit_is_a_limit_and_where_all_is_enough_it_is_the_least_margin(verdict):
    answer = judge_pull(pull(**PULLS[verdict]))
    named = bold(OTHERS[f"pull, {verdict}"])
    if verdict == "enough thread":
        assert named == f"Least margin: hole's thread, {answer.hole_margin.fretted:.1f} times its load"
    else:
        assert named.startswith(f"Limit: hole's thread, {answer.hole_margin.fretted:.2f} times its load")


def test_says_what_is_wanted_of_a_thread_that_holds_its_load_but_not_with_its_margin():
    assert bold(OTHERS["pull, screw in deeper"]).endswith("times its load, 1.50 wanted")
    assert "wanted" not in bold(OTHERS["pull, enough for a clean taper only"])


def test_the_holes_thread_is_inked_at_both_bolts_or_the_whole_bolts_are():
    assert len(inked(OTHERS["pull, enough thread"])) == 2 * 2
    assert len(inked(OTHERS["pull, the bolt"])) == 2 * 3
    assert bold(OTHERS["pull, the bolt"]).startswith("Least margin: bolt, ")
    assert "least margin: the bolt" in told(OTHERS["pull, the bolt"])[1]


def test_each_counts_its_own_margin():
    """The hole must hold 1.5 times its load, the bolt 4/3: the hole limits although it holds a little more."""
    asked = pull(engaged=0.0085)
    answer = judge_pull(asked)
    assert 1 < answer.hole_margin.fretted / answer.bolt_margin.fretted < 1.5 / (4 / 3)
    assert "hole's thread" in bold(pulled(engaged=0.0085))


def test_the_load_stands_over_its_arrow():
    load = judge_pull(pull()).load.fretted
    over = [one for one in texts(pulled()) if one.words.replace("\u00a0", " ") == f"{load / 1000:.1f} kN"]
    ends = [line[1] for line in paths(pulled(), "drawn-arrow") if len(line) == 2]
    assert len(over) == len(ends) == 2
    for one, (x, y) in zip(over, ends, strict=True):
        assert (one.left + one.right) / 2 == pytest.approx(x)
        assert 0 < y - one.bottom < 10


def test_off_the_middle_only_the_heaviest_loaded_bolt_says_its_load():
    off = pulled(off_centre=0.005)
    load = judge_pull(pull(off_centre=0.005)).load.fretted
    loads = [one for one in texts(off) if one.words.endswith("kN")]
    assert [one.words.replace("\u00a0", " ") for one in loads] == [f"{load / 1000:.1f} kN"]
    assert "5.0 mm off the middle" in told(off)[1]


def test_says_that_only_two_of_three_bolts_are_drawn():
    words = " ".join(one.words for one in texts(pulled(bolts=3)))
    assert "3 bolts M6×1, two drawn" in words
    assert "two drawn" not in " ".join(one.words for one in texts(pulled()))


def test_the_text_twin_says_the_numbers_in_both_systems():
    answer, (_, twin) = judge_pull(pull()), told(pulled())
    for force in (answer.load.clean, answer.load.fretted, answer.strip_usable, answer.bolt_proof):
        assert f"{convert(force, 'kN', 'force'):.1f} kN ({convert(force, 'lbf', 'force'):.0f} lbf)" in twin
    stop = answer.screw_torque_limit
    assert f"{stop:.1f} N·m ({convert(stop, 'in·lb', 'torque'):.0f} in·lb)" in twin


@settings(max_examples=40, deadline=None)
@given(
    thread=st.sampled_from(["M4", "M6", "M12", "1/4-20"]),
    screw=st.sampled_from(["M5", "M10", "M16"]),
    pitches=st.floats(2.01, 25),
    tapped=st.floats(1, 4),
    hub=st.none() | st.floats(1, 5),
    bolts=st.sampled_from([2, 3]),
    off=st.floats(0, 0.012),
    force=st.floats(10, 1e6),
    unit=st.sampled_from(["N·m", "in·lb"]),
)
def test_nothing_lies_over_anything(*, thread, screw, pitches, tapped, hub, bolts, off, force, unit):
    bolt = parse_thread(thread)
    engaged = pitches * bolt.pitch
    deep = tapped * engaged
    refuse_a_muddle(
        pulled(
            unit,
            thread=bolt,
            screw=parse_thread(screw),
            engaged=engaged,
            tapped_depth=deep,
            hub_depth=None if hub is None else hub * deep,
            bolts=bolts,
            off_centre=off,
            release_low=force / 3,
            release_high=force,
        )
    )
