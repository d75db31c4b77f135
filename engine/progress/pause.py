"""Words for when a value is of: now, or up to the last day of practice after a pause."""

from __future__ import annotations

from datetime import date, timedelta

from engine.date_words import dated_words

PAUSE = timedelta(days=14)
"""Time without practice after which a value is no longer told as that of now: nothing has shown
since then that it is still there."""


def is_paused(newest: date, today: date) -> bool:
    """Whether practice paused after its newest day."""
    return today - newest >= PAUSE


def when_words(newest: date, today: date) -> str:
    """Words such as "now" or "up to 9 May", by the newest day of practice."""
    return f"up to {dated_words(newest, today)}" if is_paused(newest, today) else "now"
