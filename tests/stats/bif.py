"""Public benchmark networks: their files, read for our own engine and for pyAgrum.

The files lie beside this one as the package pgmpy 1.1.2 (MIT licence) carries them; they come from the Bayesian network
repository (bnlearn.com/bnrepository). Only networks whose variables all have two states are here.
"""

import gzip
import re
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
        found = re.findall(r"variable (\S+) \{\s*type discrete \[ 2 \] \{ (\S+), (\S+) \}", text)
        self.states = {variable: states for variable, *states in found}
        self.parents, self.rows = {}, {}
        for variable, _, parents, body in re.findall(
            r"probability \( (\S+) (\| ([^)]*) )?\) \{(.*?)\n\}", text, re.DOTALL
        ):
            self.parents[variable] = parents.split(", ") if parents else []
            rows = re.findall(r"(?:\((.*?)\)|table) ([^;]*);", body)
            self.rows[variable] = {
                tuple(given.split(", ")) if given else (): [float(p) for p in chances.split(", ")]
                for given, chances in rows
            }

    def as_fault_network(self):
        """The second state of a variable is "there"; every variable can be seen for certain."""
        return fault_network(
            [self._cause(variable) for variable in self.states],
            [NetworkFinding(SEEN + name, (1.0, 0.0), {name: (0.0, 1.0)}) for name in self.states],
        )

    def _cause(self, variable):
        parents = self.parents[variable]
        if not parents:
            return NetworkCause(variable, self.rows[variable][()][1])
        table = []
        for combination in range(2 ** len(parents)):
            flags = [combination >> (len(parents) - 1 - place) & 1 for place in range(len(parents))]
            given = tuple(self.states[one][flag] for one, flag in zip(parents, flags, strict=True))
            table.append(self.rows[variable][given][1])
        return NetworkCause(variable, 0.0, dict.fromkeys(parents, 0.0), tuple(table))

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
        return Evidence(
            tuple(Sighting(SEEN + variable, self.states[variable].index(state)) for variable, state in seen.items())
        )
