"""Hot-dip galvanised screws: what the standards take off, and what is said where they are silent."""

from dataclasses import replace

import pytest

from bellcrank.errors import OutOfRange
from bellcrank.fastening.galvanised import galvanised_words, hot_dip, zinc_undersize
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.stripping import strip_area
from bellcrank.fastening.threads import parse_thread, stress_area
from bellcrank.fastening.to_yield import torque_to_yield
from bellcrank.fastening.window import recommend_torque

from .joints import CLASS_8_8, STEEL, joint

# ISO 10684:2004, table A.1, proof loads of nuts tapped oversize (6AZ, 6AX) as printed on a trade page (secondary):
# https://boltport.com/standards/iso-10684/special-requirements-for-bolts,-screws-and-nuts-with-thread-sizes-M8-and-M10
OVERSIZE_NUT_CLASS_8 = {"M8": 25_500, "M10": 42_200}


def galvanised(thread, **changes):
    return replace(joint(thread, **changes), thread=hot_dip(parse_thread(thread)), galvanised=True)


@pytest.mark.parametrize("thread", ["M8", "M10"])
def test_m8_and_m10_bear_less(thread):
    plain, dipped = parse_thread(thread), hot_dip(parse_thread(thread))
    assert stress_area(dipped) < stress_area(plain)
    assert strip_area(dipped, 0.012) < strip_area(plain, 0.012)
    bare = joint(thread, into=None, under_head=STEEL)
    zinc = galvanised(thread, into=None, under_head=STEEL)
    # pull and twist to yield grow as the area and little else
    share = torque_to_yield(zinc).preload / torque_to_yield(bare).preload
    assert share == pytest.approx(stress_area(dipped) / stress_area(plain), rel=0.02)
    assert recommend_torque(zinc).high <= recommend_torque(bare).high


@pytest.mark.parametrize("thread", ["M12", "M16", "M24"])
def test_from_m12_on_the_screw_bears_what_a_plain_one_bears_and_only_bites_less(thread):
    # ISO 10684, clause 7: from M12 on the requirements of ISO 898-1 shall be met after galvanising
    plain, dipped = parse_thread(thread), hot_dip(parse_thread(thread))
    assert stress_area(dipped) == stress_area(plain)
    assert strip_area(dipped, 0.03) < strip_area(plain, 0.03)
    assert "bears what a plain one bears" in galvanised_words(galvanised(thread))[0]


@pytest.mark.parametrize("thread", ["M6", "M8x1", "M10x1.25", "M15x1.5", "1/4-20", "5/16-18"])
def test_where_no_standard_says_anything_nothing_is_taken_off_and_that_is_said(thread):
    assert hot_dip(parse_thread(thread)) == parse_thread(thread)
    told = galvanised_words(galvanised(thread))[0]
    assert "not on record" in told
    assert "one cut smaller for its zinc bears less" in told


def test_what_is_computed_says_that_it_is_and_from_what():
    words = galvanised_words(galvanised("M8"))[0]
    assert "33.2 of 36.6 mm² carry" in words
    assert "Computed: the lower loads of ISO 10684 themselves are not on record" in words
    assert "the maker's number comes first" in words


def test_a_nut_tapped_oversize_is_warned_of_where_there_is_a_nut():
    assert any("marked Z or X" in words for words in galvanised_words(galvanised("M10", into=None)))
    assert not any("marked Z or X" in words for words in galvanised_words(galvanised("M10")))


def test_dry_zinc_and_a_mark_above_ten_nine_are_warned_of():
    assert "Dry zinc rubs more" in galvanised_words(galvanised("M8", friction=0.14))[-1]
    assert not any("Dry zinc" in words for words in galvanised_words(galvanised("M8", friction=0.25)))
    hard = replace(CLASS_8_8, words="class 12.9", ranges=(replace(CLASS_8_8.ranges[0], tensile=1220e6),))
    assert any("ends at class 10.9" in words for words in galvanised_words(galvanised("M8", strength=hard)))


def test_a_plain_joint_is_told_nothing_of_zinc():
    assert galvanised_words(joint("M8")) == ()
    assert not any("alvanis" in words for words in recommend_torque(joint("M8")).assumptions)


@pytest.mark.parametrize("thread", OVERSIZE_NUT_CLASS_8)
def test_a_full_screw_in_an_oversize_nut_never_asks_more_of_it_than_the_printed_load(thread):
    full = strength_at(CLASS_8_8, parse_thread(thread).diameter).proof * stress_area(parse_thread(thread))
    assert (
        recommend_torque(joint(thread, into=None, under_head=STEEL)).preload_high < full < OVERSIZE_NUT_CLASS_8[thread]
    )


def test_a_fine_pitch_has_no_undersize():
    with pytest.raises(OutOfRange, match="Finer threads are not hot-dip galvanised"):
        zinc_undersize(0.001)
