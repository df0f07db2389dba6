"""The generic hand-held two-stroke: saw first, trimmer and blower where they differ."""

import pytest

from bellcrank.knowledge.pack import read_library
from bellcrank.teardown.way_in import way_in
from bellcrank.teardown.way_out import way_out

SAW = read_library().packs["two-stroke-handheld"].assemblies[0]
STEPS = {one.id: one for one in SAW.operations}


def order_to(*targets):
    return [step.operation.id for step in way_in(SAW, targets).steps]


@pytest.mark.parametrize("target", SAW.targets)
def test_every_part_has_a_proven_way_in(target):
    assert way_in(SAW, (target,)).proven


@pytest.mark.parametrize("target", SAW.targets)
def test_nothing_but_the_brake_lever_comes_before_the_tool_is_made_safe(target):
    order = order_to(target)
    assert set(order[: order.index("tool-safe")]) <= {"lead-off", "brake-released", "chain-slackened"}


@pytest.mark.parametrize("target", SAW.targets)
def test_it_is_laid_down_only_with_the_caps_tight_or_the_tank_empty(target):
    done = set()
    for step in way_in(SAW, (target,)).steps:
        if step.orientation != "upright":
            assert done & {"caps-tight", "tank-drained"}, step.operation.id
        done.add(step.operation.id)


def test_the_clutch_is_undone_against_the_rope_or_by_an_impact_wrench_without_it():
    assert ("piston-stopped",) in STEPS["clutch-off"].needs
    impact = next(method for method in STEPS["clutch-off"].methods if method.id == "impact")
    assert ("piston-stopped",) not in impact.needs
    assert impact.not_when == ("corroded",)


def test_the_rope_is_out_before_the_plug_goes_back():
    order = order_to("clutch", "flywheel")
    way = way_in(SAW, ("clutch", "flywheel"))
    back = [
        one.operation.id for one in way_out(SAW, order, lies={s.operation.id: s.orientation for s in way.steps}).steps
    ]
    assert back.index("nut-off") < back.index("piston-stopped") < back.index("plug-out")
    assert back.index("clutch-off") < back.index("piston-stopped")


def test_the_way_back_from_the_needle_renews_gaskets_and_sets_the_lever():
    way = [STEPS[name] for name in order_to("inlet-needle")]
    assert any("metering diaphragm" in one.renew for one in way)
    assert [gap.where for one in way for gap in one.gaps if "needle lever" in gap.where]


def test_trimmer_and_blower_need_no_bar_or_chain_off():
    for target in ("head", "drive-shaft", "fan"):
        assert not {"chain-off", "bar-off", "clutch-cover-off"} & set(order_to(target))
