"""The tables of computed pulls that are kept with the engine cards, each read when it is asked for."""

from collections.abc import Iterator, Mapping
from importlib.resources.abc import Traversable
from pathlib import Path

import numpy as np

from bellcrank.engine.slip_table import SlipTable
from bellcrank.errors import NotFound

FOLDER, ENDING = "slip-tables", ".npz"


class SlipTables(Mapping[str, SlipTable]):
    """Tables by the card they belong to; a few milliseconds each, so none is read before it is wanted."""

    def __init__(self, folders: Mapping[str, Traversable]) -> None:
        """Take the folder each card's table lies in."""
        self._folders = dict(folders)

    def __getitem__(self, card: str) -> SlipTable:
        """Read one table."""
        file = self._folders[card] / FOLDER / f"{card}{ENDING}" if card in self._folders else None
        if file is None or not file.is_file():
            raise NotFound(f"There is no table of pulls for the engine card “{card}”. Make it: bellcrank packs pulls.")
        with file.open("rb") as opened, np.load(opened) as held:
            return SlipTable(
                card=card,
                slips=held["slips"],
                counts=held["counts"],
                pulls=int(held["pulls"]),
                map_slips=held["map_slips"],
                map_counts=held["map_counts"],
                map_pulls=int(held["map_pulls"]),
                fingerprint=str(held["fingerprint"]),
            )

    def __eq__(self, other: object) -> bool:
        """Whether both hold the tables of the same cards; the tables themselves are not read for it."""
        return isinstance(other, SlipTables) and list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]

    def __iter__(self) -> Iterator[str]:
        """Name the cards."""
        return iter(self._folders)

    def __len__(self) -> int:
        """Count the cards."""
        return len(self._folders)


def write_table(table: SlipTable, folder: Path) -> Path:
    """Write a table into a folder, for a pack that keeps it."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"{table.card}{ENDING}"
    np.savez_compressed(
        file,
        slips=table.slips,
        counts=table.counts,
        pulls=table.pulls,
        map_slips=table.map_slips,
        map_counts=table.map_counts,
        map_pulls=table.map_pulls,
        fingerprint=table.fingerprint,
    )
    return file
