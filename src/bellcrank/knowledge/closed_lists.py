"""The closed lists of words that tables may hold."""

ALWAYS, STRIKE = "always", "strike"
TOUCHED = ("blade", "engine", "fuel", "governor", "flywheel")  # what a repair or a step may touch
TRIGGERS = (ALWAYS, STRIKE, *TOUCHED)  # what brings an item of the release list about
ANSWERS = ("yes-no", "stop-time", "tip-speed", "blade-bolt-torque", "plug-lead-last")  # how an item is answered
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
