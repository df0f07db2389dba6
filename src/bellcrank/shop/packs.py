"""What this shop knows of a kind of machine, ready for weighing; the only place a pack is asked for by its kind."""

from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.knowledge.model import Pack
from bellcrank.shop.learnt import learnt_now
from bellcrank.shop.premises import Shop


def pack_now(shop: Shop, kind: str) -> Pack:
    """Give the pack of a kind of machine."""
    return compiled_now(shop, kind).pack


def compiled_now(shop: Shop, kind: str) -> CompiledPack:
    """Give the pack of a kind of machine compiled, with what closed jobs taught; the same as long as that stays so."""
    return learnt_now(shop, usual_now(shop, kind))


def usual_now(shop: Shop, kind: str) -> CompiledPack:
    """Give the pack of a kind of machine compiled as it was before any job taught anything."""
    pack = shop.library.packs[kind]
    return shop.answers.answer(("compiled", kind), lambda: compile_pack(pack))
