"""The two weeks whose blips are laid on top of each other: the first, and this one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

WEEK = timedelta(days=7)
"""From one week to the next."""
REST = timedelta(days=6)
"""From the first day of a week to its last."""


@dataclass(frozen=True)
class Span:
    """A week that need not begin on a Monday."""

    first: date
    """Its first day."""
    last: date
    """Its last day."""


def two_weeks(days: Sequence[date], today: date) -> tuple[Span, ...]:
    """The first week of practice and this one, from the practised days in order.

    This one is the last seven days up to today or, where nothing was done in them, up to the
    newest practised day. It is missing where it would overlap the first: until 13 days after the
    first day, and until there is practice after the first week. Both are missing where nothing
    was done yet.
    """
    if not days:
        return ()
    first = Span(days[0], days[0] + REST)
    this = Span(today - REST, today)
    if days[-1] < this.first or days[-1] > today:
        this = Span(days[-1] - REST, days[-1])
    return (first, this) if this.first > first.last else (first,)
