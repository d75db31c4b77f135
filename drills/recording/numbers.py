"""Numbers in the cells of a recording: decimal commas, percent signs, clock times, empty cells."""

from __future__ import annotations

import math
import re
from array import array

from drills.checks import show
from drills.refusal import Refusal

CLOCK_TIME = re.compile(r"(?:(\d+):)?(\d+):(\d+(?:[.,]\d*)?)")
"""Pattern of a time of day or of a lap: hours if there are any, minutes, seconds."""
BEGUN = re.compile(r"[-+]?(\d*([.,]\d*)?e[-+]?|[.,]?)|(\d+:){1,2}", re.IGNORECASE)
"""Pattern of text that begins a number or time but is none yet, such as "-", "1e" or "0:01:"."""


class CellError(Refusal):
    """A cell that is no number. The text is what was expected and found."""


class PedalCells:
    """Column of a pedal: in an empty cell, the value of the row before it holds."""

    def __init__(self) -> None:
        self.values = array("d")
        """Value of each row; NaN before the first cell that is not empty."""
        self.empty = 0
        """Number of empty cells."""
        self.is_percent = False
        """Whether a cell has a percent sign."""

    def take(self, cell: str) -> None:
        """Append the value of a row. Raises CellError."""
        text = cell.strip()
        if not text:
            self.empty += 1
            self.values.append(self.values[-1] if self.values else math.nan)
        elif text.endswith("%"):
            self.values.append(number(text[:-1], cell))
            self.is_percent = True
        else:
            self.values.append(number(text, cell))


class TimeCells:
    """Column of times: numbers in the column's unit, or clock times such as 0:01:02.5."""

    def __init__(self, unit: float) -> None:
        """`unit` is the length of one unit of the column, in s."""
        self.values = array("d")
        """Time of each row, in units of the column."""
        self.clock = ""
        """The first clock time of the column, as it is written; empty if there is none."""
        self._unit = unit

    def take(self, cell: str) -> None:
        """Append the time of a row. Raises CellError."""
        if ":" not in cell:
            self.values.append(number(cell, cell))
            return
        self.values.append(_clock_seconds(cell.strip()) / self._unit)
        self.clock = self.clock or cell.strip()


def number(text: str, cell: str) -> float:
    """The finite number in a text, which is the cell or part of it; no underscores as in Python.

    Raises CellError.
    """
    try:
        value = float(text)
    except ValueError:
        value = _with_comma(text, cell)
    if not math.isfinite(value):
        raise CellError(f"expected a finite number, found {value:g}")
    if "_" in text:
        raise CellError(f"expected a number, found {_shown(cell)}")
    return value


def _with_comma(text: str, cell: str) -> float:
    """The number in a text with a decimal comma. Raises CellError."""
    try:
        return float(text.replace(",", "."))
    except ValueError as error:
        raise CellError(f"expected a number, found {_shown(cell)}") from error


def _clock_seconds(text: str) -> float:
    """Seconds of a clock time. Raises CellError."""
    match = CLOCK_TIME.fullmatch(text)
    if match is not None:
        hours, minutes, seconds = (
            float((part or "0").replace(",", ".")) for part in match.groups()
        )
        most = 60.0 if match[1] else math.inf
        if seconds < 60 and minutes < most and math.isfinite(3600 * hours + 60 * minutes):
            return 3600 * hours + 60 * minutes + seconds
    raise CellError(f"expected a number or a time such as 0:01:02.5, found {_shown(text)}")


def _shown(cell: str) -> str:
    return show(cell.strip()) if cell.strip() else "nothing"
