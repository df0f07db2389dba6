"""What this shop knows of a kind of machine."""

from bellcrank.shop.findings import record_finding
from bellcrank.shop.own_pack import add_cause
from bellcrank.shop.own_typed import CauseTyped
from bellcrank.shop.packs import compiled_now, pack_now

KIND = "walk-behind-mower"


def test_every_kind_of_machine_is_ready_and_compiled_once(shop):
    for kind in shop.library.packs:
        assert pack_now(shop, kind).kind == kind
        assert compiled_now(shop, kind) is compiled_now(shop, kind)


def test_what_was_added_is_there_at_once_and_a_write_of_something_else_compiles_nothing(shop, job):
    before = compiled_now(shop, KIND)
    record_finding(shop, job, "fuel-look", "sour")
    assert compiled_now(shop, KIND) is before
    add_cause(shop, job, CauseTyped("mouse nest"))
    assert "own-mouse-nest" in compiled_now(shop, KIND).causes
