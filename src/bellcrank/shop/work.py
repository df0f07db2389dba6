"""The way in and out of a job: choosing where to get to, ticking steps, torques known for this machine."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.shop.machine_model import assemblies_for, conditions_for, found_on, recorded_steps, recording_name
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import CAPTURED, RECORDED, JobRecord, read_record, record
from bellcrank.shop.storage.events import KeptEvent, targets_of
from bellcrank.shop.tools import tool_terms
from bellcrank.teardown.as_found import Captured, conditions_of
from bellcrank.teardown.changeover import UPRIGHT
from bellcrank.teardown.planned import Chosen, needs_of, steps_in
from bellcrank.teardown.ruled_out import RuledOut
from bellcrank.teardown.safety import made_safe
from bellcrank.teardown.steps import PlannedStep
from bellcrank.teardown.way_in import way_in

IN, OUT = "in", "out"
NEAREST = 4  # [-] parts named to whoever named one that is not there
NO_STEPS_YET = (
    "This kind of machine is not drawn up step by step yet. What comes off first stands with each check and repair."
)
Conditions = Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Way:
    """The planned way of a job: operations in order, how the machine lies, and what is ticked."""

    assembly: Assembly
    targets: tuple[str, ...]
    order: tuple[str, ...]  # operations on the way in; the way out is the reverse
    lies: dict[str, str]  # operation -> how the machine lies for it
    methods: dict[str, str]  # operation -> the other way it is done, where it is not the usual one
    done: frozenset[tuple[str, str]]  # direction and operation
    gap: float  # by how much the way in may be longer than the shortest [min]

    def operation(self, name: str) -> Operation:
        """Give an operation of this way."""
        return next(one for one in self.assembly.operations if one.id == name)

    @property
    def steps(self) -> tuple[PlannedStep, ...]:
        """The steps of the way in, in order."""
        chosen = (Chosen(name, self.methods.get(name, ""), self.lies[name]) for name in self.order)
        return steps_in(self.assembly, chosen, UPRIGHT)

    @property
    def off(self) -> tuple[str, ...]:
        """Operations done and not yet undone, in the order they were done."""
        return tuple(name for name in self.order if (IN, name) in self.done and (OUT, name) not in self.done)

    def left(self, direction: str) -> tuple[str, ...]:
        """Operations of one direction that are not ticked yet, in the order of the work."""
        order = self.order if direction == IN else tuple(reversed(self.order))
        return tuple(name for name in order if (direction, name) not in self.done)


def way_of(job: JobRecord, assemblies: tuple[Assembly, ...]) -> Way | None:
    """Give the way a job is on: the last one planned, with the ticks since; or the one that is recorded on it."""
    plan = next(reversed(list(_plans(job))), None)
    if _is_recorded(job, plan):
        return _recorded_way(job, assemblies, plan)
    assembly = next((one for one in assemblies if plan and one.id == plan.body["assembly"]), None)
    if plan is None or assembly is None:
        return None
    done = {(IN, name) for name in plan.body["off"]}
    _tick_off(done, (event for event in job.standing("step") if event.id > plan.event))
    steps = plan.body["steps"]  # name, how the machine lies, and the other way it is done, if it is not the usual
    order = tuple(one[0] for one in steps)
    if not {one.id for one in assembly.operations}.issuperset(order):
        return None  # planned on an older drawing of this machine that named its steps otherwise
    lies = {one[0]: one[1] for one in steps}
    methods = {one[0]: one[2] for one in steps if one[2:]}
    gap = float(plan.body.get("gap", 0.0))
    return Way(made_safe(assembly), targets_of(plan.body), order, lies, methods, frozenset(done), gap)


@dataclass(frozen=True, slots=True)
class _Plan:
    """A way that was planned: for a part that was chosen, or anew for what was found on it."""

    event: int
    body: Mapping[str, Any]


def _plans(job: JobRecord) -> Iterator[_Plan]:
    for event in job.standing("target", CAPTURED):
        body = event.body if event.kind == "target" else event.body.get("way")
        if body:
            yield _Plan(event.id, body)


def _tick_off(done: set[tuple[str, str]], steps: Iterable[KeptEvent]) -> None:
    for event in steps:
        tick_of = (event.body["direction"], event.body["operation"])
        (done.add if event.body["done"] else done.discard)(tick_of)


def _is_recorded(job: JobRecord, plan: _Plan | None) -> bool:
    """Whether the way is the one that is recorded on the job: its last step came after the last plan."""
    last = next(reversed(list(job.standing(RECORDED))), None)
    if last is None or plan is None:
        return last is not None
    return last.id > plan.event or plan.body["assembly"] == recording_name(job.job.number)


def _recorded_way(job: JobRecord, assemblies: tuple[Assembly, ...], plan: _Plan | None) -> Way:
    """Give the way that is recorded: every step was done when it was recorded."""
    assembly = next(one for one in assemblies if one.id == recording_name(job.job.number))
    recorded = recorded_steps(job)
    lies = {step.id: step.lies for step in recorded}
    longest = sum(step.minutes for step in recorded)  # nothing was planned, so nothing shorter is ruled out
    done = {(IN, name) for name in lies}
    _tick_off(done, (event for event in job.standing("step") if event.body["operation"] in lies))
    of_it = plan is not None and plan.body["assembly"] == assembly.id
    targets = targets_of(plan.body) if plan is not None and of_it else (assembly.operations[-1].part,)
    return Way(made_safe(assembly), targets, tuple(lies), lies, {}, frozenset(done), longest)


def way_for(shop: Shop, job: JobRecord) -> Way | None:
    """Give the way a job is on, on its machine as it is known now; nothing is read where none was chosen."""
    on_its_way = any(job.standing("target", RECORDED))
    return way_of(job, assemblies_for(shop, job)) if on_its_way else None


def choose_target(
    shop: Shop, number: int, *targets: str, also: bool = False, barred: Iterable[str] = (), by: str = ""
) -> int:
    """Plan the way in to one part or several, going on from what is off already; ``also`` keeps those of the way.

    ``barred`` names steps to do without, or one way of a step (``"blade-bolt-out:impact"``; nothing after the colon is
    the usual way).
    """
    job = read_record(shop, number)
    before = way_for(shop, job)
    if also and before:
        targets = (*before.targets, *targets)
    body = _planned(shop, job, targets, barred, conditions_for(shop, job))
    return record(shop, number, "target", body, by=by)


def plan_without(shop: Shop, number: int, barred: Iterable[str], by: str = "") -> int:
    """Plan the way a job is on anew without some steps or ways of steps, none when all may be used again."""
    way = way_for(shop, read_record(shop, number))
    if way is None:
        raise no_way_yet(number)
    return choose_target(shop, number, *way.targets, barred=barred, by=by)


def planned_anew(shop: Shop, job: JobRecord, step: str, found: Captured) -> dict[str, object] | None:
    """Plan the way in anew with what was found at a step that is still to be done; None where nothing changes by it."""
    way = way_for(shop, job)
    if way is None or step not in way.left(IN):
        return None
    conditions = conditions_of([*(one.captured for one in found_on(shop, job)), found])
    return _planned(shop, job, way.targets, barred_on(job), conditions)


def barred_on(job: JobRecord) -> tuple[str, ...]:
    """Name the steps, or ways of steps, a job's way was planned without on purpose."""
    plan = next(reversed(list(_plans(job))), None)
    return tuple(plan.body.get("barred", ())) if plan else ()


def ruled_out_for(shop: Shop, assembly: Assembly, barred: Iterable[str], conditions: Conditions) -> RuledOut:
    """Give what a way on this assembly must do without: what was barred or found, and tools that are not here."""
    here = {step.id: conditions[step.id] for step in assembly.operations if step.id in conditions}
    return RuledOut(frozenset(barred), here, tool_terms(shop).missing)


def no_way_yet(number: int) -> NotAllowedNow:
    """Say that no part was chosen yet."""
    return NotAllowedNow(f"Job {number} has no way in yet. Choose the part to get to first.")


def _planned(
    shop: Shop, job: JobRecord, targets: tuple[str, ...], barred: Iterable[str], conditions: Conditions
) -> dict[str, object]:
    assemblies = assemblies_for(shop, job)
    before = way_of(job, assemblies)
    assembly, targets = assembly_with(assemblies, targets)
    off = before.off if before else ()
    if before and off and before.assembly.id != assembly.id:
        raise NotAllowedNow(
            f"{len(off)} steps of “{before.assembly.words}” are still off, and this part is not on it. Put them back "
            "or take their ticks off first.",
            "target",
        )
    lies = {name: before.lies[name] for name in off} if before else {}
    lying = lies[off[-1]] if off else UPRIGHT
    out = ruled_out_for(shop, assembly, barred, conditions)
    plan = way_in(assembly, targets, already_done=frozenset(off), lies=lying, ruled_out=out)
    steps = [[name, lies[name], before.methods.get(name, "")] for name in off] if before else []
    steps.extend([step.operation.id, step.orientation, step.method] for step in plan.steps)
    return {
        "assembly": assembly.id,
        "targets": list(targets),
        "steps": steps,
        "off": list(off),
        "gap": plan.minutes - plan.bound,
        "barred": sorted(barred),
    }


def assembly_with(assemblies: tuple[Assembly, ...], named: tuple[str, ...]) -> tuple[Assembly, tuple[str, ...]]:
    """Give the assembly that has all that is named, and the parts that are meant: a fastener means what it holds."""
    if not assemblies:
        raise NotFound(NO_STEPS_YET, "target")
    for assembly in assemblies:
        held = {
            fastener.id: part
            for part, step in assembly.targets.items()
            for operation in assembly.operations
            if operation.id == step
            for fastener in operation.fasteners
        }
        targets = tuple(dict.fromkeys(name if name in assembly.targets else held.get(name, name) for name in named))
        if targets and set(targets) <= assembly.targets.keys():
            return assembly, targets
    raise _no_way_in(tuple(dict.fromkeys(part for one in assemblies for part in one.targets)), named)


def _no_way_in(parts: tuple[str, ...], named: tuple[str, ...]) -> NotFound:
    """Say which part nobody knows, with those whose names come nearest; or that no one drawing has all of them."""
    unknown = next((one for one in named if one not in parts), None)
    if unknown is None:
        wanted = " and ".join(f"“{one}”" for one in named)
        return NotFound(f"No one drawing of this machine has {wanted}. Choose them one after the other.", "target")
    near = get_close_matches(unknown, parts, NEAREST, cutoff=0.0)
    return NotFound(
        f"There is no way in to “{unknown}” on this kind of machine. The names nearest to it: {', '.join(near)}; "
        f"there are {len(parts)}. Pick one of them.",
        "target",
    )


def tick(
    shop: Shop, number: int, direction: str, operation: str, *, done: bool, by: str = "", only_new: bool = False
) -> int:
    """Tick a step of the way, or take the tick off.

    With ``only_new`` a step that stands so already is refused, so that two phones on one machine hear of each other.
    """
    job = read_record(shop, number)
    way = way_for(shop, job)
    if way is None:
        raise no_way_yet(number)
    if direction not in (IN, OUT) or operation not in way.order:
        raise NotFound(f"There is no step “{operation}” on the way {direction}. Pick one from the job's steps.")
    if only_new and done == ((direction, operation) in way.done):
        step = way.operation(operation)
        words = f"“{step.do if direction == IN else step.undo}”"
        stands = f"{words} is ticked already" if done else f"The tick of {words} is off already"
        raise NotAllowedNow(f"{stands}, from another phone or page. Nothing was added.")
    if done:
        _refuse_out_of_order(way, direction, operation)
    body: dict[str, object] = {"direction": direction, "operation": operation, "done": done}
    return record(shop, number, "step", body, by=by)


def _refuse_out_of_order(way: Way, direction: str, operation: str) -> None:
    """A step is done when what it needs is done; putting back waits until all that came off later is back."""
    if direction == IN:
        earlier = {name for name in way.order if (IN, name) in way.done}
        for group in needs_of(way.operation(operation), way.methods.get(operation, "")):
            if not earlier.intersection(group):
                first = next(name for name in way.order if name in group)
                raise NotAllowedNow(f"Not yet: first “{way.operation(first).do}”. Tick that when it is done.")
        return
    place = way.order.index(operation)
    still_off = [name for name in way.order[place + 1 :] if name in way.off]
    if still_off:
        raise NotAllowedNow(f"Not yet: first “{way.operation(still_off[-1]).undo}”. Tick that when it is done.")
    if (IN, operation) not in way.done:
        raise NotAllowedNow("This step was never taken apart, so there is nothing to put back.")
