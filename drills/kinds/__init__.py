"""The drill kinds, by the name level files call them; one file a kind."""

from __future__ import annotations

from drills.kinds.base import Kind
from drills.kinds.blip import BLIP
from drills.kinds.hold import HOLD
from drills.level import KindNames

KINDS: dict[str, Kind] = {kind.name: kind for kind in (HOLD, BLIP)}

NAMES = {kind.name: KindNames(kind.limited, kind.windowed) for kind in KINDS.values()}
"""What a level file may say, by kind."""
