"""Whether a pack hangs together so tightly that not even a complaint alone can be weighed exactly."""

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case
from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.model import Pack


def too_wide(pack: Pack) -> tuple[str, ...]:
    """Give a sentence for every complaint that cannot be weighed though nothing was found yet.

    The pack must be free of other problems: it is compiled here.
    """
    compiled = compile_pack(pack)
    return tuple(
        f"“{complaint.id}”: too many causes hang together by links to be weighed. Drop links that are hardly likely."
        for complaint in pack.complaints
        if not _weighable(compiled, Case((complaint.id,), ()))
    )


def _weighable(compiled: CompiledPack, case: Case) -> bool:
    try:
        believe(compiled, case)
    except OutOfRange:
        return False
    return True
