"""What this shop knows of a kind of machine."""

from bellcrank.shop.packs import compiled_now, pack_now


def test_every_kind_of_machine_is_ready_and_compiled_once(shop):
    for kind in shop.library.packs:
        assert pack_now(shop, kind).kind == kind
        assert compiled_now(shop, kind) is compiled_now(shop, kind)
