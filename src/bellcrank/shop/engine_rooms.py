"""The questions of the numbers bench about the engine: timing, leak-down, compression, jet, governor, spark."""

from collections.abc import Mapping

from bellcrank.knowledge.closed_lists import NUMBERS
from bellcrank.shop.cord_answers import cord_answer
from bellcrank.shop.engine_answers import (
    compression_answer,
    governor_answer,
    jet_answer,
    leak_down_answer,
    spark_answer,
    timing_answer,
)
from bellcrank.shop.engines import USUAL_ORIFICE, USUAL_SUPPLY
from bellcrank.shop.room import Asked, Room, nothing

TIMING, LEAK_DOWN, COMPRESSION, JET, GOVERNOR, SPARK, CORD = NUMBERS[5:]
ENGINE = Asked("engine", "Engine, by its card", "overhead-valve-160")
HEIGHT = Asked("height", "Height above the sea", "500 m")
SLIPPED = (
    Asked("slip", "It stands forward (below zero) or back", "-60 °"),
    Asked("arc", "Or the arc at the rim, piston at the top", "-105 mm"),
    Asked("rim", "Radius of the rim", "100 mm"),
    Asked("key_offset", "Or between the keyways' edges", "-2 mm"),
    Asked("shaft", "Radius of the shaft at the key", "10 mm"),
    Asked("advance", "Advance with a good key", "20 °"),
)
ENGINE_ROOMS: Mapping[str, Room] = {
    CORD: Room(
        key=CORD,
        words="what the cord did",
        title="What the cord told you",
        lead="From pulls that were made already (make none for this): where the flywheel sits, and what to look at.",
        fields=(
            ENGINE,
            Asked("jerks", "Pulls that jerked the cord back", "3"),
            Asked("of", "Of how many pulls", "10"),
            Asked("starts", "Pulls after which it ran", "0"),
            Asked("solids", "Pulls in which the cord went solid", "1"),
            Asked("pops", "It popped through the carburettor", "yes or no"),
            Asked("unsteady", "When it ran, it ran unsteadily", "yes or no"),
            Asked("key", "The key is", "not looked at, whole, bruised, sheared"),
            Asked("struck", "The blade hit something", "yes or no"),
            Asked("blade", "The blade is", "tight or loose"),
            Asked("release", "The compression release", "works or dead"),
            Asked("ignition", "What times the spark", "module or points"),
        ),
        needs=("engine", "jerks", "of"),
        taken=nothing,
        answer=cord_answer,
        instead=dict.fromkeys(("starts", "pops", "solids", "unsteady"), ("jerks",)),
    ),
    TIMING: Room(
        key=TIMING,
        words="spark timing",
        title="Where the spark falls",
        lead="A flywheel that slipped on its taper: where both sparks of a cycle fall, and what to expect.",
        fields=(
            ENGINE,
            *SLIPPED,
        ),
        needs=("engine", "slip"),
        taken=nothing,
        answer=timing_answer,
        instead={"arc": ("slip",), "key_offset": ("slip",)},
    ),
    LEAK_DOWN: Room(
        key=LEAK_DOWN,
        words="leak-down",
        title="What a leak-down reading means",
        lead="The area of all leaks from a reading, and the reading a leak would give.",
        fields=(
            Asked("reading", "Reading behind the orifice", "70 psi"),
            Asked("leak", "Or a leak, to see what it reads", "0.4 mm²"),
            Asked("supply", "Supply before the orifice", "80 psi"),
            Asked("orifice", "Diameter of the orifice", "0.040 in"),
            HEIGHT,
        ),
        needs=("reading",),
        taken=lambda _: {"supply": USUAL_SUPPLY, "orifice": USUAL_ORIFICE},
        answer=leak_down_answer,
        instead={"leak": ("reading",)},
    ),
    COMPRESSION: Room(
        key=COMPRESSION,
        words="compression",
        title="What a compression gauge should read",
        lead="While the cord is pulled, without a compression release and with one: a first guess.",
        fields=(
            ENGINE,
            HEIGHT,
            Asked("hose", "Hose, when its valve is at the gauge", "4 cm³"),
            Asked("compression", "Compression ratio, if known", "8.5"),
            Asked("leak", "Leaks, from leak-down", "0.4 mm²"),
            Asked("turning", "It is turned at", "400 rpm"),
        ),
        needs=("engine", "height"),
        taken=nothing,
        answer=compression_answer,
    ),
    JET: Room(
        key=JET,
        words="main jet",
        title="The jet for thinner or warmer air",
        lead="How much richer the old jet runs, and which one gives the old mixture.",
        fields=(
            HEIGHT,
            Asked("jet", "The jet that was right", "0.70 mm"),
            Asked("temperature", "Temperature of the air", "30 °C"),
            Asked("from_height", "Height where it was right", "0 m"),
            Asked("from_temperature", "Temperature there", "15 °C"),
        ),
        needs=("height", "jet"),
        taken=lambda _: {"from_height": "0 m"},
        answer=jet_answer,
    ),
    GOVERNOR: Room(
        key=GOVERNOR,
        words="governor",
        title="What a governor does to the speed",
        lead="How far the speed falls under load, where it must stand without, and what a swing means.",
        fields=(
            Asked("no_load", "Speed without load", "3600 rpm"),
            Asked("loaded", "Speed with full load", "3400 rpm"),
            Asked("droop", "Or the droop, to get the speed without load", "5 %"),
            Asked("of", "The droop is of which speed", "rated or no-load"),
            Asked("swings", "With nothing to do it is", "steady, evenly, calms with choke, sticks"),
            Asked("swing_low", "Lowest speed while it swings", "2900 rpm"),
            Asked("swing_high", "Highest speed while it swings", "3500 rpm"),
            Asked("blade", "Blade tip to tip, when it sits on the crank", "530 mm"),
            Asked("weights", "Governor: its weights weigh", "20 g"),
            Asked("circle", "They turn that far from the middle", "20 mm"),
            Asked("turning", "The governor turns at", "2900 rpm"),
            Asked("spring_pull", "Pull of its spring, at the sleeve", "5 N"),
            Asked("stretch", "That stretches it by", "2.5 mm"),
            Asked("lever", "Weights move out for each mm of the sleeve", "0.5"),
            Asked("travel", "Way of the sleeve, stop to stop", "2 mm"),
            Asked("sticks", "Push that moves a sticky one, standing still", "1 N"),
        ),
        needs=("no_load", "loaded"),
        taken=nothing,
        answer=governor_answer,
        instead={"droop": ("no_load",)},
    ),
    SPARK: Room(
        key=SPARK,
        words="spark voltage",
        title="What voltage a spark needs",
        lead="In open air and in the cylinder, from which speed it is there, and what a tester proves.",
        fields=(
            ENGINE,
            Asked("gap", "Gap of the plug", "0.75 mm"),
            Asked("tester", "Gap of the tester", "5 mm"),
            Asked("turning", "It is turned at", "400 rpm"),
            *SLIPPED,
        ),
        needs=("engine", "gap"),
        taken=nothing,
        answer=spark_answer,
    ),
}
