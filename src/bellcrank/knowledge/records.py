"""Records made of one line of a table each; nothing here opens a file."""

from collections.abc import Mapping, Sequence

from bellcrank.engine.card import Ranged
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.keys import ParallelKey, SizeUnit, WoodruffKey
from bellcrank.fastening.strength import Material, StrengthRange
from bellcrank.knowledge.line import Line
from bellcrank.knowledge.model import (
    LEAK_WEIGHT,
    ROW_WEIGHT,
    Access,
    Cause,
    Check,
    CheckKind,
    Complaint,
    EngineRuns,
    GivenLikelihood,
    Hazard,
    Likelihood,
    Link,
    ReleaseItem,
    Repair,
    RepairPart,
    Result,
    Severity,
    Signal,
)
from bellcrank.knowledge.scale import Scale, scale
from bellcrank.sources import Basis, Origin, Source, Status
from bellcrank.units import to_si

LEAK_ROW = "-"  # stands for the cause in the row of results seen when nothing is wrong


def origin(line: Line) -> Origin:
    """Give basis and source of a line."""
    return Origin(line.choice("basis", Basis), line.words("source"))


def source(line: Line) -> Source:
    """Make an entry of the list of sources."""
    return Source(line.words("key"), line.words("title"), line.cell("locator"), line.choice("status", Status))


def hazard(line: Line) -> Hazard:
    """Make a caution."""
    return Hazard(
        id=line.words("id"),
        signal=line.choice("signal", Signal),
        control=line.words("control"),
        consequence=line.words("consequence"),
        source=line.words("source"),
    )


def release_item(line: Line) -> ReleaseItem:
    """Make a line of the release list."""
    return ReleaseItem(
        id=line.words("id"),
        words=line.words("words"),
        how=line.words("how"),
        triggers=line.several("triggers"),
        hard=line.yes("hard"),
        answer=line.words("answer"),
        limit_words=line.cell("limit_words"),
        redo_after=line.several("redo_after"),
        hazards=line.several("hazards"),
        source=line.words("source"),
        runs_engine=line.yes("runs_engine"),
        kinds=line.several("kinds"),
    )


def material(line: Line) -> Material:
    """Make a material; strengths nobody should compute with are empty cells."""
    return Material(
        key=line.words("key"),
        words=line.words("words"),
        tensile=_strength_or_none(line, "tensile_mpa"),
        shear=_strength_or_none(line, "shear_mpa"),
        bearing=_strength_or_none(line, "bearing_mpa"),
        knock_down=line.amount("knock_down"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )


def strength_range(line: Line) -> tuple[str, str, StrengthRange]:
    """Make one range of diameters of a strength class, with the key and words of the class."""
    strengths = StrengthRange(
        min_diameter=to_si(line.amount("min_diameter_mm"), "mm", "length"),
        max_diameter=to_si(line.amount("max_diameter_mm"), "mm", "length"),
        tensile=to_si(line.amount("tensile_mpa"), "MPa", "pressure"),
        yield_=to_si(line.amount("yield_mpa"), "MPa", "pressure"),
        proof=to_si(line.amount("proof_mpa"), "MPa", "pressure"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )
    return line.words("key"), line.words("words"), strengths


def drive_material(line: Line) -> DriveMaterial:
    """Make a material of shafts, hubs and keys; what it does not have, or nobody printed, is an empty cell."""
    return DriveMaterial(
        key=line.words("key"),
        words=line.words("words"),
        tensile=to_si(line.amount("tensile_mpa"), "MPa", "pressure"),
        yield_=_strength_or_none(line, "yield_mpa"),
        shear=_strength_or_none(line, "shear_mpa"),
        modulus=to_si(1000 * line.amount("modulus_gpa"), "MPa", "pressure"),
        poisson=line.amount("poisson"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
        stiffness_source=line.words("stiffness_source"),
    )


def woodruff_key(line: Line) -> WoodruffKey:
    """Make a Woodruff key; a line is printed in inches or in millimetres, as its standard is."""
    unit = line.choice("unit", SizeUnit)
    return WoodruffKey(
        key=line.words("key"),
        size=line.words("size"),
        unit=unit,
        width=to_si(line.amount("width"), unit, "length"),
        disc_diameter=to_si(line.amount("disc_diameter"), unit, "length"),
        offset=to_si(line.amount("offset"), unit, "length"),
        shaft_seat=to_si(line.amount("shaft_seat"), unit, "length"),
        hub_seat=to_si(line.amount("hub_seat"), unit, "length"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )


def parallel_key(line: Line) -> ParallelKey:
    """Make a parallel key and its range of shafts, printed in inches or in millimetres."""
    unit = line.choice("unit", SizeUnit)
    return ParallelKey(
        unit=unit,
        over=to_si(line.amount("over"), unit, "length"),
        up_to=to_si(line.amount("up_to"), unit, "length"),
        width=to_si(line.amount("width"), unit, "length"),
        height=to_si(line.amount("height"), unit, "length"),
        shaft_seat=to_si(line.amount("shaft_seat"), unit, "length"),
        hub_seat=to_si(line.amount("hub_seat"), unit, "length"),
        basis=line.choice("basis", Basis),
        source=line.words("source"),
    )


def complaint(line: Line) -> Complaint:
    """Make a complaint."""
    runs = line.choice("engine_runs", EngineRuns)
    return Complaint(
        id=line.words("id"),
        words=line.words("words"),
        weight=line.amount("weight"),
        engine_runs=runs is EngineRuns.YES,
        origin=origin(line),
        may_start=runs is not EngineRuns.NEVER,
    )


def cause(line: Line, shares: Mapping[str, float]) -> Cause:
    """Make a cause with its shares of the complaints."""
    return Cause(
        id=line.words("id"),
        words=line.words("words"),
        system=line.words("system"),
        severity=line.choice("severity", Severity),
        prevalence=line.amount_or_none("prevalence"),
        shares=dict(shares),
        repair=line.cell("repair") or None,
        origin=origin(line),
    )


def link(line: Line) -> Link:
    """Make a link from a root to what it can bring about."""
    return Link(line.words("root"), line.words("consequence"), line.amount("probability"), origin(line))


def result(line: Line) -> Result:
    """Make one possible answer of a check."""
    return Result(
        line.words("id"),
        line.words("words"),
        line.words("says"),
        line.yes("forbids_running"),
        line.several("lifts"),
    )


def likelihood(line: Line) -> Likelihood:
    """Make a row of chances."""
    cause = line.words("cause")
    weight = line.amount_or("weight", LEAK_WEIGHT if cause == LEAK_ROW else ROW_WEIGHT)
    if weight <= 0:
        raise line.fault(f"“weight” is {weight:g}; it must be above 0: so many jobs the row is worth.")
    return Likelihood(line.words("check"), cause, line.amounts("probabilities"), origin(line), weight)


def given_likelihood(line: Line) -> GivenLikelihood:
    """Make a row of chances that holds while a complaint stands."""
    return GivenLikelihood(line.words("complaint"), likelihood(line))


def scale_of(line: Line) -> Scale:
    """Make the scale of a check's readings."""
    return scale(line, origin(line))


def check(line: Line, results: Sequence[Result], rows: Sequence[Likelihood]) -> Check:
    """Make a check of its line, its results and its rows of chances, one of which is the leak row."""
    name = line.words("id")
    leak = next((row for row in rows if row.cause == LEAK_ROW), None)
    if not results:
        raise line.fault(f"“{name}” has no results. Give it at least two in results.csv.")
    if leak is None:
        raise line.fault(
            f"“{name}” has no row for cause “{LEAK_ROW}” in likelihoods.csv. Say what a sound machine shows."
        )
    return Check(
        id=name,
        kind=line.choice("kind", CheckKind),
        words=line.words("words"),
        story=bool(line.cell("story_words")),
        story_words=line.cell("story_words"),
        results=tuple(results),
        leak=leak.probabilities,
        likelihoods=tuple(row for row in rows if row.cause != LEAK_ROW),
        minutes=line.amount("minutes"),
        tools=line.several("tools"),
        access=line.several("access"),
        off_first=line.several("off_first"),
        hazards=line.several("hazards"),
        runs_engine=line.yes("runs_engine"),
        tries_to_start=line.yes("tries_to_start"),
        origin=origin(line),
        leak_weight=leak.weight,
    )


def access(line: Line) -> Access:
    """Make something that is opened."""
    return Access(
        id=line.words("id"),
        words=line.words("words"),
        needs=line.several("needs"),
        opens=line.cell("opens") or None,
        open_minutes=line.amount("open_minutes"),
        close_minutes=line.amount("close_minutes"),
        shut_to_run=line.yes("shut_to_run"),
    )


def repair_part(line: Line) -> RepairPart:
    """Make a part a repair usually takes."""
    line.amount("price")
    return RepairPart(line.words("words"), line.words("price"))


def repair(line: Line, parts: Sequence[RepairPart]) -> Repair:
    """Make a repair with its parts."""
    return Repair(
        id=line.words("id"),
        words=line.words("words"),
        fixes=line.amount_of_each("fixes"),
        minutes=(line.amount("minutes_low"), line.amount("minutes_typical"), line.amount("minutes_high")),
        access=line.several("access"),
        target=line.cell("target") or None,
        parts=tuple(parts),
        tools=line.several("tools"),
        off_first=line.several("off_first"),
        hazards=line.several("hazards"),
        touches=line.several("touches"),
        origin=origin(line),
    )


def _strength_or_none(line: Line, column: str) -> float | None:
    megapascals = line.amount_or_none(column)
    return None if megapascals is None else to_si(megapascals, "MPa", "pressure")


# of the units cards are written in; ratios, N, kg·m² and others are SI already
KINDS = {"mm": "length", "°": "angle", "mm²": "area", "kPa": "pressure", "rpm": "speed"}


def ranged(line: Line) -> Ranged:
    """Make a value of an engine's or operator's card with its range."""
    low, value, high = (line.amount(name) for name in ("low", "value", "high"))
    if not low <= value <= high:
        raise line.fault(f"{low:g}, {value:g} and {high:g} must rise.")
    unit = line.words("unit")
    if unit in KINDS:
        low, value, high = (to_si(one, unit, KINDS[unit]) for one in (low, value, high))
    return Ranged(low, value, high, line.choice("basis", Basis), line.words("source"))
