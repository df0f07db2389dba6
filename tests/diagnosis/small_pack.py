"""A small invented pack, and the makers of its records; every number here is invented."""

from dataclasses import replace

from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.model import (
    Access,
    Cause,
    Check,
    CheckKind,
    Complaint,
    Likelihood,
    Link,
    Pack,
    Repair,
    Result,
    Severity,
)
from bellcrank.sources import Basis, Origin

GUESS = Origin(Basis.GUESS, "")


def cause(name, words, shares, *, prevalence=None, severity=Severity.FUNCTION, system="ignition"):
    return Cause(name, words, system, severity, prevalence, shares, f"mend-{name}" if shares else None, GUESS)


def check(name, says, leak, rows, *, minutes=1.0, access=(), runs_engine=False, forbids=False, story=False):
    results = tuple(Result(f"r{level}", f"r{level}", words, forbids and level > 0) for level, words in enumerate(says))
    likelihoods = tuple(Likelihood(name, one, row, GUESS) for one, row in rows.items())
    kind = CheckKind.RUN if runs_engine else CheckKind.LOOK
    words = f"Do {name}"
    return Check(
        id=name,
        kind=kind,
        words=words,
        story=story,
        story_words=words if story else "",
        results=results,
        leak=leak,
        likelihoods=likelihoods,
        minutes=minutes,
        tools=(),
        access=access,
        off_first=(),
        hazards=(),
        runs_engine=runs_engine,
        origin=GUESS,
    )


def repair(name, fixes, minutes, access=()):
    return Repair(
        id=name,
        words=f"Do {name}",
        fixes=fixes,
        minutes=(minutes, minutes, minutes),
        access=access,
        target=None,
        parts=(),
        tools=(),
        off_first=(),
        hazards=(),
        touches=(),
        origin=GUESS,
    )


def pack_of(*, causes, checks=(), repairs=(), accesses=(), links=(), complaints=None, **changes):
    """Make a pack of such records."""
    wont_start = Complaint("wont-start", "won't start", 0.4, False, GUESS)
    pack = Pack(
        kind="test-mower",
        words="test mower",
        complaints=complaints or (wont_start,),
        causes=causes,
        links=links,
        checks=checks,
        accesses=accesses,
        repairs=repairs,
        assemblies=(),
        engine_cards=(),
        fault_scale=0.15,
        start_check_minutes=1.0,
        give_up_minutes=150.0,
    )
    return replace(pack, **changes)


COMPLAINTS = (
    Complaint("wont-start", "won't start", 0.4, False, GUESS),
    Complaint("no-power", "no power", 0.2, True, GUESS),
    Complaint("vibrates", "shakes", 0.1, True, GUESS),
)
CAUSES = (
    cause("strike", "it hit something", {}, prevalence=0.004, system="event"),
    cause("key", "flywheel key sheared", {"wont-start": 0.10}),
    cause("coil", "ignition coil dead", {"wont-start": 0.15}),
    cause("plug", "plug fouled", {"wont-start": 0.20, "no-power": 0.10}),
    cause("stale", "fuel stale", {"wont-start": 0.25, "no-power": 0.10}, system="fuel"),
    cause("jet", "main jet blocked", {"wont-start": 0.25, "no-power": 0.30}, system="fuel"),
    cause("filter", "air filter blocked", {"no-power": 0.40}, prevalence=0.06, system="air"),
    cause("blade", "blade bent", {"vibrates": 0.60}, prevalence=0.01, severity=Severity.SAFETY, system="cutting"),
    cause("crank", "crank bent", {"vibrates": 0.30}, severity=Severity.SAFETY, system="rotating"),
)
LINKS = (
    Link("strike", "key", 0.5, GUESS),
    Link("strike", "blade", 0.7, GUESS),
    Link("strike", "crank", 0.2, GUESS),
    Link("stale", "jet", 0.3, GUESS),
)
ACCESSES = (
    Access("plug-out", "plug out", (), None, 1.0, 1.0, True),
    Access("shroud-off", "shroud off", (), None, 5.0, 5.0, True),
    Access("flywheel-off", "flywheel off", ("shroud-off",), None, 5.0, 5.0, True),
    Access("deck-up", "deck up", (), None, 2.0, 1.0, False),
)
CHECKS = (
    check("hit", ("nothing was hit", "it hit something"), (0.97, 0.03), {"strike": (0.1, 0.9)}, story=True),
    check(
        "spark",
        ("the spark tester fires", "the spark is weak", "there is no spark"),
        (0.97, 0.02, 0.01),
        {"coil": (0.05, 0.15, 0.80), "plug": (0.6, 0.3, 0.1)},
        minutes=2.0,
    ),
    check(
        "key-look",
        ("the keyway is straight", "the keyway is off"),
        (0.98, 0.02),
        {"key": (0.03, 0.97)},
        minutes=1.0,
        access=("flywheel-off",),
    ),
    check(
        "timing",
        ("the mark comes at the right time", "the mark comes early"),
        (0.97, 0.03),
        {"key": (0.1, 0.9)},
        minutes=4.0,
        access=("plug-out",),
    ),
    check("smell", ("the fuel smells fresh", "the fuel smells sour"), (0.95, 0.05), {"stale": (0.1, 0.9)}),
    check(
        "plug-look",
        ("the plug is tan", "the plug is dry", "the plug is black"),
        (0.8, 0.15, 0.05),
        {"jet": (0.2, 0.7, 0.1), "stale": (0.5, 0.4, 0.1), "plug": (0.1, 0.1, 0.8), "filter": (0.4, 0.0, 0.6)},
        minutes=1.0,
        access=("plug-out",),
    ),
    check(
        "blade-look",
        ("the blade is straight", "the blade is bent"),
        (0.98, 0.02),
        {"blade": (0.05, 0.95)},
        minutes=1.0,
        access=("deck-up",),
        forbids=True,
    ),
    check(
        "run-up",
        ("it runs up cleanly", "it dies when opened up"),
        (0.95, 0.05),
        {"jet": (0.2, 0.8), "filter": (0.5, 0.5)},
        runs_engine=True,
    ),
    check("colour", ("it is red", "it is green"), (0.5, 0.5), {}, minutes=0.5),
)
REPAIRS = (
    repair("mend-key", {"key": 0.97}, 5.0, ("flywheel-off",)),
    repair("mend-coil", {"coil": 0.97}, 8.0, ("shroud-off",)),
    repair("mend-plug", {"plug": 0.95}, 2.0, ("plug-out",)),
    repair("mend-stale", {"stale": 0.9}, 15.0),
    repair("mend-jet", {"jet": 0.85}, 35.0),
    repair("mend-filter", {"filter": 0.95}, 3.0),
    repair("mend-blade", {"blade": 0.99}, 6.0, ("deck-up",)),
    repair("mend-crank", {"crank": 0.99}, 120.0),
)
PACK = pack_of(causes=CAUSES, checks=CHECKS, repairs=REPAIRS, accesses=ACCESSES, links=LINKS, complaints=COMPLAINTS)
COMPILED = compile_pack(PACK)
