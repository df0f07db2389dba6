"""Joints to test with; the strengths are printed ones (ISO 898-1, NADCA A380.0, VDI 2230 limit pressures)."""

from bellcrank.fastening.joint import Joint
from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange
from bellcrank.fastening.threads import parse_thread
from bellcrank.sources import Basis

CLASS_8_8 = StrengthClass(
    "8.8",
    "class 8.8",
    (
        StrengthRange(0.0016, 0.016, 800e6, 640e6, 580e6, Basis.TABLE, "iso-898-1"),
        StrengthRange(0.016001, 0.039, 830e6, 660e6, 600e6, Basis.TABLE, "iso-898-1"),
    ),
)
CAST = Material("cast-aluminium", "die-cast aluminium", 324e6, 190e6, 290e6, 0.7, Basis.TABLE, "die-cast-aluminium")
STEEL = Material("mild-steel", "mild steel", 360e6, 216e6, 490e6, 0.7, Basis.TABLE, "mild-steel")
PLASTIC = Material("plastic", "plastic", None, None, None, 0.7, Basis.GUESS, "plastic-boss")


def joint(thread="M6", **changes):
    given = {"strength": CLASS_8_8, "into": CAST, "under_head": CAST, "engaged": 0.012, "friction": 0.12} | changes
    return Joint(thread=parse_thread(thread), **given)
