"""What is read back from the file, checked: SQLite keeps whatever it is given, in any column."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import MAXYEAR, date, datetime, timedelta, timezone
from enum import StrEnum
from typing import Any, TypeVar

MOST = 10**9
"""Largest count that a history may hold: a repetition a second for thirty years."""
SHOWN = 40
"""characters of a found value that are shown."""
DAY = 24 * 60
"""min, a day: no place is that far from UTC."""
Word = TypeVar("Word", bound=StrEnum)


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

    def amount(self, column: str, value: object) -> float:
        """A number that is there. Raises CellError."""
        if isinstance(value, float):
            return value
        raise self.refusal(column, "a number", value)

    def length(self, column: str, value: object, most: float) -> float:
        """A number over 0 that is at most so large. Raises CellError."""
        if isinstance(value, float) and 0 < value <= most:
            return value
        raise self.refusal(column, f"a number over 0 and up to {most:g}", value)

    def text(self, column: str, value: object) -> str:
        """Text. Raises CellError."""
        if isinstance(value, str):
            return value
        raise self.refusal(column, "text", value)

    def word(self, column: str, value: object, among: type[Word]) -> Word:
        """One of some words. Raises CellError."""
        try:
            return among(self.text(column, value))
        except ValueError as error:
            known = ", ".join(f"'{one}'" for one in among)
            raise self.refusal(column, f"one of {known}", value) from error

    def marks(self, column: str, value: object, most: int) -> tuple[bool, ...]:
        """At most so many outcomes. Raises CellError."""
        marks = self.text(column, value)
        if len(marks) > most or not set(marks) <= {"0", "1"}:
            raise self.refusal(column, f"at most {most} of 0 and 1", marks)
        return tuple(mark == "1" for mark in marks)

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
        return self.moment("at_utc", at, offset).date()

    def moment(self, column: str, at: object, offset: object) -> datetime:
        """A moment in UTC at an offset (min), as it was there. Raises CellError."""
        minutes = timedelta(minutes=self.whole("offset", offset, 1 - DAY, DAY - 1))
        try:
            local = datetime.fromisoformat(self.text(column, at)) + minutes
        except (ValueError, OverflowError) as error:
            raise self.refusal(column, "a date and time", at) from error
        # No day can be told that comes after those of the last year.
        if local.year == MAXYEAR:
            raise self.refusal(column, "a date and time", at)
        return local.replace(tzinfo=timezone(minutes))

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


def marked(outcomes: Iterable[bool]) -> str:
    """Outcomes as they are kept: 1 for clean, the newest last."""
    return "".join("1" if clean else "0" for clean in outcomes)
