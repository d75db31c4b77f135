"""Limits on blips that are held against their chords, as pictures of a way down draw them."""

from __future__ import annotations

from collections.abc import Iterable

from drills.deviation import Bound, Span
from drills.digits import plain
from drills.level import Level
from drills.measures.chord import ChordDisturbance


def chord_bounds(level: Level, blips: Iterable[tuple[Span, ChordDisturbance]]) -> list[Bound]:
    """Limits of a level on each blip, over its window; the first of each measure has a label.

    Where the brake left early its curve is drawn against the wide chord, where only the dip is
    judged.
    """
    bounds: list[Bound] = []
    for window, done in blips:
        for name, word, sign in (("dip", "dip", -1), ("surge", "overshoot", 1)):
            limit = level.limits.get(name)
            if limit is not None and not (done.is_early and sign > 0):
                label = f"{word} {plain(limit)} allowed"
                label = "" if any(bound.label == label for bound in bounds) else label
                low, high = (-limit, None) if sign < 0 else (None, limit)
                bounds.append(Bound(label, low, high, window))
    return bounds
