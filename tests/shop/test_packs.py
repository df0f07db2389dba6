"""What this shop knows of a kind of machine."""

from bellcrank.shop.own_pack import add_cause
from bellcrank.shop.own_typed import CauseTyped
from bellcrank.shop.packs import compiled_now, pack_now

KIND = "walk-behind-mower"


def test_every_kind_of_machine_is_ready_and_compiled_once(shop):
    for kind in shop.library.packs:
        assert pack_now(shop, kind).kind == kind
        assert compiled_now(shop, kind) is compiled_now(shop, kind)


def test_for_one_sheet_the_file_is_asked_once_and_the_next_sheet_sees_what_was_added(shop, job):
    sheet_shop = shop.at_a_glance()
    before = compiled_now(sheet_shop, KIND)
    add_cause(shop, job, CauseTyped("mouse nest"))
    assert compiled_now(sheet_shop, KIND) is before
    assert compiled_now(shop.at_a_glance(), KIND) is compiled_now(shop, KIND)
    assert "own-mouse-nest" in compiled_now(shop, KIND).causes
