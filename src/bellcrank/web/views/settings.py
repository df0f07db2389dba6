"""The view of the shop's settings."""

from dataclasses import dataclass

from bellcrank.shop.tools import ToolLine
from bellcrank.web.views.plain import Problem


@dataclass(frozen=True, slots=True)
class SettingsPage:
    """The settings as text fields."""

    title: str
    typed: dict[str, str]
    problem: Problem
    saved: bool

    def kept(self, name: str) -> str:
        """Give the text of a field."""
        return self.typed.get(name, "")


@dataclass(frozen=True, slots=True)
class ToolsPage:
    """The tools as toggles."""

    title: str
    tools: tuple[ToolLine, ...]
    currency: str
    saved: bool
