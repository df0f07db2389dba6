"""A hand put to use, by hand-worked numbers and by the laws it must keep."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.hand import HandOnThread, hand_on
from bellcrank.fastening.hand_against import carry_over, hand_against
from bellcrank.fastening.threads import parse_thread, stress_area

M6, M7, M8 = parse_thread("M6"), parse_thread("M7"), parse_thread("M8")
TOO_HARD = hand_on(M6, [11.5, 12.0, 12.5, 12.0, 12.0])


def made(thread, mean, half):
    """Give a hand by its mean and window alone."""
    return HandOnThread(thread, 10, mean, 0.1, 0.2, 2.856, half, mean * (1 - half), mean * (1 + half), 0.4)


def test_tells_a_hand_that_is_a_third_too_hard_and_by_what_to_ease_off():
    """12/9 - 1 = 1/3; 9/12 = 0.75."""
    told = hand_against(TOO_HARD, 9.0, low=7.0, high=10.0)
    assert told.off_by == pytest.approx(1 / 3)
    assert told.correction == pytest.approx(0.75)
    assert told.sure
    assert not told.inside
    assert told.words == (
        "You tighten M6×1 a third too hard: 12.0 N·m where 9.0 N·m is wanted. Pull a quarter less, or use the wrench."
    )


def test_tells_a_hand_that_is_too_weak():
    """12/18 = 2/3, a third too little; 18/12 = 1.5, half more."""
    words = hand_against(TOO_HARD, 18.0, low=16.0, high=20.0).words
    assert words.startswith("You tighten M6×1 a third too little: 12.0 N·m where 18.0 N·m is wanted. Pull half more")


@pytest.mark.parametrize(
    ("wanted", "high", "words"),
    [  # by hand, 12 N·m over what is wanted or over the end of the window
        (11.5, 11.6, "a little too hard"),  # 1.04
        (10.2, 11.0, "a fifth too hard"),  # 1.18
        (7.0, 8.0, "about three quarters too hard"),  # 1.71
        (7.2, 8.0, "two thirds too hard"),  # 1.67
        (6.0, 7.0, "twice as hard as it should be"),  # 2.0, 1.7 over the window
        (5.66, 6.4, "more than twice as hard as it should be"),  # 2.12, which was "112% too hard"
        (5.0, 5.5, "more than twice what the window bears"),  # 12/5.5 = 2.18
        (3.5, 4.0, "three times what the window bears"),  # 12/4
        (1.0, 1.2, "more than four times what the window bears"),  # ten times
    ],
)
def test_how_much_too_hard_is_said_in_the_words_of_a_shop(wanted, high, words):
    told = hand_against(TOO_HARD, wanted, low=wanted / 2, high=high).words
    assert f"You tighten M6×1 {words}: 12.0 N·m where" in told
    assert "%" not in told


@pytest.mark.parametrize(
    ("wanted", "words"),
    [  # by hand: wanted over 12 N·m
        (24.0, "half too little: 12.0 N·m where 24 N·m is wanted. Pull twice as hard"),
        (31.0, "about two thirds too little: 12.0 N·m where 31 N·m is wanted. Pull more than twice as hard"),
    ],
)
def test_how_much_too_little_is_said_in_the_words_of_a_shop(wanted, words):
    assert words in hand_against(TOO_HARD, wanted, low=wanted - 1, high=wanted + 1).words


@given(wanted=st.floats(0.05, 400.0), wide=st.floats(1.0, 3.0))
def test_no_per_cent_is_ever_said_of_a_hand(wanted, wide):
    assert "%" not in hand_against(TOO_HARD, wanted, low=wanted / wide, high=wanted * wide).words


def test_a_hand_that_is_right_may_go_by_feel():
    told = hand_against(TOO_HARD, 12.0, low=9.0, high=15.0)
    assert told.inside
    assert told.words == "Your hand is on 12.0 N·m for M6×1, as far as 5 readings can tell. By feel will do."


def test_a_hand_that_is_right_on_average_but_spreads_too_far_needs_the_wrench():
    words = hand_against(TOO_HARD, 12.0, low=11.5, high=12.5).words
    assert "as far as 5 readings can tell. But it spreads over 10 to 14 N·m: use the wrench." in words


@pytest.mark.parametrize(("wanted", "how"), [(11.0, "too hard"), (13.0, "too little")])
def test_a_hand_off_the_mark_but_inside_its_window_is_left_alone(wanted, how):
    words = hand_against(TOO_HARD, wanted, low=9.0, high=15.0).words
    assert how in words
    assert words.endswith("It stays inside the window.")


@given(wanted=st.floats(1.0, 40.0))
def test_the_correction_brings_the_mean_to_what_is_wanted(wanted):
    told = hand_against(TOO_HARD, wanted, low=wanted / 2, high=wanted * 2)
    assert told.correction * TOO_HARD.mean == pytest.approx(wanted)
    assert told.correction * (1 + told.off_by) == pytest.approx(1)


@pytest.mark.parametrize(("low", "high"), [(10.0, 12.0), (6.0, 8.0), (10.0, 7.0)])
def test_refuses_a_wanted_torque_outside_its_window(low, high):
    with pytest.raises(OutOfRange, match=r"wanted torque is 9\.0 N·m; it must lie in its window"):
        hand_against(TOO_HARD, 9.0, low=low, high=high)


@pytest.mark.parametrize("low", [0.0, float("nan")])
def test_refuses_a_window_that_cannot_be(low):
    with pytest.raises(OutOfRange, match="Low end of the window"):
        hand_against(TOO_HARD, 9.0, low=low, high=10.0)


def test_carries_a_hand_over_as_worked_by_hand():
    """d As: M6 0.1207, M7 0.2020, M8 0.2929 mm²·m. Shares 58.0, 68.3; low ends 34.8, 47.8; high ends 81.2, 88.8."""
    carried = carry_over([made(M6, 7.0, 0.40), made(M8, 20.0, 0.30)], M7)
    assert carried.mean == pytest.approx(63.1 * 0.2020, rel=0.002)
    assert carried.low == pytest.approx(34.8 * 0.2020 / 1.25, rel=0.002)
    assert carried.high == pytest.approx(88.8 * 0.2020 * 1.25, rel=0.002)
    assert carried.words == (
        "By your hand M7×1 probably gets 5.6 to 22.4 N·m: never measured, carried over from M6×1 and M8×1.25 and made "
        "wider. Five readings of M7×1 would settle it."
    )


@given(small=st.floats(3.0, 12.0), large=st.floats(8.0, 30.0), halves=st.tuples(*[st.floats(0.1, 0.8)] * 2))
def test_what_is_carried_over_is_wider_than_what_was_measured_and_never_inverted(small, large, halves):
    hands = [made(M6, small, halves[0]), made(M8, large, halves[1])]
    for thread in (M6, M7, M8):
        carried = carry_over(hands, thread)
        assert 0 < carried.low < carried.mean < carried.high
        for hand in hands:
            assert carried.high / carried.low > hand.high / hand.low


@given(odd=st.floats(0.3, 3.0))
def test_one_odd_size_does_not_sway_the_middle_of_three(odd):
    low, high = made(M6, 7.0, 0.3), made(M8, 20.0, 0.3)
    usual = [hand.mean / (hand.thread.diameter * stress_area(hand.thread)) for hand in (low, high)]
    mean = carry_over([low, made(M7, 12.7 * odd, 0.3), high], M7).mean
    assert min(usual) * (1 - 1e-12) <= mean / (M7.diameter * stress_area(M7)) <= max(usual) * (1 + 1e-12)


def test_does_not_carry_over_from_one_size():
    with pytest.raises(OutOfRange, match="from two sizes of thread or more"):
        carry_over([made(M6, 7.0, 0.3)], M8)
    with pytest.raises(OutOfRange, match="five readings on another size"):
        carry_over([], M8)


@pytest.mark.parametrize("name", ["M3", "M16", "5/8-11"])
def test_does_not_carry_over_to_a_thread_far_off(name):
    with pytest.raises(OutOfRange, match=r"times off the nearest size.*it must be 1\.6 times at most"):
        carry_over([made(M6, 7.0, 0.3), made(M8, 17.0, 0.3)], parse_thread(name))
