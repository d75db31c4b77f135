"""The kinds of drill, by the name level files call them; one file a kind."""

from __future__ import annotations

from drills.kinds.base import Kind
from drills.kinds.blip import BLIP
from drills.kinds.clutch import CLUTCH
from drills.kinds.hold import HOLD
from drills.kinds.mixed import MIXED
from drills.kinds.run import RUN
from drills.kinds.squeeze import SQUEEZE
from drills.kinds.trail import TRAIL

KINDS: dict[str, Kind] = {
    kind.name: kind for kind in (HOLD, SQUEEZE, BLIP, RUN, TRAIL, CLUTCH, MIXED)
}
