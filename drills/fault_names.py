"""Names of the faults of a blip, as a player reads them in a line."""

from __future__ import annotations

from drills.fault import Fault

_NAMES = {
    Fault.EARLY_ROLL: "early roll",
    Fault.BRACING: "bracing",
    Fault.DIP: "dip",
    Fault.OVERSHOOT: "overshoot",
    Fault.LIGHT: "light finish",
    Fault.HEAVY: "heavy finish",
    Fault.BIG: "big blip",
    Fault.SLOW: "slow blip",
    Fault.LOST: "lost target",
}


def fault_name(fault: Fault) -> str:
    """Name of a fault in a line, in lower case, such as "early roll"."""
    return _NAMES[fault]
