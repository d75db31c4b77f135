"""Reader of pedal recordings: text in columns, as whatever recorded them wrote it.

`reader.py` puts the steps together: `header.py` finds the header and `units.py` its units,
`cells.py` makes numbers of the cells, `times.py` and `pedals.py` make seconds and percent of these.
Whatever a recording needs beside a plain table is told in `Recording.notes`, a line each.
"""

from __future__ import annotations

from drills.recording.form import COLUMNS, Format, Recording, RecordingError
from drills.recording.pedals import FARTHEST_OUT
from drills.recording.reader import LONG_GAP, read_recording

__all__ = [
    "COLUMNS",
    "FARTHEST_OUT",
    "LONG_GAP",
    "Format",
    "Recording",
    "RecordingError",
    "read_recording",
]
