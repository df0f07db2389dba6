"""Public benchmark networks: their files, read for our own engine and for pyAgrum.

The files lie beside this one as the package pgmpy 1.1.2 (MIT licence) carries them; they come from the Bayesian network
repository (bnlearn.com/bnrepository). A variable of k states becomes k - 1 causes "it is at this state or a later one",
each brought about by the one before it and by the parents' causes, by its table.
"""

import gzip
import re
from itertools import product
from pathlib import Path

from bellcrank.stats.evidence import Evidence, Sighting
from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network

from .general_library import pyagrum

FOLDER = Path(__file__).parent / "networks"
SEEN = "seen:"


class PublicNetwork:
    """States, parents and tables of a network; a table row is keyed by the states of the parents."""

    def __init__(self, name):
        text = gzip.decompress((FOLDER / f"{name}.bif.gz").read_bytes()).decode()
        found = re.findall(r"variable (\S+) \{\s*type discrete \[ \d+ \] \{ ([^}]*) \}", text)
        self.states = {variable: [one.strip() for one in states.split(",")] for variable, states in found}
        self.parents, self.rows = {}, {}
        for variable, _, parents, body in re.findall(
            r"probability \( (\S+) (\| ([^)]*) )?\) \{(.*?)\n\}", text, re.DOTALL
        ):
            self.parents[variable] = parents.split(", ") if parents else []
            rows = re.findall(r"(?:\((.*?)\)|table) ([^;]*);", body)
            self.rows[variable] = {
                tuple(given.split(", ")) if given else (): _normalised(chances) for given, chances in rows
            }

    def as_fault_network(self):
        """Every state but the first is a cause "at this one or later"; each can be seen for certain."""
        causes = [cause for variable in self.states for cause in self._causes(variable)]
        return fault_network(
            causes, [NetworkFinding(SEEN + one.name, (1.0, 0.0), {one.name: (0.0, 1.0)}) for one in causes]
        )

    def _causes(self, variable):
        roots = [at_least(parent, k) for parent in self.parents[variable] for k in range(1, len(self.states[parent]))]
        for level in range(1, len(self.states[variable])):
            before = [at_least(variable, level - 1)] if level > 1 else []
            if not roots and not before:
                yield NetworkCause(at_least(variable, 1), sum(self.rows[variable][()][1:]))
                continue
            table = tuple(self._chance(variable, level, flags) for flags in product((0, 1), repeat=len(roots + before)))
            yield NetworkCause(at_least(variable, level), 0.0, dict.fromkeys([*roots, *before], 0.0), table)

    def _chance(self, variable, level, flags):
        """That it is at this level or later, given the parents' flags and whether it is at the level before."""
        given, left = [], list(flags)
        for parent in self.parents[variable]:
            own = [left.pop(0) for _ in self.states[parent][1:]]
            given.append(self.states[parent][sum(own)])
        chances = self.rows[variable][tuple(given)]
        if left and not left[0]:
            return 0.0
        whole = sum(chances[level - 1 :]) if level > 1 else 1.0
        return min(1.0, sum(chances[level:]) / whole) if whole else 0.0

    def as_bayes_net(self):
        """The same network in the general library."""
        gum = pyagrum()
        net = gum.BayesNet()
        for variable, states in self.states.items():
            net.add(gum.LabelizedVariable(variable, variable, states))
        for variable, parents in self.parents.items():
            for parent in parents:
                net.addArc(parent, variable)
        for variable, rows in self.rows.items():
            for given, chances in rows.items():
                if given:
                    net.cpt(variable)[dict(zip(self.parents[variable], given, strict=True))] = chances
                else:
                    net.cpt(variable).fillWith(chances)
        return net

    def evidence(self, seen):
        """Turn states by variable into evidence of our own engine."""
        sightings = []
        for variable, state in seen.items():
            place, last = self.states[variable].index(state), len(self.states[variable]) - 1
            if place > 0:
                sightings.append(Sighting(SEEN + at_least(variable, place), 1))
            if place < last:
                sightings.append(Sighting(SEEN + at_least(variable, place + 1), 0))
        return Evidence(tuple(sightings))


def _normalised(chances):
    """Read a row; some files round to eight digits, and a row must sum to one for both sides alike."""
    numbers = [float(one) for one in chances.split(", ")]
    return [one / sum(numbers) for one in numbers]


def at_least(variable, level):
    """Name the cause "this variable is at this state or a later one"."""
    return f"{variable}>={level}"
