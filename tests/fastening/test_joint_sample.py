"""Many joints through the formula of one."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint_sample import JointSample
from bellcrank.fastening.window import recommend_torque

from .joints import CAST, PLASTIC, STEEL, joint

FIELDS = ("low", "target", "high", "preload_low", "preload_high")


def drawn(rng, count):
    return {
        "friction": rng.uniform(0.05, 0.4, count),
        "head_friction": rng.uniform(0.05, 0.4, count),
        "engaged": rng.uniform(0.003, 0.020, count),
        "scatter": rng.uniform(0.05, 0.6, count),
        "knock_down": rng.uniform(0.4, 1.0, count),
    }


@given(
    seed=st.integers(0, 2**32 - 1),
    thread=st.sampled_from(["M6", "M8x1", "1/4-20", "5/16-18"]),
    head=st.sampled_from(["hex", "flange", "pan"]),
    material=st.sampled_from([CAST, STEEL]),
)
def test_arrays_give_what_a_loop_over_the_joints_gives(seed, thread, head, material):
    numbers = drawn(np.random.default_rng(seed), 6)
    one = joint(thread, head=head, into=material, under_head=material)
    many = recommend_torque(JointSample(one, **numbers))
    for place in range(6):
        given = {name: float(array[place]) for name, array in numbers.items()}
        into = replace(material, knock_down=given.pop("knock_down"))
        alone = recommend_torque(replace(one, into=into, **given))
        assert many.governs[place] is alone.limits[0].part
        for name in FIELDS:
            assert getattr(many, name)[place] == pytest.approx(getattr(alone, name), rel=1e-12)


def test_strengths_as_shares_give_what_stronger_records_give():
    shares = np.array([0.8, 1.0, 1.3])
    many = recommend_torque(JointSample(joint(engaged=0.006), hole_share=shares))
    for share, high in zip(shares, many.high, strict=True):
        alone = recommend_torque(joint(engaged=0.006, into=replace(CAST, shear=CAST.shear * share)))
        assert high == pytest.approx(alone.high, rel=1e-12)


def test_counts_say_how_often_each_part_governs():
    window = recommend_torque(JointSample(joint(), engaged=np.array([0.012, 0.012, 0.004])))
    assert window.counts == {Part.FACE: 2, Part.HOLE: 1}
    assert (window.governs == Part.HOLE).tolist() == [False, False, True]


def test_a_sample_with_nothing_varied_is_the_joint_itself():
    window = recommend_torque(JointSample(joint()))
    assert window.high.tolist() == [recommend_torque(joint()).high]


def test_a_locking_nut_comes_on_top_in_a_sample_too():
    one = joint(prevailing_torque=2.0)
    window = recommend_torque(JointSample(one, friction=np.array([0.12, 0.12])))
    assert window.low.tolist() == pytest.approx([recommend_torque(one).low] * 2)


def test_the_sample_is_left_as_it_was():
    friction = np.array([0.1, 0.2])
    recommend_torque(JointSample(joint(), friction=friction))
    assert friction.tolist() == [0.1, 0.2]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"friction": np.array([0.1, np.nan])}, "Friction in the thread is missing"),
        ({"friction": np.array([0.1, 0.9])}, "Friction in the thread is 0.9"),
        ({"head_friction": np.array([0.1, -0.1])}, "Friction under the head is -0.1"),
        ({"engaged": np.array([0.012, 0.001])}, "Only 1.0 threads of M6×1 are engaged"),
        ({"scatter": np.array([0.2, 1.0])}, "Scatter of the clamp is 1"),
        ({"bolt_share": np.array([1.0, 0.0])}, "Strength of the bolt, as a share"),
        ({"hole_share": np.array([1.0, np.inf])}, "Strength of the tapped thread"),
        ({"friction": np.array([0.1, 0.2]), "scatter": np.array([0.1, 0.2, 0.3])}, "all be of one length"),
        ({"friction": np.array([[0.1, 0.2]])}, "all be of one length"),
    ],
)
def test_refuses_a_sample_with_one_joint_that_cannot_be(changes, says):
    with pytest.raises(OutOfRange, match=says):
        recommend_torque(JointSample(joint(), **changes))


def test_refuses_plastic_in_a_sample_as_in_a_joint():
    with pytest.raises(OutOfRange, match="Strip one screw in a scrap piece"):
        recommend_torque(JointSample(joint(into=PLASTIC), friction=np.array([0.1, 0.2])))
