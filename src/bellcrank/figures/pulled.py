"""A hub pulled by bolts in its own holes, with the thread or the bolt that limits the pull in full ink."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.both_systems import both_forces, both_torques
from bellcrank.fastening.pull import Pull, PullAnswer, PullVerdict
from bellcrank.fastening.puller import BOLT_MARGIN, THREAD_MARGIN
from bellcrank.fastening.threads import minor_diameter
from bellcrank.figures.arrows import arrow, turning_arrow
from bellcrank.figures.cut_parts import (
    HALF,
    MIDDLE,
    both,
    box,
    broken_edge,
    closed,
    cut_shape,
    mirrored,
    open_path,
    rectangle,
    shape,
    teeth,
)
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import capital, force_said, length_said, torque_said
from bellcrank.figures.theme import MARGIN, TEXT_SIZE, Finding, framed, stroke, title_height, title_lines

CIRCLE, BOLT, HEAD = 70, 14, 16  # [px] from the axis to a bolt, half a bolt, height of its head
LONGEST, FINEST = 110, 5.0  # [px] of thread in the hub, and least from tooth to tooth
LEAST_HUB, MOST_HUB, UNDER_HOLE = 84, 150, 20  # [px] height of the hub, and metal under its holes
PLATE, GAP = 24, 76  # [px] thickness of the plate, and room between it and the hub
STUB, NUT, LOOSE = 15, 24, 14  # [px] half the crank's thread, height of the nut, how far it is loose
SCREW_HEAD, LOAD_AT, PULL = (24, 44), 66, (114, 76)  # [px] from the top: the screw's head, the load, its arrow
PLATE_AT = PULL[0] + HEAD + 4  # [px] from the top to the plate
BORE, BORE_FOOT, CRANK = 30, 36, 26  # [px] half the bore at its top and foot, and crank below the hub
BAND = 8  # [px] metal inked behind the teeth of a hole


@dataclass(frozen=True, slots=True)
class _Puller:
    """Where hub, bolts and plate stand, heights from the top. [px]"""

    pull: Pull
    bolt_governs: bool
    top: float

    @property
    def scale(self) -> float:
        """Pixels to the metre, along the bolts."""
        return min(2 * BOLT / self.pull.thread.diameter, LONGEST / self.pull.tapped_depth)

    @property
    def core(self) -> float:
        """Half the diameter inside the bolt's thread."""
        return BOLT * minor_diameter(self.pull.thread) / self.pull.thread.diameter

    @property
    def screw(self) -> float:
        """Half the screw in the middle."""
        return min(max(BOLT * self.pull.screw.diameter / self.pull.thread.diameter, 8), 18)

    @property
    def axis(self) -> float:
        """Where the screw in the middle stands, across the page."""
        return MIDDLE + min(CIRCLE * self.pull.off_centre / self.pull.circle_radius, STUB / 2)

    @property
    def plate(self) -> float:
        """Where the plate begins."""
        return self.top + PLATE_AT

    @property
    def hub(self) -> float:
        """Where the hub begins."""
        return self.plate + PLATE + GAP

    @property
    def bolt_foot(self) -> float:
        """Where the bolts end."""
        return self.hub + self.scale * self.pull.engaged

    @property
    def hole_foot(self) -> float:
        """Where the thread of the holes ends."""
        return self.hub + self.scale * self.pull.tapped_depth

    @property
    def hub_foot(self) -> float:
        """Where the hub ends."""
        known = self.scale * (self.pull.hub_depth or 0)
        return max(self.hub + min(max(known, LEAST_HUB), MOST_HUB), self.hole_foot + UNDER_HOLE)


def pull_figure(pull: Pull, answer: PullAnswer, name: str = "pull", *, unit: str = "N·m") -> str:
    """Draw a pull by the holes of a hub; what has the least margin against the higher force is inked."""
    bolt_governs = answer.bolt_margin.fretted / BOLT_MARGIN < answer.hole_margin.fretted / THREAD_MARGIN
    title = _title(answer, unit)
    puller = _Puller(pull, bolt_governs, title_height(title) + 14)
    names = names_beside(_names(puller, answer, unit), puller.top)
    finding = Finding(name, title, _told(puller, answer, unit))
    height = max(puller.hub_foot + CRANK + 6, names.foot) + MARGIN
    parts = (_hub(puller), _crank(puller), _plate(puller), _screw(puller), _bolts(puller), _loads(puller, answer))
    return framed(finding, "figure-pull", height, title_lines(title), *parts, names.marks)


def _title(answer: PullAnswer, unit: str) -> str:
    stop = torque_said(answer.screw_torque_limit, unit)
    match answer.verdict:
        case PullVerdict.ANOTHER_WAY:
            helps = "no depth of thread helps" if answer.needed_clean is None else "no room for more thread"
            return f"{capital(answer.verdict)}: {helps}"
        case PullVerdict.SCREW_IN_DEEPER | PullVerdict.TAP_DEEPER:
            return f"{capital(answer.verdict)}, or stop at {stop}"
        case _:
            return f"{capital(answer.verdict)}: stop at {stop}"


def _told(puller: _Puller, answer: PullAnswer, unit: str) -> str:
    pull, hole, bolt = puller.pull, answer.hole_margin.fretted, answer.bolt_margin.fretted
    off = f", {length_said(pull.off_centre)} off the middle" if pull.off_centre else ""
    why = "has the least margin" if answer.verdict is PullVerdict.ENOUGH else "limits the pull"
    return (
        f"A section through a hub pulled by {pull.bolts} bolts {pull.thread.name} in its holes, "
        f"{length_said(pull.engaged)} of {length_said(pull.tapped_depth)} of thread engaged, by a plate over it and a "
        f"screw on the crank's end{off}, the nut a few turns loose. {capital(answer.verdict)}. Load on a bolt: "
        f"{both_forces(answer.load.clean)} to {both_forces(answer.load.fretted)}. A hole holds "
        f"{both_forces(answer.strip_usable)}, {hole:.2f} times the higher load; a bolt bears "
        f"{both_forces(answer.bolt_proof)}, {bolt:.2f} times. In full ink, because it {why}: "
        f"{_governing(puller)}. Limit on the screw: {both_torques(answer.screw_torque_limit, unit)}."
    )


def _governing(puller: _Puller) -> str:
    return "the bolt" if puller.bolt_governs else "the hole's thread"


def _hub(puller: _Puller) -> str:
    """Draw the hub cut through its holes, with their thread."""
    left, right, core = CIRCLE - BOLT, CIRCLE + BOLT, puller.core
    half = [
        (MIDDLE + BORE, puller.hub),
        (MIDDLE + left, puller.hub),
        (MIDDLE + left, puller.hole_foot),
        (MIDDLE + CIRCLE - core, puller.hole_foot),
        (MIDDLE + CIRCLE, puller.hole_foot + core / 2),
        (MIDDLE + CIRCLE + core, puller.hole_foot),
        (MIDDLE + right, puller.hole_foot),
        (MIDDLE + right, puller.hub),
        (MIDDLE + HALF, puller.hub),
        (MIDDLE + HALF, puller.hub_foot),
        (MIDDLE + BORE_FOOT, puller.hub_foot),
    ]
    return cut_shape(mirrored(half), leans=1) + cut_shape(half, leans=1)


def _crank(puller: _Puller) -> str:
    """Draw the crank in the hub, and its nut a few turns loose."""
    stub_top, foot = _stub_top(puller), puller.hub_foot + CRANK
    right = [
        (MIDDLE + STUB, stub_top),
        (MIDDLE + STUB, puller.hub + 6),
        (MIDDLE + BORE, puller.hub + 6),
        (MIDDLE + BORE_FOOT, puller.hub_foot),
        (MIDDLE + BORE_FOOT, foot),
    ]
    nut = puller.hub - LOOSE - NUT
    return (
        stroke("drawn-line", open_path([*reversed(right), *mirrored(right)]))
        + both(STUB, 2 * STUB, nut, nut + NUT)
        + broken_edge(MIDDLE - BORE_FOOT, MIDDLE + BORE_FOOT, foot)
    )


def _stub_top(puller: _Puller) -> float:
    return puller.hub - LOOSE - NUT - 8


def _plate(puller: _Puller) -> str:
    """Draw the plate, cut through the holes for bolts and screw."""
    hole, screw, axis = BOLT + 2, puller.screw, puller.axis - MIDDLE
    edges = (-HALF, -CIRCLE - hole, hole - CIRCLE, axis - screw, axis + screw, CIRCLE - hole, CIRCLE + hole, HALF)
    pieces = zip(edges[::2], edges[1::2], strict=True)
    top, foot = puller.plate, puller.plate + PLATE
    return "".join(cut_shape(rectangle(MIDDLE + a, MIDDLE + b, top, foot), leans=-1) for a, b in pieces)


def _screw(puller: _Puller) -> str:
    """Draw the screw in the middle, its point on the crank's end, and the torque on it."""
    axis, half, tip = puller.axis, puller.screw, _stub_top(puller)
    head, foot = (puller.top + each for each in SCREW_HEAD)
    body = [(axis - half, foot), (axis - half, tip - 10), (axis, tip), (axis + half, tip - 10), (axis + half, foot)]
    turns = turning_arrow((axis, puller.top + 10), 27, 250, 110, high=9)
    return stroke("drawn-line", closed(body)) + stroke("drawn-line", box(axis - 20, axis + 20, head, foot)) + turns


def _bolts(puller: _Puller) -> str:
    """Draw the bolts and the teeth they hold by; what governs in ink."""
    return "".join(_bolt(puller, MIDDLE + side * CIRCLE) for side in (-1, 1))


def _bolt(puller: _Puller, axis: float) -> str:
    inked = puller.bolt_governs
    marks = shape(box(axis - 1.6 * BOLT, axis + 1.6 * BOLT, puller.plate - HEAD, puller.plate), filled=inked)
    marks += shape(box(axis - BOLT, axis + BOLT, puller.plate, puller.hub), filled=inked)
    marks += shape(box(axis - puller.core, axis + puller.core, puller.hub, puller.bolt_foot), filled=inked)
    step = max(puller.scale * puller.pull.thread.pitch, FINEST)
    for side in (-1, 1):
        root, crest = axis + side * puller.core, axis + side * BOLT
        if puller.hole_foot - puller.bolt_foot > FINEST:
            marks += stroke("drawn-line", teeth(root, crest, puller.bolt_foot, puller.hole_foot, step))
        edge = None if inked else crest + side * BAND
        marks += shape(teeth(root, crest, puller.hub, puller.bolt_foot, step, closed_at=edge), filled=not inked)
    return marks


def _loads(puller: _Puller, answer: PullAnswer) -> str:
    """Draw the pull on the bolts, and say it over the heaviest loaded, the one the screw is nearest to."""
    start, end = (puller.top + each for each in PULL)
    marks = ""
    for side in (-1, 1):
        axis = MIDDLE + side * CIRCLE
        marks += arrow(axis, start, end)
        if side > 0 or not puller.pull.off_centre:
            marks += (
                f'<text class="drawn-words" x="{axis}" y="{puller.top + LOAD_AT:.1f}" font-size="{TEXT_SIZE}" '
                f'text-anchor="middle" fill="currentColor">{force_said(answer.load.fretted)}</text>'
            )
    return marks


def _names(puller: _Puller, answer: PullAnswer, unit: str) -> Iterable[Name]:
    pull, right = puller.pull, MIDDLE + CIRCLE
    yield Name(f"stop at {torque_said(answer.screw_torque_limit, unit)}", puller.axis + 32, puller.top + 12)
    drawn = ", two drawn" if pull.bolts > 2 else ""
    yield Name(f"{pull.bolts} bolts {pull.thread.name}{drawn}", right + 1.6 * BOLT, puller.plate - HEAD / 2)
    yield Name("nut a few turns loose", MIDDLE + 2 * STUB, puller.hub - LOOSE - NUT / 2)
    holds = _limit(puller, answer)
    if puller.bolt_governs:
        yield Name(holds, right + BOLT, puller.hub - 8, strong=True)
    else:
        yield Name(holds, right + BOLT + BAND, (puller.hub + puller.bolt_foot) / 2, strong=True)
    depth = f"{length_said(pull.engaged)} of {length_said(pull.tapped_depth)} thread"
    yield Name(f"{pull.hub.words}, {depth}", MIDDLE + HALF - 8, puller.hub_foot - 8)


def _limit(puller: _Puller, answer: PullAnswer) -> str:
    """Name what governs, with what is wanted where it holds more than its load and is still not enough."""
    margin = answer.bolt_margin.fretted if puller.bolt_governs else answer.hole_margin.fretted
    part = _governing(puller).removeprefix("the ")
    if answer.verdict is PullVerdict.ENOUGH:
        return f"Least margin: {part}, {margin:.1f} times its load"
    if margin < 1:
        return f"Limit: {part}, {margin:.2f} times its load"
    wanted = BOLT_MARGIN if puller.bolt_governs else THREAD_MARGIN
    return f"Limit: {part}, {margin:.2f} times its load, {wanted:.2f} wanted"
