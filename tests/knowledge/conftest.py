"""A copy of the program's packs that a test may spoil."""

import shutil
from collections.abc import Callable
from importlib.resources import as_file, files
from pathlib import Path

import pytest

Spoil = Callable[[str, str, str], None]


@pytest.fixture
def packs(tmp_path: Path) -> Path:
    with as_file(files("bellcrank.knowledge") / "packs") as shipped:
        shutil.copytree(shipped, tmp_path / "packs")
    return tmp_path / "packs"


@pytest.fixture
def spoil(packs: Path) -> Spoil:
    """Replace a piece of text that must stand in a file of the copy."""

    def replace(name: str, old: str, new: str) -> None:
        file = packs / name
        text = file.read_text(encoding="utf-8")
        assert old in text, f"{name} does not hold {old!r}"
        file.write_text(text.replace(old, new, 1), encoding="utf-8")

    return replace


@pytest.fixture
def line_of(packs: Path) -> Callable[[str, str], int]:
    """Give the line in which a piece of text first stands."""

    def find(name: str, text: str) -> int:
        lines = (packs / name).read_text(encoding="utf-8").splitlines()
        return next(number for number, line in enumerate(lines, start=1) if text in line)

    return find
