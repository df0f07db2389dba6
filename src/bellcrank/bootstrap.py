"""Plugging the parts together, once: the shop's file, what is known of machines, the clock."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from bellcrank.knowledge.model import Library
from bellcrank.knowledge.pack import read_library

if TYPE_CHECKING:
    from bellcrank.shop.premises import Shop


def open_shop(folder: Path, *, now: Callable[[], datetime] | None = None) -> "Shop":
    """Open the shop that lies in a folder; a new one is made when there is none."""
    # storage imports slowly, and a torque without a job needs none
    from bellcrank.diagnosis.network import compile_pack  # noqa: PLC0415
    from bellcrank.shop.premises import Shop  # noqa: PLC0415
    from bellcrank.shop.storage.opening import open_storage  # noqa: PLC0415

    library = read_library()
    return Shop(
        storage=open_storage(folder),
        library=library,
        compiled={kind: compile_pack(pack) for kind, pack in library.packs.items()},
        folder=folder,
        now=now or (lambda: datetime.now(UTC)),
    )


def open_library() -> Library:
    """Read what is known of machines, for work that needs no shop."""
    return read_library()
