"""One line of a pack's table, read cell by cell; what cannot be read is refused with file and line."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import isfinite
from typing import TypeVar

from bellcrank.errors import KnowledgeFault

Choice = TypeVar("Choice", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a table, its cells by the words of the heading."""

    file: str
    number: int
    cells: Mapping[str, str]

    def fault(self, words: str) -> KnowledgeFault:
        """Give the refusal that names this line; ``words`` say what is wrong and what to do."""
        return KnowledgeFault(f"{self.file}, line {self.number}: {words}")

    def cell(self, column: str) -> str:
        """Give a cell as it stands, which may be empty."""
        try:
            return self.cells[column]
        except KeyError:
            raise self.fault(f"there is no column “{column}”. Add it to the heading.") from None

    def words(self, column: str) -> str:
        """Give a cell that must not be empty."""
        words = self.cell(column)
        if not words:
            raise self.fault(f"“{column}” is empty. Fill it in.")
        return words

    def amount(self, column: str) -> float:
        """Give a number."""
        return self._read_number(self.cell(column), column)

    def amount_or_none(self, column: str) -> float | None:
        """Give a number, or None for an empty cell."""
        return self.amount(column) if self.cell(column) else None

    def amount_or(self, column: str, default: float) -> float:
        """Give a number, or the default for an empty cell or a column the table needs not have."""
        return self.amount(column) if self.cells.get(column) else default

    def yes(self, column: str) -> bool:
        """Give a cell that holds yes or no."""
        cell = self.cell(column)
        if cell not in ("yes", "no"):
            raise self.fault(f"“{column}” is “{cell}”; it must be yes or no.")
        return cell == "yes"

    def choice(self, column: str, choices: type[Choice]) -> Choice:
        """Give one of a closed list of words."""
        cell = self.cell(column)
        try:
            return choices(cell)
        except ValueError:
            known = ", ".join(choices)
            raise self.fault(f"“{column}” is “{cell}”; it must be one of: {known}.") from None

    def several(self, column: str) -> tuple[str, ...]:
        """Give the words of a cell that are parted by semicolons."""
        return tuple(word.strip() for word in self.cell(column).split(";") if word.strip())

    def amounts(self, column: str) -> tuple[float, ...]:
        """Give the numbers of a cell that are parted by semicolons."""
        return tuple(self._read_number(word, column) for word in self.several(column))

    def amount_of_each(self, column: str) -> dict[str, float]:
        """Give numbers by name from ``name=number;name=number``."""
        amounts = {}
        for pair in self.several(column):
            name, equals, number = pair.partition("=")
            if not equals:
                raise self.fault(f"“{column}” holds “{pair}”; write it as name=number, parted by semicolons.")
            amounts[name.strip()] = self._read_number(number, column)
        return amounts

    def _read_number(self, text: str, column: str) -> float:
        try:
            number = float(text)
        except ValueError:
            raise self.fault(f"“{column}” holds “{text.strip()}”; it must be a number such as 0.15.") from None
        if not isfinite(number):
            raise self.fault(f"“{column}” holds “{text.strip()}”; it must be a finite number.")
        return number
