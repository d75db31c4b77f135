"""Words of the screens before a drive is recorded, while it is, and of the list of drives."""

from __future__ import annotations

from engine.road.words import CAUTION

RECORD = "See whether your quiet foot transfers to driving."
"""Lead sentence before a drive is recorded."""
BEFORE = (
    "Your pedals are recorded while you drive any simulator on this computer. "
    "Afterwards its blips are compared with your drills."
)
"""Explanation before a drive is recorded."""
SO_FAR = "Drives so far with these pedals, typical dip"
"""Heading of the list of earlier drives."""
BEFORE_THIS = "Drives before this one, typical dip"
"""Heading of the list of the drives before the one that is shown."""
NO_DRIVES = "No drives with these pedals yet."
"""Text in place of the list of earlier drives if there are none."""
ADVICE = (
    "Drive. This window may be behind another, or small.",
    "The pedals choose nothing here. Nothing is scored before you stop.",
    "It stops after five minutes without a pedal moved.",
    CAUTION,
)
"""Advice during the recording of a drive, one string a line."""
AWAY = "The pedals are unplugged. It goes on when they are back."
"""Text in place of the advice while the pedals are unplugged."""
GONE = "its recording is gone from the folder drives: no curves"
"""Note on a drive whose recording was moved, removed or changed."""
