"""A large machine of our own for the benches: a generic four-stroke walk-behind mower down to the crankshaft.

No one machine: drawn up from what such engines have in common, minutes guessed; only the structure matters (77 steps,
33 tools, four ways of lying, fuel swung aside or off, sealed or drained, oil sucked or drained).
"""

from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.sources import Basis, Origin

UP, SIDE, BENCH, OVER = "upright", "on its side", "on the bench", "bench inverted"
TURNS = {(UP, SIDE): 0.75, (BENCH, OVER): 0.4, (UP, BENCH): 0.4, (SIDE, BENCH): 0.4}  # [min] the lift is a step
# step | what it needs, "a/b" for either | tool | minutes | lies
MOWER = """
lead-off | | hand | 0.3 | upright
fuel-shut | lead-off | hand | 0.2 | upright
line-clamped | lead-off | line clamp | 0.4 | upright
tank-drained | lead-off | fuel pump | 4.0 | upright
cap-sealed | lead-off | hand | 0.5 | upright
oil-sucked | lead-off | oil sucker | 3.0 | upright
oil-drained | lead-off cap-sealed/tank-drained blade-held | drain key | 1.8 | on its side
plug-out | lead-off | plug socket | 1.0 | any
filter-cover-off | lead-off | screwdriver | 0.5 | any
filter-out | filter-cover-off | hand | 0.3 | any
breather-hose-off | lead-off | hand | 0.3 | any
filter-base-off | filter-out breather-hose-off | 8 mm socket | 1.2 | any
tank-bolts-out | lead-off fuel-shut/line-clamped/tank-drained | 3/8 in socket | 1.2 | upright
tank-aside | tank-bolts-out | hand | 0.5 | upright
tank-line-off | tank-bolts-out | pliers | 0.8 | upright
tank-off | tank-line-off | hand | 0.6 | upright
cord-free | lead-off | hand | 0.4 | upright
starter-off | cord-free | 10 mm socket | 1.8 | any
filler-tube-off | lead-off | 3/8 in socket | 0.8 | any
shroud-bolts-out | starter-off filler-tube-off tank-aside/tank-off | 10 mm socket | 2.0 | upright
shroud-off | shroud-bolts-out | hand | 0.8 | upright
cable-off | lead-off | T25 bit | 0.8 | upright
throttle-cable-off | filter-base-off | T25 bit | 0.6 | upright
brake-off | shroud-off cable-off | 10 mm socket | 1.5 | any
stop-wire-off | shroud-off | hand | 0.3 | any
coil-bolts-out | shroud-off | 8 mm socket | 1.0 | any
coil-aside | coil-bolts-out | hand | 0.3 | any
coil-off | coil-bolts-out stop-wire-off | hand | 0.4 | any
screen-off | shroud-off | T30 bit | 0.7 | any
flywheel-held | screen-off brake-off | flywheel holder | 0.5 | any
nut-off | flywheel-held | 24 mm socket | 1.5 | any
holder-away | nut-off | flywheel holder | 0.2 | any
flywheel-pulled | holder-away coil-aside/coil-off | flywheel puller | 1.5 | any
flywheel-off | flywheel-pulled | hand | 0.4 | any
key-out | flywheel-off | side cutters | 0.6 | any
backplate-off | flywheel-off | T30 bit | 1.2 | any
governor-spring-off | filter-base-off | needle pliers | 0.5 | any
governor-link-off | governor-spring-off | hand | 0.3 | any
carb-line-off | lead-off fuel-shut/line-clamped/tank-drained | pliers | 0.6 | any
carb-nuts-out | filter-base-off carb-line-off throttle-cable-off | 10 mm deep socket | 1.0 | any
carb-aside | carb-nuts-out | hand | 0.4 | any
carb-off | carb-nuts-out governor-link-off | hand | 0.5 | any
insulator-off | carb-off/carb-aside | T30 bit | 0.8 | any
guard-off | lead-off | 8 mm socket | 1.0 | any
muffler-off | guard-off | 1/2 in socket | 2.0 | any
cover-off | shroud-off breather-hose-off | 8 mm socket | 1.5 | any
valve-lash-slack | cover-off plug-out | 10 mm wrench | 1.5 | any
rockers-off | valve-lash-slack | 1/2 in socket | 1.5 | any
push-rods-out | rockers-off | hand | 0.5 | any
head-bolts-out | push-rods-out muffler-off insulator-off | 13 mm socket | 3.0 | any
head-off | head-bolts-out | soft hammer | 1.0 | any
head-gasket-off | head-off | scraper | 2.0 | any
springs-off | head-off | spring compressor | 3.0 | any
valves-out | springs-off | hand | 0.8 | any
blade-held | lead-off cap-sealed/tank-drained | block of wood | 0.4 | on its side
blade-off | blade-held | 5/8 in socket | 2.0 | on its side
adapter-off | blade-off | adapter puller | 1.5 | on its side
belt-cover-off | blade-off | T25 bit | 1.0 | on its side
belt-off | belt-cover-off adapter-off | hand | 0.8 | on its side
deck-bolts-out | belt-off | 1/2 in socket | 3.0 | on its side
ground-wire-off | lead-off | 10 mm socket | 0.5 | upright
engine-lifted | deck-bolts-out cable-off throttle-cable-off ground-wire-off oil-sucked/oil-drained|hand | 2.0 | upright
crank-cleaned | engine-lifted adapter-off | emery cloth | 2.0 | bench inverted
sump-bolts-out | engine-lifted | 10 mm socket | 2.5 | bench inverted
sump-off | sump-bolts-out crank-cleaned | soft hammer | 1.5 | bench inverted
sump-gasket-off | sump-off | scraper | 3.0 | bench inverted
governor-gear-off | sump-off governor-link-off | needle pliers | 0.8 | bench inverted
marks-set | sump-off valve-lash-slack | 24 mm socket | 0.8 | bench inverted
cam-out | marks-set push-rods-out | hand | 0.6 | bench inverted
tappets-out | cam-out | magnet | 0.6 | bench inverted
rod-bolts-out | cam-out head-off tappets-out | T40 bit | 1.5 | bench inverted
rod-cap-off | rod-bolts-out | soft hammer | 0.5 | bench inverted
ridge-off | head-gasket-off | ridge scraper | 2.0 | on the bench
piston-out | rod-cap-off ridge-off sump-gasket-off governor-gear-off | hand | 1.0 | on the bench
rings-off | piston-out | ring pliers | 1.5 | on the bench
seal-out | key-out backplate-off | seal puller | 1.0 | on the bench
crank-out | piston-out seal-out flywheel-off key-out | hand | 1.0 | bench inverted
"""
TARGETS = ("carb-off", "key-out", "sump-gasket-off", "valves-out", "piston-out", "crank-out")  # 12 to 66 steps


def large_mower() -> Assembly:
    """Give the large mower; every step is a target by its own name."""
    operations = tuple(_operation(*(cell.strip() for cell in row.split("|"))) for row in MOWER.strip().splitlines())
    targets = {one.part: one.id for one in operations}
    return Assembly("large-mower", "large mower", operations, targets, Origin(Basis.GUESS, "own-drawing"), turns=TURNS)


def _operation(name: str, needs: str, tool: str, minutes: str, lies: str) -> Operation:
    return Operation(
        id=name,
        kind="remove",
        do=f"Do {name}",
        undo=f"Undo {name}",
        part="plug-lead" if name == "lead-off" else name,
        needs=tuple(tuple(group.split("/")) for group in needs.split()),
        tool=tool,
        minutes=float(minutes),
        undo_minutes=float(minutes),
        orientations=() if lies == "any" else (lies,),
        fasteners=(),
        hazards=(),
        undo_hazards=(),
        turns_crank=False,
        undo_checks=(),
        gives="",
        touches=(),
    )
