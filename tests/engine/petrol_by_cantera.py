"""Iso-octane and air, and what they burn to, by Cantera with NASA species data: for tests, never for ``src``."""

import cantera as ct

FUEL = "C8H18,isooctane"
SPECIES = (FUEL, "O2", "N2", "CO2", "H2O", "CO", "H2", "OH", "O", "H", "NO", "N")
JUST_RIGHT = {FUEL: 1, "O2": 12.5, "N2": 12.5 * 3.76}  # C8H18 + 12.5 O2 -> 8 CO2 + 9 H2O
BURNED = {"CO2": 8, "H2O": 9, "N2": 12.5 * 3.76}
AIR = {"O2": 0.21, "N2": 0.79}
COLD = 298.15  # [K] where energies are counted from
BOTH_SOLVERS = ("vcs", "gibbs")  # either fails now and then at a single temperature


def gas(temperature, pressure, composition):
    """Give the gas at a temperature [K] and a pressure [Pa]."""
    known = {one.name: one for one in ct.Species.list_from_file("nasa_gas.yaml")}
    made = ct.Solution(thermo="ideal-gas", species=[known[name] for name in SPECIES])
    made.TPX = temperature, pressure, composition
    return made


def gas_constant(made):
    """Give the gas constant of a kilogram [J/(kg·K)]."""
    return ct.gas_constant / made.mean_molecular_weight


def settle(made, held):
    """Bring a gas to equilibrium, two of its properties held: "TP", "UV", "HP", "SV"."""
    before = made.state
    for solver in BOTH_SOLVERS:
        try:
            made.equilibrate(held, solver=solver, rtol=1e-9)
        except ct.CanteraError:
            made.state = before
        else:
            return made
    raise ArithmeticError(f"No equilibrium at {made.T:.0f} K")


def squeeze(made, ratio):
    """Press a gas together to a ratio of volumes, no heat lost and nothing reacting."""
    made.SV = made.s, made.v / ratio
    return made
