"""What is said of a pull by a flywheel's own holes, in the unit that was asked for."""

import pytest

from bellcrank.fastening.pull import Pull
from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.pulling import pull_words


@pytest.fixture
def said(shop):
    """Say a pull of M6 class 8.8 in die-cast aluminium, 6 mm engaged; hand-worked in tests/fastening/test_puller.py."""
    usual = {
        "release_low": 10e3,
        "release_high": 28e3,
        "thread": parse_thread("M6"),
        "strength": shop.library.strength_classes["8.8"],
        "hub": shop.library.materials["cast-aluminium"],
        "engaged": 0.006,
        "tapped_depth": 0.010,
        "screw": parse_thread("M10"),
        "circle_radius": 0.025,
    }

    def say(unit="N·m", **changes):
        pull = Pull(**(usual | changes))
        return pull_words(pull, judge_pull(pull), unit)

    return say


def test_says_where_to_stop_and_what_else_there_is(said):
    assert "Stop at 13.6 N·m (120 in·lb) on the centre screw; if it still holds: a third hole" in said()


def test_a_light_pull_stops_all_the_same(said):
    assert said(release_low=2e3, release_high=8e3).startswith("Enough thread, for a fretted taper too. Stop at")


@pytest.mark.parametrize(
    ("unit", "deep"),
    [("N·m", "8.4 mm (0.331 in)"), ("ft·lb", "0.331 in (8.4 mm)"), ("kgf·m", "8.4 mm (0.331 in)")],
)
def test_a_longer_bolt_is_told_in_the_system_of_the_unit(said, unit, deep):
    # 8 kN a bolt asks 1 + 1.5 x 8000/1632 = 8.35 mm; the hole has 10
    words = said(unit, release_high=16e3)
    assert words.startswith(f"Screw in deeper: {deep} of full thread is enough for a fretted taper too; the hole has")
    assert f" {unit} (" in words


def test_a_hub_nobody_measured_is_looked_at_first(said):
    assert "; the hub has room." in said(release_high=16e3, tapped_depth=0.007, hub_depth=0.012)
    assert "; look first whether the hub has room." in said(release_high=16e3, tapped_depth=0.007)


def test_a_deeper_hole_for_a_clean_taper_is_said_not_to_be_for_a_fretted_one(said):
    words = said(engaged=0.003, tapped_depth=0.003, hub_depth=0.008)
    assert "is enough for a clean taper, not for a fretted one" in words


def test_another_way_is_named_where_thread_or_bolts_cannot(said):
    assert "the hub has no room" in said(engaged=0.003, tapped_depth=0.003, hub_depth=0.004)
    assert said(release_low=20e3, engaged=0.010).startswith("No depth of thread helps, the bolts would yield first.")


def test_a_third_bolt_is_not_offered_where_there_are_three(said):
    assert "third hole" not in said(bolts=3, release_low=40e3, release_high=60e3)
