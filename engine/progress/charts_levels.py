"""Chart of all levels, one row per stage: which are passed, retained, well retained."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from engine.kit import theme
from engine.kit.charts import LETTER, Area, Paper, fitted
from engine.ladder.climb_picture import MOST_MARKS, PITCH, mark
from engine.ladder.ladder import LadderStage, State
from engine.progress.progress import Progress

ROW = 62
"""Usual height of the row of a stage, in canvas units."""
SMALLEST_ROW = 50
"""Smallest height of the row of a stage, in canvas units; if the rows would be smaller, the last
stages share one."""
MARKS_LEFT = 480
"""Left edge of the marks of the levels in a row, in canvas units from that of the chart."""
LEGEND = (
    (State.WELL_RETAINED, "kept well"),
    (State.RETAINED, "kept"),
    (State.PASSED, "passed"),
    (State.PLACED, "placed"),
    (State.OPEN, "open"),
    (State.CLOSED, "closed"),
)
"""Words of the legend for the marks of levels, by state, the best state first."""
STATES = (
    (State.PASSED, State.RETAINED, State.WELL_RETAINED),
    (State.RETAINED, State.WELL_RETAINED),
    (State.WELL_RETAINED,),
)
"""States of a level that count as passed, those that count as retained, and as well retained."""


def retention_words(stages: Sequence[LadderStage]) -> str:
    """How many levels of these stages are passed, retained, well retained; zeros left out."""
    states = Counter(level.state for stage in stages for level in stage.rungs)
    passed, retained, well = (sum(states[state] for state in group) for group in STATES)
    parts = [f"{passed} of {states.total()} passed"]
    parts += [f"{retained} kept"] if retained else []
    parts += [f"{well} kept well"] if well else []
    return ", ".join(parts)


def levels_height(progress: Progress) -> float:
    """Height of the chart of levels with all rows and its legend, in canvas units."""
    return ROW * (len(progress.stages) + 1)


def levels_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw a row for each stage: its name, a mark for each level, and the counts in words."""
    _legend(paper, area)
    stages = progress.stages
    rows = [(stage.name, [stage]) for stage in stages]
    room = int((area.height - ROW) // SMALLEST_ROW)
    if len(rows) > room:
        rest = list(stages[room - 1 :])
        rows = [*rows[: room - 1], (f"{len(rest)} more", rest)]
    height = min(ROW, (area.height - ROW) / max(len(rows), 1))
    for number, (name, in_row) in enumerate(rows):
        top = area.top + ROW + number * height
        paper.line((area.left, top), (area.right, top), theme.BAND, 2)
        middle = top + height / 2
        paper.text(
            fitted(paper, name, MARKS_LEFT - PITCH / 2), (area.left, middle - LETTER), theme.SMALL
        )
        levels = [level for stage in in_row for level in stage.rungs]
        if len(levels) <= MOST_MARKS:
            for place, level in enumerate(levels):
                mark(paper, (area.left + MARKS_LEFT + (place + 0.5) * PITCH, middle), level.state)
        corner = (area.right, middle - LETTER)
        paper.text(retention_words(in_row), corner, theme.SMALL, theme.QUIET, "right")


def _legend(paper: Paper, area: Area) -> None:
    """Draw the legend above the rows: the mark of each state of a level, with its words."""
    x = area.left
    for state, words in LEGEND:
        mark(paper, (x + PITCH / 2, area.top + 20), state)
        paper.text(words, (x + PITCH + 8, area.top + 4), theme.SMALL, theme.QUIET)
        x += PITCH + 8 + paper.measure(words, theme.SMALL) + 36
