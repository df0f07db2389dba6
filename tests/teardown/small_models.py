"""Small machines for the tests: built or drawn at random, and a plain search that knows no shortcut."""

from dataclasses import replace
from heapq import heappop, heappush
from itertools import count

from hypothesis import strategies as st

from bellcrank.knowledge.assembly import CONDITIONS, Assembly, Fastener, Method, Operation
from bellcrank.sources import Basis, Origin
from bellcrank.teardown.changeover import Changeover

TOOLS = ("hand", "10 mm socket", "T25 bit", "pliers")
WAYS = ("upright", "on its side", "on the bench")


def fastener(name="bolts", **changes):
    fields = {
        "id": name,
        "words": name,
        "count": 2,
        "thread": "M6",
        "strength": "8.8",
        "drive": "hex",
        "size": "10 mm",
        "length_mm": 20.0,
        "head": "flange",
        "where": "left and right",
        "into": "cast-aluminium",
        "engaged_mm": 12.0,
        "under_head": "mild-steel",
        "single_use": False,
        "thread_care": "",
        "pattern": "",
        "published_torque_nm": None,
        "safety_joint": False,
        "source": "own-drawing",
    }
    return Fastener(**(fields | changes))


def operation(name, needs=(), **changes):
    """An operation; its needs are groups, a single name standing for a group of one."""
    fields = {
        "id": name,
        "kind": "remove",
        "do": f"Take {name} off",
        "undo": f"Put {name} back",
        "part": name,
        "needs": tuple((group,) if isinstance(group, str) else tuple(group) for group in needs),
        "tool": "hand",
        "minutes": 1.0,
        "undo_minutes": 1.0,
        "orientations": (),
        "fasteners": (),
        "hazards": (),
        "undo_hazards": (),
        "turns_crank": False,
        "undo_checks": (),
        "gives": "",
        "touches": (),
    }
    return Operation(**(fields | changes))


def method(name, needs=(), **changes):
    """Another way of a step."""
    fields = {
        "id": name,
        "words": f"by {name}",
        "do": f"Do it by {name}",
        "tool": "hand",
        "minutes": 1.0,
        "needs": tuple((group,) if isinstance(group, str) else tuple(group) for group in needs),
        "orientations": (),
        "hazards": (),
        "turns_crank": False,
        "not_when": (),
    }
    return Method(**(fields | changes))


def machine(*operations):
    targets = {one.part: one.id for one in operations}
    return Assembly("small", "small machine", tuple(operations), targets, Origin(Basis.GUESS, "own-drawing"))


@st.composite
def machines_of_many_ways(draw, most=6):
    """A random machine whose steps may be done in several ways, each ruled out by some conditions."""
    plain = draw(machines(most=most))
    names = [one.id for one in plain.operations]
    return machine(
        *(
            replace(
                one,
                access_minutes=draw(st.sampled_from([0.0, 0.2])),
                not_when=_conditions(draw),
                methods=tuple(
                    _method(draw, f"way{number}", one.id, names) for number in range(draw(st.integers(0, 2)))
                ),
            )
            for one in plain.operations
        )
    )


def _method(draw, name, step, names):
    others = st.sampled_from([n for n in names if n != step])
    return method(
        name,
        draw(st.lists(st.lists(others, min_size=1, max_size=2), max_size=2)),
        tool=draw(st.sampled_from(TOOLS)),
        minutes=draw(st.sampled_from([0.1, 0.3, 0.5, 1.0, 2.0])),
        orientations=tuple(draw(st.lists(st.sampled_from(WAYS), unique=True, max_size=2))),
        not_when=_conditions(draw),
    )


def _conditions(draw):
    return tuple(draw(st.lists(st.sampled_from(CONDITIONS), unique=True, max_size=1)))


@st.composite
def machines(draw, most=7):
    """A random machine of AND and OR needs; some of its operations may be out of reach."""
    names = [f"op{number}" for number in range(draw(st.integers(2, most)))]
    minutes = st.sampled_from([0.1, 0.3, 0.5, 1.0, 2.0])
    return machine(
        *(
            operation(
                name,
                draw(
                    st.lists(
                        st.lists(st.sampled_from([n for n in names if n != name]), min_size=1, max_size=3), max_size=2
                    )
                ),
                tool=draw(st.sampled_from(TOOLS)),
                minutes=draw(minutes),
                undo_minutes=draw(minutes),
                orientations=tuple(draw(st.lists(st.sampled_from(WAYS), unique=True, max_size=2))),
            )
            for name in names
        )
    )


@st.composite
def safe_machines(draw, most=7):
    """A random machine whose every operation needs the plug lead off, directly or through another."""
    plain = draw(machines(most=most).filter(lambda one: any(not o.needs for o in one.operations)))
    lead = operation("lead-off", part="plug-lead", kind="make-safe")
    rest = [
        operation(
            one.id,
            one.needs or ("lead-off",),
            tool=one.tool,
            orientations=one.orientations,
            turns_crank=draw(st.booleans()),
            fasteners=(fastener(f"{one.id}-bolts"),) if draw(st.booleans()) else (),
        )
        for one in plain.operations
    ]
    return machine(lead, *rest)


@st.composite
def safe_machines_of_many_ways(draw, most=7):
    """A random machine whose every way of every step but the plug lead's needs the plug lead off."""
    plain = draw(safe_machines(most=most))
    return machine(
        *(
            replace(one, methods=(_safe_method(draw),)) if one.id != "lead-off" and draw(st.booleans()) else one
            for one in plain.operations
        )
    )


def _safe_method(draw):
    return method("other", ("lead-off",), tool=draw(st.sampled_from(TOOLS)), minutes=draw(st.sampled_from([0.2, 2.0])))


@st.composite
def changeovers(draw):
    """Random changeover minutes, with turns that need not obey the triangle."""
    minutes = st.sampled_from([0.0, 0.1, 0.2, 0.75, 3.0])
    pairs = [(a, b) for a in WAYS for b in WAYS if a < b]
    turns = {pair: draw(minutes) for pair in pairs if draw(st.booleans())}
    return Changeover(draw(minutes), draw(minutes), turns)


def ways_to_do(one):
    """The usual way of a step and its others: name, needs, tool, minutes, orientations, what rules it out."""
    yield "", one.needs, one.tool, one.in_minutes, one.orientations, one.not_when
    for m in one.methods:
        yield m.id, m.needs, m.tool, m.minutes + one.access_minutes, m.orientations, m.not_when


def ruled_out_nothing(_step, _method, _tool, _not_when):
    return False


def reachable(assembly, already=frozenset()):
    done = set(already)
    while more := [
        one.id
        for one in assembly.operations
        if one.id not in done and all(done.intersection(group) for group in one.needs)
    ]:
        done.update(more)
    return done


def least_minutes(assembly, wanted, changeover, already=frozenset(), lies="upright", ruled_out=ruled_out_nothing):
    """Least minutes by plain shortest paths over every single way of every step and every single turn."""
    ways = ways_of(assembly, changeover, lies)
    ticket = count()
    heap = [(0.0, next(ticket), frozenset(already), "", lies)]
    settled = set()
    while heap:
        spent, _, done, tool, lying = heappop(heap)
        if (done, tool, lying) in settled:
            continue
        settled.add((done, tool, lying))
        if wanted <= done:
            return spent
        for way in ways - {lying}:
            turn = _turn(changeover, lying, way)
            heappush(heap, (spent + turn, next(ticket), done, tool, way))
        for one in assembly.operations:
            for name, needs, wants, minutes, orientations, not_when in ways_to_do(one):
                fits = (not orientations or lying in orientations) and not ruled_out(one.id, name, wants, not_when)
                if one.id not in done and fits and all(done.intersection(group) for group in needs):
                    change = 0.0 if wants in ("hand", tool) else changeover.tool_minutes
                    held = tool if wants == "hand" else wants
                    heappush(heap, (spent + minutes + change, next(ticket), done | {one.id}, held, lying))
    return None


def least_minutes_back(assembly, off, changeover, lies):
    """Least minutes to put everything back and stand the machine upright, by plain shortest paths."""
    ticket = count()
    ways = ways_of(assembly, changeover, lies, "upright")
    heap = [(0.0, next(ticket), frozenset(off), "", lies)]
    settled = set()
    while heap:
        spent, _, left, tool, lying = heappop(heap)
        if (left, tool, lying) in settled:
            continue
        settled.add((left, tool, lying))
        if not left and lying == "upright":
            return spent
        for way in ways - {lying}:
            heappush(heap, (spent + _turn(changeover, lying, way), next(ticket), left, tool, way))
        for one in assembly.operations:
            rest = left - {one.id}
            fits = not one.orientations or lying in one.orientations
            if one.id in left and fits and _holds(assembly, rest):
                change = 0.0 if one.tool in ("hand", tool) else changeover.tool_minutes
                held = tool if one.tool == "hand" else one.tool
                heappush(heap, (spent + one.undo_minutes + change, next(ticket), rest, held, lying))
    return None


def _holds(assembly, left):
    return all(left.intersection(group) for one in assembly.operations if one.id in left for group in one.needs)


def ways_of(assembly, changeover, *lies):
    """The ways of lying anything speaks of: the machine is turned into no other."""
    named = {way for one in assembly.operations for each in ways_to_do(one) for way in each[4]}
    return {*lies} | named | {way for pair in changeover.turns for way in pair}


def _turn(changeover, lying, way):
    both = [changeover.turns[pair] for pair in ((lying, way), (way, lying)) if pair in changeover.turns]
    return min(both, default=changeover.turn_minutes)
