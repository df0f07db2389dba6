"""The view of a torque computed without a job."""

from dataclasses import dataclass

from bellcrank.fastening.window import TorqueWindow
from bellcrank.knowledge.model import Library
from bellcrank.shop.words import second_unit, torque
from bellcrank.web.views.plain import NO_PROBLEM, Problem


@dataclass(frozen=True, slots=True)
class WindowView:
    """A computed torque window."""

    target: str
    other: str
    low: str
    high: str
    governs: str
    widen: str
    assumptions: tuple[str, ...]
    figure: str


@dataclass(frozen=True, slots=True)
class NumbersPage:
    """The form for a torque nobody published, and its answer."""

    title: str
    classes: tuple[tuple[str, str], ...]
    materials: tuple[tuple[str, str], ...]
    typed: dict[str, str]
    window: WindowView | None
    problem: Problem

    def kept(self, name: str, otherwise: str = "") -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, otherwise)


def numbers_page(
    library: Library,
    typed: dict[str, str],
    window: WindowView | None = None,
    problem: Problem = NO_PROBLEM,
) -> NumbersPage:
    """Lay out the form."""
    return NumbersPage(
        title="Numbers",
        classes=tuple((one.key, one.words) for one in library.strength_classes.values()),
        materials=tuple((one.key, one.words) for one in library.materials.values()),
        typed=typed,
        window=window,
        problem=problem,
    )


def window_view(window: TorqueWindow, unit: str, figure: str) -> WindowView:
    """Lay out a computed window."""
    return WindowView(
        target=torque(window.target, unit),
        other=torque(window.target, second_unit(window.target, unit)),
        low=torque(window.low, unit),
        high=torque(window.high, unit),
        governs=window.governs,
        widen=window.widen,
        assumptions=window.assumptions,
        figure=figure,
    )
