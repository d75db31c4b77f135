"""Chords that follow an asked line: where the line bends, the chord of a blip bends as it does.

Such a chord is straight in the brake's distance from the line. Beside a straight line it is the
chord of a recording.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from drills.measures.blip import Pulse
from drills.measures.chord import ChordDisturbance, told_ends
from drills.measures.early import straight
from drills.trace import Values


def bend_of(line: Values, first: int, last: int) -> Values:
    """How far a line lies over the straight line through two of its points, in points, shape (n,).

    `line` is in % at every grid point, shape (n,); `first` and `last` are grid indices.
    """
    ends = (first, float(line[first])), (last, float(line[last]))
    return line - straight(np.arange(line.size, dtype=np.float64), *ends)


def chord_along(
    line: Callable[[Values], Values], pulse: Pulse, done: ChordDisturbance, seconds: Values
) -> Values:
    """Chord along a line that a blip's dip is told against, in % at times in s as of the trace.

    `line` gives the line in % at such times; `done` must have been measured against it.
    """
    (first, held), (last, after) = told_ends(pulse, done)
    begins, ends = (float(value) for value in line(np.array([first, last])))
    return line(seconds) + straight(seconds, (first, held - begins), (last, after - ends))
