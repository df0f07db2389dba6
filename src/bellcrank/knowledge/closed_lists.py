"""The closed lists of words that tables may hold."""

ALWAYS, STRIKE = "always", "strike"
TOUCHED = ("blade", "tool", "engine", "fuel", "governor", "flywheel", "controls")  # what a repair or a step may touch
TRIGGERS = (ALWAYS, STRIKE, *TOUCHED)  # what brings an item of the release list about
YES_NO_NONE = "yes-no-none"  # of several machines of one kind some have no such thing: a blower no chain brake
ANSWERS = ("yes-no", YES_NO_NONE, "stop-time", "tip-speed", "blade-bolt-torque", "plug-lead-last")  # of an item
# what may be worked out for a step beside torques
NUMBERS = (
    "strip",
    "taper",
    "key",
    "pull-off",
    "strike",
    "timing",
    "leak-down",
    "compression",
    "jet",
    "governor",
    "spark",
    "cord",
)
