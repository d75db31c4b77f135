"""Checks of the cells of the history file as they are read: SQLite stores any value anywhere."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import MAXYEAR, UTC, date, datetime, timedelta, timezone
from enum import StrEnum
from typing import Any, TypeVar

from drills.checks import Checks, one_line, show

MOST = 10**9
"""Largest count that a history may hold: a repetition a second for thirty years."""
LARGEST = 2**63 - 1
"""Largest whole number that a cell of SQLite can hold."""
SHOWN = 43
"""Largest length at which an error shows the value that was found, in characters."""
DAY = 24 * 60
"""Length of a day, in minutes: no place is that far from UTC."""
Word = TypeVar("Word", bound=StrEnum)


class CellError(ValueError):
    """A cell of the history has a value that it cannot have; one line: where, expected, found."""


def _refusal(where: str, expected: str, found: str) -> CellError:
    return CellError(one_line(where, expected, found))


_CHECKS = Checks(_refusal)


@dataclass(frozen=True, slots=True)
class Row:
    """Row of the history file, whose cells are checked as they are read."""

    place: str
    """Name of the row in error messages."""

    def whole(self, column: str, value: object, least: int, most: int = MOST) -> int:
        """Whole number in a cell, from `least` to `most`. Raises CellError."""
        return _CHECKS.whole(self._where(column), value, least, most)

    def truth(self, column: str, value: object) -> bool:
        """Whether a cell holds 1, where it must hold 0 or 1. Raises CellError."""
        return self.whole(column, value, 0, 1) == 1

    def number(self, column: str, value: object) -> float | None:
        """Number in a cell; None for NULL. Raises CellError."""
        if value is None or isinstance(value, float):
            return value
        raise self.refusal(column, "a number or nothing", value)

    def amount(self, column: str, value: object) -> float:
        """Number in a cell that must not be NULL. Raises CellError."""
        if isinstance(value, float):
            return value
        raise self.refusal(column, "a number", value)

    def length(self, column: str, value: object, most: float) -> float:
        """Number in a cell, over 0 and at most `most`. Raises CellError."""
        if isinstance(value, float) and 0 < value <= most:
            return value
        raise self.refusal(column, f"a number over 0 and up to {most:g}", value)

    def text(self, column: str, value: object) -> str:
        """Text in a cell. Raises CellError."""
        return _CHECKS.text(self._where(column), value)

    def word(self, column: str, value: object, among: type[Word]) -> Word:
        """Word in a cell, which must be one of an enumeration. Raises CellError."""
        try:
            return among(self.text(column, value))
        except ValueError as error:
            known = ", ".join(f"'{one}'" for one in among)
            raise self.refusal(column, f"one of {known}", value) from error

    def marks(self, column: str, value: object, most: int) -> tuple[bool, ...]:
        """Outcomes of repetitions in a cell, at most `most`: true for clean. Raises CellError."""
        marks = self.text(column, value)
        if len(marks) > most or not set(marks) <= {"0", "1"}:
            raise self.refusal(column, f"at most {most} of 0 and 1", marks)
        return tuple(mark == "1" for mark in marks)

    def bytes(self, column: str, value: object) -> bytes:
        """Bytes in a cell. Raises CellError."""
        if isinstance(value, bytes):
            return value
        raise self.refusal(column, "bytes", value)

    def day(self, column: str, value: object) -> date:
        """Date in a cell, in ISO form. Raises CellError."""
        try:
            return date.fromisoformat(self.text(column, value))
        except ValueError as error:
            raise self.refusal(column, "a date", value) from error

    def local_day(self, at: object, offset: object) -> date:
        """Local day of two cells: a time in UTC, and its offset in min. Raises CellError."""
        return self.moment("at_utc", at, offset).date()

    def moment(self, column: str, at: object, offset: object) -> datetime:
        """Local time of two cells: a time in UTC, and its offset in min. Raises CellError."""
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
        """Plain data from the JSON in a cell. Raises CellError."""
        try:
            return json.loads(self.text(column, value))
        except (ValueError, RecursionError) as error:
            raise self.refusal(column, "JSON", value) from error

    def refusal(self, column: str, expected: str, found: object) -> CellError:
        """Error for a cell whose value is not what is expected."""
        return _refusal(self._where(column), expected, show(found, SHOWN))

    def _where(self, column: str) -> str:
        return f"{self.place}: {column}"


def utc_cells(at: datetime) -> tuple[str, int]:
    """Time as two cells: ISO 8601 in UTC to the millisecond, and minutes east of UTC."""
    offset = at.utcoffset() or timedelta(0)
    return at.astimezone(UTC).isoformat(timespec="milliseconds"), round(offset.total_seconds() / 60)


def marked(outcomes: Iterable[bool]) -> str:
    """Outcomes of repetitions as one cell of 0 and 1: 1 for clean, the newest last."""
    return "".join("1" if clean else "0" for clean in outcomes)
