"""What this shop knows of a kind of machine, ready for weighing; the only place a pack is asked for by its kind."""

from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.knowledge.model import Pack
from bellcrank.knowledge.with_own import with_own
from bellcrank.shop.learnt import learnt_now
from bellcrank.shop.own_entries import own_of
from bellcrank.shop.premises import Shop


def pack_now(shop: Shop, kind: str) -> Pack:
    """Give the pack of a kind of machine, with what the shop added to it and what its closed jobs taught."""
    return compiled_now(shop, kind).pack


def compiled_now(shop: Shop, kind: str, used: frozenset[str] = frozenset()) -> CompiledPack:
    """Give the pack of a kind of machine compiled, with what closed jobs taught; the same as long as that stays so.

    ``used`` names the checks and repairs of a job: own entries among them that were taken back still count there.
    """
    return learnt_now(shop, usual_now(shop, kind, used))


def usual_now(shop: Shop, kind: str, used: frozenset[str] = frozenset()) -> CompiledPack:
    """Give the pack with what the shop added by hand, compiled as it was before any job taught anything."""
    pack, own = shop.library.packs[kind], own_of(shop, kind).as_used(used)
    return shop.answers.answer(("compiled", kind, own), lambda: compile_pack(with_own(pack, own)))
