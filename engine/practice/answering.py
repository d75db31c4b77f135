"""`answering`: the levels whose practice answers a fault."""

from __future__ import annotations

from collections.abc import Sequence

from drills.fault import Fault
from drills.level import Level


def answering(fault: Fault, levels: Sequence[Level]) -> list[Level]:
    """Those of the levels that answer a fault, in the order given.

    A level file says which faults its level answers, by what a coach would send a driver to. Where
    a level asks little of the brake, a driver can attend to what comes first: the early roll, the
    push, the size and length of the blip. Where it sets how far the brake may rest from what was
    held, or asks for a squeeze straight to a weight, it answers a light or heavy finish and an
    overshoot. A hold in the dark answers a lost target; tight limits on the dip answer a dip. A
    level with a second task answers none: it takes the attention that a fault needs.
    """
    return [level for level in levels if fault in level.answers]
