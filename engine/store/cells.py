"""What is read back from the file, checked: SQLite keeps whatever it is given, in any column."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

MOST = 10**9
"""Largest count that a history may hold: a repetition a second for thirty years."""
SHOWN = 40
"""characters of a found value that are shown."""


class CellError(ValueError):
    """A value that cannot be what it is kept as: the place, expected, found."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the file, to check its values by."""

    place: str
    """What the person is told it is."""

    def whole(self, column: str, value: object, least: int, most: int = MOST) -> int:
        """A whole number from `least` to `most`. Raises CellError."""
        if isinstance(value, int) and least <= value <= most:
            return value
        raise self.refusal(column, f"a whole number from {least} to {most}", value)

    def truth(self, column: str, value: object) -> bool:
        """0 or 1. Raises CellError."""
        return self.whole(column, value, 0, 1) == 1

    def number(self, column: str, value: object) -> float | None:
        """A number; None for NULL. Raises CellError."""
        if value is None or isinstance(value, float):
            return value
        raise self.refusal(column, "a number or nothing", value)

    def text(self, column: str, value: object) -> str:
        """Text. Raises CellError."""
        if isinstance(value, str):
            return value
        raise self.refusal(column, "text", value)

    def bytes(self, column: str, value: object) -> bytes:
        """Bytes. Raises CellError."""
        if isinstance(value, bytes):
            return value
        raise self.refusal(column, "bytes", value)

    def day(self, column: str, value: object) -> date:
        """An ISO date. Raises CellError."""
        try:
            return date.fromisoformat(self.text(column, value))
        except ValueError as error:
            raise self.refusal(column, "a date", value) from error

    def local_day(self, at: object, offset: object) -> date:
        """The local day of a moment in UTC and an offset (min). Raises CellError."""
        minutes = self.whole("offset", offset, -24 * 60, 24 * 60)
        try:
            utc = datetime.fromisoformat(self.text("at_utc", at))
            return (utc + timedelta(minutes=minutes)).date()
        except (ValueError, OverflowError) as error:
            raise self.refusal("at_utc", "a date and time", at) from error

    def json(self, column: str, value: object) -> Any:
        """Plain data from JSON. Raises CellError."""
        try:
            return json.loads(self.text(column, value))
        except (ValueError, RecursionError) as error:
            raise self.refusal(column, "JSON", value) from error

    def refusal(self, column: str, expected: str, found: object) -> CellError:
        """What to raise for a value that is not what is expected."""
        shown = repr(found)
        if len(shown) > SHOWN:
            shown = f"{shown[:SHOWN]}..."
        return CellError(f"{self.place}: {column}: expected {expected}, found {shown}")
