"""A torque for every fastener, or a reason why there is none."""

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.sources import Basis
from bellcrank.teardown.torques import KnownTorque, NoTorque, StepTorque, torque_for

from .small_models import fastener

LIBRARY = read_library()
MOWER = LIBRARY.packs["walk-behind-mower"].assemblies[0]
FASTENERS = {one.id: one for operation in MOWER.operations for one in operation.fasteners}

# What the trade remembers for 120 to 200 cm³ walk-behind engines, clean and as received, ±25 % [N·m]; FROM MEMORY,
# no source. Only a check on the size of what is computed: the windows must meet these ranges, none was fitted to them.
REMEMBERED = {
    "starter-nuts": (5, 9),  # recoil starter and housing
    "shroud-bolts-long": (5, 9),
    "shroud-bolts-short": (5, 9),
    "carburettor-nuts": (5, 9),  # carburettor and intake, M6
    "filter-base-bolts": (3, 5),  # the same, M5
    "tank-bolts": (5, 9),  # the same, 1/4-20
    "coil-bolts": (8, 10),  # into bosses
    "rocker-cover-bolts": (4, 8),
    "flywheel-nut": (75, 100),  # 5/8-18
    "blade-bolt": (45, 65),  # one central bolt, 3/8-24
}
SANITY = 0.4  # [-] the band the recalled ranges are good for


def torque_of(one, known=None):
    return torque_for(one, LIBRARY.materials, LIBRARY.strength_classes, known)


@pytest.mark.parametrize("name", REMEMBERED)
def test_computed_windows_meet_what_the_trade_remembers(name):
    low, high = REMEMBERED[name]
    torque = torque_of(FASTENERS[name])
    assert isinstance(torque, StepTorque)
    assert torque.basis is Basis.COMPUTED
    assert torque.low <= high
    assert torque.high >= low
    assert (1 - SANITY) * low <= torque.target <= (1 + SANITY) * high


@pytest.mark.parametrize("name", FASTENERS)
def test_every_fastener_has_a_torque_or_a_reason(name):
    torque = torque_of(FASTENERS[name])
    if isinstance(torque, NoTorque):
        assert torque.words
    else:
        assert 0 < torque.low < torque.target < torque.high
        assert torque.source
        assert torque.governs


def test_a_spark_plug_is_tightened_by_angle():
    torque = torque_of(FASTENERS["spark-plug"])
    assert isinstance(torque, NoTorque)
    assert "half a turn for a new gasket ring" in torque.words


def test_a_clip_has_no_torque():
    torque = torque_of(fastener(thread="", strength="", thread_care="It must snap in."))
    assert torque == NoTorque("It must snap in.")


def test_a_screw_into_plastic_is_refused_with_a_reason():
    torque = torque_of(fastener(into="plastic"))
    assert isinstance(torque, NoTorque)
    assert "plastic" in torque.words


@pytest.mark.parametrize(
    ("published_nm", "known", "expected"),
    [
        (None, None, (Basis.COMPUTED, None)),
        (None, (Basis.OWN_SHOP, 8.0), (Basis.OWN_SHOP, 8.0)),
        (9.0, None, (Basis.PUBLISHED, 9.0)),
        (9.0, (Basis.OWN_SHOP, 8.0), (Basis.PUBLISHED, 9.0)),
        (9.0, (Basis.PUBLISHED, 10.0), (Basis.PUBLISHED, 10.0)),
    ],
)
def test_published_beats_own_shop_beats_computed(published_nm, known, expected):
    typed = KnownTorque(known[1], f"{known[1]} N·m", known[0], "page 12") if known else None
    torque = torque_of(fastener(published_torque_nm=published_nm), typed)
    basis, target = expected
    assert torque.basis is basis
    if target is not None:
        assert torque.target == target
        assert torque.low < target < torque.high


@pytest.mark.parametrize("basis", [Basis.PUBLISHED, Basis.OWN_SHOP])
def test_a_known_torque_wins_with_its_doubt(basis):
    torque = torque_of(FASTENERS["shroud-bolts-long"], KnownTorque(108.5, "80 ft·lb", basis, "page 12"))
    assert (torque.basis, torque.target, torque.typed) == (basis, 108.5, "80 ft·lb")
    assert torque.doubt.endswith("Was 80 in·lb (9.0 N·m) meant?")


@pytest.mark.parametrize("name", REMEMBERED)
def test_what_the_trade_remembers_raises_no_doubt(name):
    for torque in REMEMBERED[name]:
        assert torque_of(FASTENERS[name], KnownTorque(torque, f"{torque} N·m", Basis.PUBLISHED, "x")).doubt == ""


def test_a_torque_out_of_a_pack_is_checked_too():
    assert "Was 90 in·lb" in torque_of(fastener(published_torque_nm=90.0)).doubt


def test_a_torque_for_what_cannot_be_computed_is_taken_without_a_doubt():
    torque = torque_of(fastener(into="plastic"), KnownTorque(1.2, "1.2 N·m", Basis.PUBLISHED, "page 12"))
    assert (torque.target, torque.doubt, torque.window) == (1.2, "", None)


def test_a_computed_safety_joint_asks_for_the_makers_number():
    assert "maker's number" in torque_of(fastener(safety_joint=True)).widen
