"""Time that a session has spent on each purpose, and the repetitions that count as practice."""

from __future__ import annotations

from engine.practice.results import AWAY, Purpose, Session

PRACTICE = (Purpose.LEARN, Purpose.MIX, Purpose.OWN, Purpose.FAULT)
"""Purposes that make up the learning time of a session, after checks and steadiness."""


def spent(session: Session, *whys: Purpose) -> float:
    """Seconds of a session spent on repetitions with one of these purposes."""
    return sum(min(result.took or 0.0, AWAY) for result in session.results if result.why in whys)
