"""Rig that is played with now, for queries that compare repetitions with each other."""

from __future__ import annotations

USED = "rig"
"""Key of the setting for the number of the rig that was played with last."""
SAME_RIG = f"(rig IS NULL OR rig = (SELECT value FROM setting WHERE key = '{USED}'))"
"""SQL condition on a repetition or a change: it is of that rig, or it is not known of which.

Two rigs have two brakes, so the points of one say nothing beside those of the other."""
