"""Sentences at the end of a set."""

from __future__ import annotations

from drills.level import Level
from engine.drill.tally import Tally
from engine.practice.retention import Retention


def set_words(tally: Tally, level: Level) -> str:
    """Sentences at the end of a set of `level`: whether it is passed, and other results."""
    rule = level.rule
    wanted = f"{rule.clean} clean of the last {rule.of}"
    if tally.is_tryout and tally.passed:
        words = "With feet on pedals that would pass."
    elif tally.is_tryout:
        words = f"With feet on pedals {wanted} would pass."
    elif tally.passed_now:
        words = "Passed. Whether it is learned shows on another day."
    elif tally.shown is not None:
        words = retention_words(tally.shown)
    elif tally.passed:
        words = f"Passed before; {tally.latest_clean} of the last {rule.of} clean now."
    else:
        words = f"Not passed yet: {wanted} pass it, you have {tally.latest_clean}."
    if tally.is_beaten:
        words += " More than ever before."
    if tally.guessed_off is not None and level.guess:
        words += f" Your guesses are {tally.guessed_off:.1f} points off on average"
        first = tally.guessed_off_first
        words += "." if first is None else f", {first:.1f} at first."
    if tally.void:
        some = "One repetition" if tally.void == 1 else f"{tally.void} repetitions"
        words += f" {some} did not count."
    if tally.tires:
        words += " Your scores have fallen over the last twelve. Tired?"
    return words + (" The set was given up." if tally.given_up else "")


def retention_words(retention: Retention) -> str:
    """Sentence about a retention check: whether the level is retained, and when it is due again."""
    if retention.missed:
        return "Not shown today: it stays passed, and comes again tomorrow."
    days = 0
    if retention.due is not None and retention.day is not None:
        days = (retention.due - retention.day).days
    word = "Kept well" if retention.is_well_retained else "Kept"
    return f"{word}: it was there on another day, and comes again in {days} days."
