"""What shafts, hubs and keys are made of, as records: strengths and stiffness."""

from dataclasses import dataclass

from bellcrank.sources import Basis


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

    @property
    def bearing_yield(self) -> float:
        """Pressure on a keyway's side at which it is crushed for good. [Pa]"""
        return self.tensile if self.yield_ is None else self.yield_
