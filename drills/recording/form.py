"""What is known of a recording before it is read, and what there is once it was read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drills.refusal import Refusal
from drills.trace import Trace

COLUMNS = ("time", "brake", "throttle", "clutch")
"""Columns that are read from a recording."""
NEEDED = ("time", "brake", "throttle")
"""Columns that a recording must have; one with a given rate needs no time."""


class RecordingError(Refusal):
    """A recording cannot be read; the text is one line, which does not name the file."""


@dataclass(frozen=True)
class Format:
    """What the reader is told of a recording; it wins over what the recording says of itself."""

    names: Mapping[str, str] = field(default_factory=dict)
    """Header of each column in the file, by our name of the column, where the two differ."""
    unit: float | None = None
    """Length of one unit of the time column, in s; None: as its header says, else 1 s."""
    full: float | None = None
    """Value in the recording of a fully pressed pedal; None: as the recording shows, 100 or 1."""
    rate: float | None = None
    """Rows a second of a recording whose time column is not read; None: it is read."""

    @property
    def columns(self) -> tuple[str, ...]:
        """Columns that are read if they are there."""
        return COLUMNS if self.rate is None else COLUMNS[1:]

    @property
    def needed(self) -> tuple[str, ...]:
        """Columns without which the recording is refused."""
        return tuple(name for name in self.columns if name in NEEDED or name in self.names)


@dataclass(frozen=True)
class Recording:
    """A recording that was read, how it was read, and reasons to trust it less."""

    trace: Trace
    """Samples of the recording, on the file's own time axis; laps that each begin at 0 are
    joined."""
    warnings: tuple[str, ...]
    """Reasons to trust the measures of the recording less, a line each."""
    notes: tuple[str, ...] = ()
    """How the recording was read where it is not a plain table under a header, a line each."""


def refuse(
    wrong: NDArray[np.bool_],
    rows: NDArray[np.int64],
    name: str,
    expected: str,
    values: NDArray[np.float64],
) -> None:
    """Refuse a recording with wrong rows, naming the first. Raises RecordingError."""
    if wrong.any():
        first = int(np.argmax(wrong))
        raise RecordingError(
            f"row {rows[first]}: {name}: expected {expected}, found {values[first]:g}"
        )
