"""Reading the weights and the spring of a governor from what was typed: whether it is steady by itself."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.engine.governor import friction_band, least_spring_rate, speed_per_travel
from bellcrank.errors import NotUnderstood
from bellcrank.units import read_positive

PARTS = {  # of a fly-weight governor; all or none are told
    "weights": "what the weights weigh",
    "circle": "how far they turn from the middle",
    "turning": "how fast the governor turns",
    "spring_pull": "the pull of the spring",
    "stretch": "how far that stretches it",
    "lever": "how far the weights move out for each mm of the sleeve",
}
OF_WEIGHTS = (
    "Weights and spring in first order: small moves, no lag, masses and forces as they act on the sleeve. Steady by "
    "itself, it still hunts with a lean mixture or a linkage that sticks. A vane moved by air is not reckoned here.",
)


@dataclass(frozen=True, slots=True)
class Weighted:
    """A fly-weight governor in first order."""

    spring_rate: float  # [N/m]
    least_rate: float  # with a softer one it hunts [N/m]
    speed_per_travel: float  # [rad/(s·m)]
    droop: float | None  # over the travel of the sleeve, of its speed there [-]
    band: float | None  # in which it does not move, for what sticks [-]

    @property
    def steady(self) -> bool:
        """Whether it has a steady place at all."""
        return self.speed_per_travel > 0


def weighted_from_words(typed: Mapping[str, str]) -> Weighted | None:
    """Read weights and spring; none told is none, some told are refused until all are."""
    missing = [name for name in PARTS if not typed.get(name)]
    if len(missing) == len(PARTS) and not typed.get("travel") and not typed.get("sticks"):
        return None
    if missing:
        raise NotUnderstood(f"For weights and spring {PARTS[missing[0]]} is missing. Measure it too.", missing[0])
    mass = read_positive(typed["weights"], "mass", default="g", what="Mass of the weights").si
    circle = read_positive(typed["circle"], "length", default="mm", what="Radius of the weights").si
    turning = read_positive(typed["turning"], "speed", default="rpm", what="Speed of the governor").si
    pull = read_positive(typed["spring_pull"], "force", default="N", what="Pull of the spring").si
    rate = pull / read_positive(typed["stretch"], "length", default="mm", what="Stretch of the spring").si
    lever = _lever(typed["lever"])
    slope = speed_per_travel(mass, circle, turning, rate, lever)
    travel, sticks = typed.get("travel"), typed.get("sticks")
    way = read_positive(travel, "length", default="mm", what="Way of the sleeve").si if travel else None
    push = read_positive(sticks, "force", default="N", what="Push that moves it").si if sticks else None
    return Weighted(
        spring_rate=rate,
        least_rate=least_spring_rate(mass, turning, lever),
        speed_per_travel=slope,
        droop=None if way is None or slope <= 0 else slope * way / turning,
        band=None if push is None else friction_band(mass, circle, turning, push),
    )


def _lever(typed: str) -> float:
    try:
        return float(typed.replace(",", "."))
    except ValueError:
        raise NotUnderstood(
            f"Way of the weights for each mm of the sleeve is “{typed}”; it must be a number like 0.5.", "lever"
        ) from None
