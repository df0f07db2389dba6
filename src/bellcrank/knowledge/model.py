"""The frozen records a knowledge pack is read into: machine kinds, causes, checks, repairs, assemblies, release items.

Text in these records is written for the bench; ids are short lower-case words joined by hyphens.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from bellcrank.engine.card import EngineCard, OperatorCard
from bellcrank.engine.slip_table import SlipTable
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.keys import ParallelKey, WoodruffKey
from bellcrank.fastening.screw_tables import ScrewTables
from bellcrank.fastening.strength import Material, StrengthClass
from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.gauge_table import GaugeTable
from bellcrank.knowledge.scale import Scale
from bellcrank.sources import Origin, Source

ROW_WEIGHT, LEAK_WEIGHT = 8.0, 24.0  # [-] jobs a row of chances is worth where a pack does not say; guess


class CheckKind(StrEnum):
    """How a finding is come by."""

    ASK = "ask"
    LOOK = "look"
    FEEL = "feel"
    SWAP = "swap"
    MEASURE = "measure"
    RUN = "run"


class Severity(StrEnum):
    """What a cause left in the machine can do."""

    SAFETY = "safety"
    DAMAGE = "damage"
    FUNCTION = "function"
    NUISANCE = "nuisance"


class EngineRuns(StrEnum):
    """What a complaint leaves of the engine, as a pack's table says it."""

    YES = "yes"  # it runs, a check may ask for it
    NO = "no"  # it does not run, a check may try to start it
    NEVER = "never"  # it must not be started as long as the complaint stands: it would not stop, or burn


class Signal(StrEnum):
    """Signal words of ANSI Z535: what happens if the hazard is not avoided."""

    DANGER = "DANGER"  # will kill or maim
    WARNING = "WARNING"  # could kill or maim
    CAUTION = "CAUTION"  # could hurt
    NOTICE = "NOTICE"  # no injury


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in the packs."""

    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Hazard:
    """A caution shown before the step it belongs to, control first."""

    id: str
    signal: Signal
    control: str  # what to do, imperative
    consequence: str  # what happens otherwise
    source: str


@dataclass(frozen=True, slots=True)
class Complaint:
    """What a customer comes in with."""

    id: str
    words: str  # "won't start"
    weight: float  # share of jobs of this kind that come in with it [-]
    engine_runs: bool  # whether a check may ask for the engine to run
    origin: Origin
    may_start: bool = True  # whether a check may try to start it


@dataclass(frozen=True, slots=True)
class Link:
    """A root cause that can bring a consequence about."""

    root: str
    consequence: str
    probability: float  # that the root alone brings it about [-]
    origin: Origin


@dataclass(frozen=True, slots=True)
class Cause:
    """Something that can be wrong, or an event that may have happened (a strike)."""

    id: str
    words: str  # "flywheel key sheared"
    system: str  # fuel, air, ignition, compression, governor, control, starter, oil, rotating, cutting, use ...
    severity: Severity
    prevalence: float | None  # share of all machines that have it whatever the complaint; None: follows from shares [-]
    shares: Mapping[str, float]  # complaint id -> share of jobs with that complaint it is the cause of [-]
    repair: str | None  # id of the repair that cures it; None for events
    origin: Origin


@dataclass(frozen=True, slots=True)
class Result:
    """One possible answer of a check; the order of a check's results is from 'nothing wrong' upwards."""

    id: str
    words: str  # what stands on the button: "jumps", "weak", "none"
    says: str  # a clause for the reasons: "the spark tester still fires"
    forbids_running: bool  # nothing is started after this result, until it is put right or another result lifts it
    lifts: tuple[str, ...] = ()  # checks whose results forbid running no longer after this one


@dataclass(frozen=True, slots=True)
class Likelihood:
    """How one cause alone, nothing else wrong, spreads a check's results (net convention, no leak)."""

    check: str
    cause: str
    probabilities: tuple[float, ...]  # one per result, sums to 1 [-]
    origin: Origin
    weight: float = ROW_WEIGHT  # how many jobs looked at it is worth, when the shop's own are counted against it [-]


@dataclass(frozen=True, slots=True)
class GivenLikelihood:
    """A row that holds instead of the usual one while a complaint stands: who complains has seen it happen."""

    complaint: str
    row: Likelihood


@dataclass(frozen=True, slots=True)
class Check:
    """A question, look, feel, swap, measurement or run that tells causes apart."""

    id: str
    kind: CheckKind
    words: str  # imperative: "Set a spark tester to 5 mm and pull the cord"
    story: bool  # a fact the customer can tell at the door, shown there as a tappable fact
    story_words: str  # "hit something"; empty unless story
    results: tuple[Result, ...]
    leak: tuple[float, ...]  # results when nothing in the pack is wrong, sums to 1 [-]
    likelihoods: tuple[Likelihood, ...]
    minutes: float  # hands-on, without access [min]
    tools: tuple[str, ...]
    access: tuple[str, ...]  # ids of what must be open
    off_first: tuple[str, ...]  # "plug lead": must be off before hands go in
    hazards: tuple[str, ...]
    runs_engine: bool
    origin: Origin
    tries_to_start: bool = False  # the cord is pulled and it may fire
    scale: Scale | None = None  # of a reading, where the check gives one
    leak_weight: float = LEAK_WEIGHT  # how many jobs the leak row is worth [-]


@dataclass(frozen=True, slots=True)
class Access:
    """Something that must be opened before hands or eyes get there; shared by checks and repairs."""

    id: str
    words: str  # "shroud off"
    needs: tuple[str, ...]  # other accesses that come first
    opens: str | None  # part of the assembly model that comes off, if modelled
    open_minutes: float
    close_minutes: float
    shut_to_run: bool  # must be closed again before the engine is run


@dataclass(frozen=True, slots=True)
class RepairPart:
    """A part a repair usually takes, with a price to start a quote from (the shop overwrites it)."""

    words: str
    price: str  # decimal text in the shop's currency, a starting guess


@dataclass(frozen=True, slots=True)
class Repair:
    """What is done about a cause."""

    id: str
    words: str  # imperative: "Fit a new flywheel key"
    fixes: Mapping[str, float]  # cause id -> chance that the repair removes it [-]
    minutes: tuple[float, float, float]  # low, typical, high; hands-on, without access [min]
    access: tuple[str, ...]
    target: str | None  # part of the assembly model to get to, if modelled
    parts: tuple[RepairPart, ...]
    tools: tuple[str, ...]
    off_first: tuple[str, ...]
    hazards: tuple[str, ...]
    touches: tuple[str, ...]  # of TOUCHED: what the release list asks about afterwards
    origin: Origin


@dataclass(frozen=True, slots=True)
class ReleaseItem:
    """One line of the list that a machine must pass before it is handed back as ready."""

    id: str
    words: str  # question whose answer "yes" is good: "Blade free of cracks?"
    how: str  # method
    triggers: tuple[str, ...]  # of TRIGGERS
    hard: bool  # open or failed: no ready machine
    answer: str  # one of ANSWERS
    limit_words: str
    redo_after: tuple[str, ...]  # touched things, and items answered again, that open this item again
    hazards: tuple[str, ...]
    source: str
    runs_engine: bool = False  # proven with the engine running: only after all that is proven standing still
    kinds: tuple[str, ...] = ()  # of machines it is asked of; none: of all


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool, by the word the packs name it with."""

    id: str
    words: str  # "a leak-down tester"
    everyday: bool  # every shop has it; nobody is asked for it
    price: str  # to start from, decimal text in the shop's currency; "" for everyday things
    lend: bool  # whether it can be borrowed or hired
    origin: Origin


@dataclass(frozen=True, slots=True)
class Pack:
    """All that is known about one kind of machine."""

    kind: str
    words: str  # "walk-behind mower, four-stroke"
    complaints: tuple[Complaint, ...]
    causes: tuple[Cause, ...]
    links: tuple[Link, ...]
    checks: tuple[Check, ...]
    accesses: tuple[Access, ...]
    repairs: tuple[Repair, ...]
    assemblies: tuple[Assembly, ...]
    engine_cards: tuple[EngineCard, ...]
    fault_scale: float  # turns shares among jobs into prevalences of independent faults [-]
    start_check_minutes: float
    give_up_minutes: float  # minutes charged for stopping: quote a replacement or send out
    minutes_per_price: float = 0.0  # minutes one unit of parts money is worth when repairs are ranked [min]
    gauge: GaugeTable = field(default_factory=GaugeTable)
    given: tuple[GivenLikelihood, ...] = ()  # rows that hold while a complaint stands
    places: Mapping[tuple[str, str], Place] = field(default_factory=dict, compare=False)  # by table and name
    retired: frozenset[str] = frozenset()  # own checks and repairs taken back: kept for old jobs, asked of no new one


@dataclass(frozen=True, slots=True)
class Library:
    """Everything read from the packs at start-up."""

    packs: Mapping[str, Pack]
    hazards: Mapping[str, Hazard]
    release_items: tuple[ReleaseItem, ...]
    materials: Mapping[str, Material]
    screw_tables: ScrewTables
    strength_classes: Mapping[str, StrengthClass]
    drive_materials: Mapping[str, DriveMaterial]  # of shafts, hubs and keys
    woodruff_keys: tuple[WoodruffKey, ...]
    parallel_keys: tuple[ParallelKey, ...]  # rising in shaft diameter within each unit
    operators: Mapping[str, OperatorCard]
    slip_tables: Mapping[str, SlipTable]  # by engine card
    tools: Mapping[str, Tool]  # by the word packs name it with
    sources: Mapping[str, Source]
