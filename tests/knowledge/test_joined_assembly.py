"""An assembly joined from its systems: whose line holds, what is added, what is dropped."""

import pytest

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.joined_assembly import joined

FUEL = {
    "operation": [
        {"id": "tap-shut", "needs": []},
        {
            "id": "tank-off",
            "needs": [["tap-shut"]],
            "method": [{"id": "drained", "needs": [["tap-shut"], ["lid-off"]]}, {"id": "quick"}],
            "orientations": ["upright"],
        },
        {"id": "lid-off", "held_by": [["tap-shut", "tank-off"]]},
    ],
    "targets": {"fuel-tank": "tank-off", "tap": "tap-shut"},
    "view": [{"id": "top", "width": 10}],
    "lying": {"upright": "Stand it up."},
}


def made(text=None, **about):
    return joined("kind.toml", {"assembly": {"joins": ["fuel"], **about}, **(text or {})}, {"fuel": FUEL})


def step(text, name):
    return next(one for one in text["operation"] if one["id"] == name)


def test_what_a_system_says_holds_for_the_kind_that_joins_it():
    text = made()
    assert [one["id"] for one in text["operation"]] == ["tap-shut", "tank-off", "lid-off"]
    assert (text["targets"], text["lying"]) == (FUEL["targets"], FUEL["lying"])


def test_a_step_and_a_view_of_the_kind_take_the_place_of_the_systems():
    text = made({"operation": [{"id": "tap-shut", "needs": [["lid-off"]]}], "view": [{"id": "top", "width": 99}]})
    assert step(text, "tap-shut")["needs"] == [["lid-off"]]
    assert [one["width"] for one in text["view"]] == [99]


def test_a_kind_says_what_else_is_in_the_way_and_how_it_lies_then():
    tank = step(made({"also_needs": {"tank-off": [["lid-off"]]}, "orientations": {"tank-off": ["tipped"]}}), "tank-off")
    assert (tank["needs"], tank["orientations"]) == ([["tap-shut"], ["lid-off"]], ["tipped"])
    assert step(made(), "tank-off")["orientations"] == ["upright"]


def test_what_is_left_out_holds_nothing_and_is_no_target():
    text = made(leave_out=["tap-shut"])
    assert [one["id"] for one in text["operation"]] == ["tank-off", "lid-off"]
    assert step(text, "tank-off")["needs"] == []
    assert step(text, "tank-off")["method"] == [{"id": "drained", "needs": [["lid-off"]]}, {"id": "quick"}]
    assert step(text, "lid-off")["held_by"] == [["tank-off"]]
    assert text["targets"] == {"fuel-tank": "tank-off"}


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ({"also_needs": {"lid-on": [["tap-shut"]]}}, {}),
        ({"orientations": {"lid-on": ["tipped"]}}, {}),
        ({}, {"leave_out": ["lid-on"]}),
    ],
)
def test_a_step_no_system_has_is_a_slip_of_the_pen(text, about):
    with pytest.raises(KnowledgeFault, match="there is no step “lid-on” in what it joins"):
        made(text, **about)


def test_a_system_without_an_assembly_cannot_be_joined():
    with pytest.raises(KnowledgeFault, match="it joins “leaks”, which has no assembly; there are: fuel"):
        made(joins=["leaks"])
