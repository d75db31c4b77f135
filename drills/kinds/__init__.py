"""The kinds of drill, by the name level files call them; one file a kind."""

from __future__ import annotations

from drills.kinds.base import Kind
from drills.kinds.blip import BLIP
from drills.kinds.hold import HOLD

KINDS: dict[str, Kind] = {kind.name: kind for kind in (HOLD, BLIP)}
