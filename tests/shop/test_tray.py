"""What lies in which tray, as a record."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bellcrank.bootstrap import open_shop
from bellcrank.errors import NotAllowedNow
from bellcrank.shop.demo import load_demo
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.packs import pack_now
from bellcrank.shop.tray import tray_sheet
from bellcrank.shop.work import choose_target, tick
from bellcrank.teardown.steps import on_the_tray


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    opened = open_shop(tmp_path_factory.mktemp("shop"), now=lambda: datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
    load_demo(opened)
    yield opened
    opened.close()


@pytest.fixture
def sheet(shop):
    choose_target(shop, 201, "key")
    return job_sheet(shop, 201)


def with_fastener(sheet, change):
    steps = tuple(
        replace(step, fasteners=tuple(replace(one, fastener=change(one.fastener)) for one in step.fasteners))
        for step in sheet.work.steps_in
    )
    return replace(sheet, work=replace(sheet.work, steps_in=steps))


@pytest.mark.parametrize("target", ["key", "carburettor", "blade", "rocker-cover"])
def test_as_many_lie_on_the_sheet_as_are_out_of_the_machine_in_the_end(shop, target):
    choose_target(shop, 201, target)
    found = job_sheet(shop, 201)
    (assembly,) = [one for one in pack_now(shop, "walk-behind-mower").assemblies if target in one.targets]
    out = on_the_tray(assembly, [step.operation for step in found.work.steps_in])
    trays = tray_sheet(found)
    assert trays.total == out == sum(len(tray.spots) for tray in trays.trays)


def test_trays_are_numbered_in_the_order_of_the_way_in(sheet):
    trays = tray_sheet(sheet).trays
    assert [tray.number for tray in trays] == list(range(1, len(trays) + 1))
    assert [tray.step for tray in trays] == sorted(tray.step for tray in trays)


def test_what_is_off_already_keeps_its_tray(shop, sheet):
    before = tray_sheet(sheet)
    for step in sheet.work.steps_in[:5]:
        tick(shop, 201, "in", step.operation, done=True)
    assert tray_sheet(job_sheet(shop, 201)) == before


def test_each_of_a_group_has_its_letter_and_the_only_one_none(sheet):
    words = {tray.fastener.words: [spot.words for spot in tray.spots] for tray in tray_sheet(sheet).trays}
    assert words["starter nuts"] == ["4a", "4b", "4c"]
    assert words["flywheel nut"] == ["9"]


def test_more_than_an_alphabet_of_like_screws_are_still_told_apart(sheet):
    many = tray_sheet(with_fastener(sheet, lambda one: replace(one, count=60)))
    for tray in many.trays:
        assert len({spot.words for spot in tray.spots}) == 60


def test_a_nut_lies_flat_and_a_screw_does_not(sheet):
    flat = {tray.fastener.words for tray in tray_sheet(sheet).trays if tray.nut}
    assert flat == {"starter nuts", "flywheel nut"}


def test_places_are_handed_on_in_the_order_of_tightening(sheet):
    placed = with_fastener(sheet, lambda one: replace(one, view="top", places=((1.0, 2.0), (3.0, 4.0), (5.0, 6.0))))
    nuts = next(tray for tray in tray_sheet(placed).trays if tray.fastener.words == "starter nuts")
    assert [(spot.across_mm, spot.down_mm) for spot in nuts.spots] == [(1.0, 2.0), (3.0, 4.0), (5.0, 6.0)]


def test_without_a_way_in_it_says_to_choose_the_part(sheet):
    with pytest.raises(NotAllowedNow, match=r"Job 201 has no way in yet.*Choose the part to get to first"):
        tray_sheet(replace(sheet, work=None))


def test_a_way_on_which_nothing_is_unscrewed_needs_no_trays(sheet):
    bare = tuple(replace(step, fasteners=()) for step in sheet.work.steps_in)
    with pytest.raises(NotAllowedNow, match="No fastener comes off on the way to the key"):
        tray_sheet(replace(sheet, work=replace(sheet.work, steps_in=bare)))
