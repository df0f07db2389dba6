"""A pack compiled for weighing and planning.

A pack tells how often a cause is behind a complaint, as the trade does: of 100 such machines. Those shares are not
prevalences; taken as such, two-fault machines would be far too common. With complaint weights w and shares s:

- the prevalence of a cause is ``fault_scale * max(w s)`` over the complaints, or what the pack gives outright,
- the strength of a complaint from that cause alone is ``0.95 * fault_scale * w s / prevalence``, at most 0.95,

so that among machines with a complaint the causes keep their shares. What the shares leave over is one more cause,
"something that is not on this list", which no check tells anything about. What a cause's roots bring about is taken
off its own probability, down to a tenth of it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from bellcrank.knowledge.model import Access, Cause, Check, Pack, Repair
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.stats.fault_network import FaultNetwork, FloatArray, NetworkCause, NetworkFinding, fault_network

NOT_LISTED = "not-listed"  # the cause that is not in the pack
NOT_LISTED_WORDS = "something that is not on this list"
SUREST = 0.95  # [-] strength of the complaint a cause is best known for
LEAST_OWN_SHARE = 0.1  # [-] of a cause's prevalence that is never explained by its roots
BY_THE_WAY = 0.02  # [-] guess: chance that a repair also puts right what is not on the list, a lead pushed home, say
COMPLAINT = "complaint:"  # what complaints are called among the findings


@dataclass(frozen=True, slots=True, eq=False)
class CompiledPack:
    """A pack with its network and the tables of the planner; arrays follow the order of the network's causes."""

    pack: Pack
    network: FaultNetwork
    causes: Mapping[str, Cause]
    checks: Mapping[str, Check]
    repairs: Mapping[str, Repair]
    accesses: Mapping[str, Access]
    looks_at: Mapping[str, frozenset[str]]  # check -> causes it tells something about
    access_order: tuple[str, ...]
    access_minutes: FloatArray  # shape (accesses,): open and close [min]
    shut_to_run: npt.NDArray[np.bool_]  # shape (accesses,)
    repair_cures: FloatArray  # shape (repairs, causes) [-]
    repair_work: FloatArray  # shape (repairs,): typical, hands-on [min]
    repair_parts: FloatArray  # shape (repairs,): money for parts, before tax; an expectation, not a price to be billed
    repair_needs: npt.NDArray[np.bool_]  # shape (repairs, accesses), what they need included
    access_sets: Mapping[tuple[str, ...], npt.NDArray[np.bool_]]  # what the checks and repairs need, not to be changed

    def blocking(self, complaints: tuple[str, ...]) -> FloatArray:
        """Chance that each cause alone brings about at least one of these complaints; shape (causes,)."""
        spared = np.ones(len(self.network.names))
        for complaint in complaints:
            spared = spared * self.network.findings[COMPLAINT + complaint].rows[0]
        return 1 - spared

    def mend(self, repair: str) -> Mapping[str, float]:
        """Chance that a repair removes each cause; what is not on the list may be put right by the way. [-]"""
        return {**self.repairs[repair].fixes, NOT_LISTED: BY_THE_WAY}

    def access_set(self, names: tuple[str, ...]) -> npt.NDArray[np.bool_]:
        """Give the accesses and all that comes before them as flags; shape (accesses,)."""
        known = self.access_sets.get(names)
        return _with_needs(names, self.accesses, self.access_order) if known is None else known


def _with_needs(
    names: tuple[str, ...], accesses: Mapping[str, Access], order: tuple[str, ...]
) -> npt.NDArray[np.bool_]:
    flags = np.zeros(len(order), bool)
    left = list(names)
    while left:
        name = left.pop()
        flags[order.index(name)] = True
        left.extend(accesses[name].needs)
    return flags


def pack_given(pack: Pack, complaints: Sequence[str]) -> Pack:
    """Give the pack with the rows that hold while these complaints stand."""
    rows = {(one.row.check, one.row.cause): one.row for one in pack.given if one.complaint in complaints}
    checks = tuple(
        replace(
            check,
            leak=rows[check.id, LEAK_ROW].probabilities if (check.id, LEAK_ROW) in rows else check.leak,
            likelihoods=tuple(rows.get((row.check, row.cause), row) for row in check.likelihoods),
        )
        for check in pack.checks
    )
    return replace(pack, checks=checks)


def compile_pack(pack: Pack) -> CompiledPack:
    """Compile a pack; done once when the program opens."""
    strengths = _complaint_strengths(pack)
    network = fault_network(_network_causes(pack), _findings(pack, strengths))
    order = tuple(access.id for access in pack.accesses)
    accesses = {access.id: access for access in pack.accesses}
    used = {check.access for check in pack.checks} | {repair.access for repair in pack.repairs}
    access_sets = {names: _with_needs(names, accesses, order) for names in used}
    return CompiledPack(
        pack=pack,
        network=network,
        causes={cause.id: cause for cause in pack.causes},
        checks={check.id: check for check in pack.checks},
        repairs={repair.id: repair for repair in pack.repairs},
        accesses=accesses,
        looks_at={check.id: frozenset(row.cause for row in check.likelihoods) for check in pack.checks},
        access_order=order,
        access_minutes=np.array([access.open_minutes + access.close_minutes for access in pack.accesses]),
        shut_to_run=np.array([access.shut_to_run for access in pack.accesses], bool),
        repair_cures=np.array([[repair.fixes.get(name, 0.0) for name in network.names] for repair in pack.repairs]),
        repair_work=np.array([repair.minutes[1] for repair in pack.repairs]),
        repair_parts=np.array([sum(float(part.price) for part in repair.parts) for repair in pack.repairs]),
        repair_needs=np.array([access_sets[repair.access] for repair in pack.repairs], bool).reshape(
            len(pack.repairs), len(order)
        ),
        access_sets=access_sets,
    )


def _left_over(pack: Pack, complaint: str) -> float:
    """Share of a complaint that no cause of the pack is named for."""
    return max(0.01, 1 - sum(cause.shares.get(complaint, 0.0) for cause in pack.causes))


def _prevalence(pack: Pack, shares: Mapping[str, float]) -> float:
    return pack.fault_scale * max((one.weight * shares.get(one.id, 0.0) for one in pack.complaints), default=0.0)


def _network_causes(pack: Pack) -> list[NetworkCause]:
    totals = {
        cause.id: cause.prevalence if cause.prevalence is not None else _prevalence(pack, cause.shares)
        for cause in pack.causes
    }
    roots: dict[str, dict[str, float]] = {cause.id: {} for cause in pack.causes}
    for link in pack.links:
        roots[link.consequence][link.root] = link.probability
    made = []
    for cause in pack.causes:
        total = totals[cause.id]
        brought = sum(totals[root] * chance for root, chance in roots[cause.id].items())
        made.append(NetworkCause(cause.id, max(total - brought, LEAST_OWN_SHARE * total), roots[cause.id]))
    others = {one.id: _left_over(pack, one.id) for one in pack.complaints}
    made.append(NetworkCause(NOT_LISTED, _prevalence(pack, others)))
    return made


def _complaint_strengths(pack: Pack) -> dict[str, dict[str, float]]:
    strengths: dict[str, dict[str, float]] = {}
    for complaint in pack.complaints:
        rows = {}
        for cause in pack.causes:
            prevalence = cause.prevalence if cause.prevalence is not None else _prevalence(pack, cause.shares)
            expected = pack.fault_scale * complaint.weight * cause.shares.get(complaint.id, 0.0)
            rows[cause.id] = min(SUREST, SUREST * expected / prevalence) if prevalence else 0.0
        others = {one.id: _left_over(pack, one.id) for one in pack.complaints}
        expected = pack.fault_scale * complaint.weight * others[complaint.id]
        rows[NOT_LISTED] = min(SUREST, SUREST * expected / _prevalence(pack, others))
        strengths[complaint.id] = rows
    return strengths


def _findings(pack: Pack, strengths: Mapping[str, Mapping[str, float]]) -> list[NetworkFinding]:
    findings = [
        NetworkFinding(check.id, check.leak, {row.cause: row.probabilities for row in check.likelihoods})
        for check in pack.checks
    ]
    findings.extend(
        NetworkFinding(COMPLAINT + name, (1.0, 0.0), {cause: (1 - s, s) for cause, s in rows.items() if s})
        for name, rows in strengths.items()
    )
    return findings
