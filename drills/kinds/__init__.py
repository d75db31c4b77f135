"""The kinds of drill by the names that level files give them; one file for each kind."""

from __future__ import annotations

from drills.kinds.blip import BlipDrill
from drills.kinds.clutch import ClutchDrill
from drills.kinds.counting import CountingDrill
from drills.kinds.hold import HoldDrill
from drills.kinds.mixed import MixedDrill
from drills.kinds.run import RunDrill
from drills.kinds.squeeze import SqueezeDrill
from drills.kinds.trail import TrailDrill
from drills.kinds.zone import ZoneDrill
from drills.level import Kind

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        HoldDrill(),
        SqueezeDrill(),
        BlipDrill(),
        CountingDrill(),
        RunDrill(),
        TrailDrill(),
        ClutchDrill(),
        ZoneDrill(),
        MixedDrill(),
    )
}
"""Each kind of drill by its name; the rest of the program knows nothing else of kinds."""
