"""The answers of the planner in figures: tools to fetch, fasteners on the tray."""

from bellcrank.teardown.steps import on_the_tray, tools_in_order

from .small_models import fastener, machine, operation


def test_tools_are_fetched_once_in_order_of_use_and_hands_are_not():
    assert tools_in_order(["hand", "pliers", "T25 bit", "hand", "pliers"]) == ("pliers", "T25 bit")


def test_the_tray_holds_every_fastener_of_what_is_off():
    bolts = (fastener("long", count=2), fastener("short", count=3))
    mower = machine(operation("shroud", fasteners=bolts), operation("tank", fasteners=(fastener("tank", count=1),)))
    assert [on_the_tray(mower, off) for off in ([], ["shroud"], ["shroud", "tank"])] == [0, 5, 6]
