"""Plugging the parts together, once: the shop's file, what is known of machines, the clock."""

import hashlib
import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from bellcrank.knowledge.model import Library
from bellcrank.knowledge.pack import read_library

if TYPE_CHECKING:
    from bellcrank.shop.premises import Shop


def open_shop(folder: Path, *, now: Callable[[], datetime] | None = None) -> "Shop":
    """Open the shop that lies in a folder; a new one is made when there is none."""
    # storage imports slowly, and a torque without a job needs none
    from bellcrank.shop.premises import Shop  # noqa: PLC0415
    from bellcrank.shop.storage.opening import open_storage  # noqa: PLC0415

    return Shop(
        storage=open_storage(folder),
        library=read_library(),
        folder=folder,
        now=now or (lambda: datetime.now(UTC)),
    )


def keep_compiled() -> None:
    """Keep the compiled equations of a pull for the next start, in a folder that changes whenever they change.

    To be called before anything of ``engine.pull`` is imported.
    """
    engine = Path(__file__).parent / "engine"
    sources = sorted([*engine.glob("*.py"), *(engine / "pull").glob("*.py")])
    mark = hashlib.sha256(b"".join(source.read_bytes() for source in sources)).hexdigest()[:16]
    os.environ.setdefault("NUMBA_CACHE_DIR", str(platformdirs.user_cache_path("bellcrank") / f"equations-{mark}"))


def open_library() -> Library:
    """Read what is known of machines, for work that needs no shop."""
    return read_library()
