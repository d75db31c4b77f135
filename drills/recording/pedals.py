"""Percent of the pedals of a recording: as asked, as its units say, or as its values show.

A given value of the full pedal wins; where it is given for pedals in a strange unit, such as bar,
those beside them that are in % or from 0 to 1 stay as they are. Else a column is in the unit that
the header, the row of units or its percent signs tell. Pedals without any unit, of a recording that
tells none in %, are taken as 0 to 1 if the highest value of all of them is from `LEAST_SHARE` to
`MOST_SHARE`, else as %.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from drills.recording.cells import Columns
from drills.recording.form import Format, refuse
from drills.recording.header import Header
from drills.recording.units import is_time

FARTHEST_OUT = 50.0
"""How far outside 0 to 100 % a recorded pedal may lie at all, in points: on the road a load cell is
pressed harder than in set-up, but hardly by half (common practice)."""
MOST_SHARE = 1.05
"""Highest value of pedals from 0 to 1: a little more than full, as after a press beyond set-up."""
LEAST_SHARE = 0.2
"""Least highest value of pedals from 0 to 1: below it nothing was pressed, and what was recorded
may as well be the noise of pedals from 0 to 100."""


def percent_of(
    columns: Columns, header: Header, form: Format
) -> tuple[Mapping[str, NDArray[np.float64]], Sequence[str]]:
    """Percent of each pedal in each row, shape (n,), and how they were scaled where that is new.

    Raises RecordingError.
    """
    pedals = {name: values for name, values in columns.values.items() if not is_time(name)}
    said = {name: header.units[name] for name in pedals if name in header.units}
    said |= dict.fromkeys(columns.percent, 1.0)
    fulls, notes = _fulls(pedals, said, header.strange, form)
    percent = {}
    with np.errstate(over="ignore"):
        for name, values in pedals.items():
            full = fulls[name]
            percent[name] = 100 * values / full
            outside = (percent[name] < -FARTHEST_OUT) | (percent[name] > 100 + FARTHEST_OUT)
            expected = f"0 to {full:g} (or another --full, now {full:g})"
            refuse(outside, columns.rows, name, expected, values)
    return percent, notes


def _fulls(
    pedals: Mapping[str, NDArray[np.float64]],
    said: Mapping[str, float],
    strange: frozenset[str],
    form: Format,
) -> tuple[Mapping[str, float], Sequence[str]]:
    """Value of each pedal when it is pressed fully, and what to say of that.

    `said` is the size of the units that are known, in %; `strange` has the pedals in other units.
    """
    known = {name: 100 / size for name, size in said.items()}
    silent = [name for name in pedals if name not in said]
    if form.full is not None and strange:
        note = f"{', '.join(silent)}: full at {form.full:g} as asked; the rest as their units say"
        return {**dict.fromkeys(silent, form.full), **known}, [note] * bool(known)
    if form.full is not None:
        other = ", ".join(name for name, full in known.items() if full != form.full)
        note = f"{other}: units of the recording passed over, full at {form.full:g} as asked"
        return dict.fromkeys(pedals, form.full), [note] * bool(other)
    highest = max((float(pedals[name].max()) for name in silent), default=0.0)
    if 100.0 in known.values() or not LEAST_SHARE <= highest <= MOST_SHARE:
        return {**dict.fromkeys(silent, 100.0), **known}, []
    note = f"{', '.join(silent)}: 0 to 1, scaled to 0 to 100 %; --full 100 leaves it"
    return {**dict.fromkeys(silent, 1.0), **known}, [note]
