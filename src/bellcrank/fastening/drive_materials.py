"""What shafts, hubs and keys are made of, as records: strengths and stiffness."""

from dataclasses import dataclass

from bellcrank.sources import Basis

# [-] over the tensile strength: what the side of a hole bears in light metals and steels before it breaks out, near an
# edge (1.5 hole diameters from the hole's middle) and away from it (2): MIL-HDBK-5, from memory; 6061-T6 1.96, 2024-T3
# 1.73 by data read in public programs
BEARING_LEAST, BEARING_MOST = 1.5, 2.0
BRITTLE_LEAST = 1.0  # [-] what does not yield may crack from its corner: nothing helps it for sure; guess


@dataclass(frozen=True, slots=True)
class DriveMaterial:
    """What a shaft, a hub or a key is made of."""

    key: str
    words: str  # "soft zinc"
    tensile: float  # [Pa]
    yield_: float | None  # None: it breaks before it yields (grey iron) [Pa]
    shear: float | None  # ultimate; None: not on record [Pa]
    modulus: float  # Young's modulus [Pa]
    poisson: float  # [-]
    basis: Basis = Basis.TABLE
    source: str = ""  # of the strengths, key in the list of sources
    stiffness_source: str = ""  # of modulus and Poisson's ratio

    def side_marked(self, support: float) -> float:
        """Pressure on a keyway's side from which it stays marked; what breaks before it yields breaks there. [Pa]

        ``support`` is how much more than its yield strength it bears because the metal round it holds it.
        """
        return self.tensile if self.yield_ is None else support * self.yield_

    @property
    def side_breaks(self) -> tuple[float, float]:
        """Pressure on a keyway's side at which it breaks out, at the least and at the most. [Pa]"""
        least = BRITTLE_LEAST if self.yield_ is None else BEARING_LEAST
        return least * self.tensile, BEARING_MOST * self.tensile
