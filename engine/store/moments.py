"""A moment as the file keeps it: UTC to the millisecond, and how far from it the place was."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta


def cells_of(at: datetime) -> tuple[str, int]:
    """A moment with its offset as ISO 8601 in UTC and minutes east of it."""
    offset = at.utcoffset() or timedelta(0)
    return at.astimezone(UTC).isoformat(timespec="milliseconds"), round(offset.total_seconds() / 60)
