"""Chart of all levels, one row per stage: which are passed, retained, well retained."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from drills.number_words import counted
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.charts import LETTER, Paper, fitted
from engine.ladder.climb_picture import MOST_MARKS, PITCH
from engine.ladder.ladder import LadderStage, State
from engine.ladder.state_marks import draw_state
from engine.practice.personal_words import personal_words
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress

ROW = 66
"""Usual height of the row of a stage, in canvas units."""
SMALLEST_ROW = 50
"""Smallest height of the row of a stage, in canvas units; if the rows would be smaller, the last
stages share one."""
MARKS_LEFT, MOST_LEFT = 380.0, 640.0
"""Least and largest left edge of the marks in a row, in canvas units from that of the chart."""
LEGEND = (
    (State.WELL_RETAINED, "well retained"),
    (State.RETAINED, "retained"),
    (State.PASSED, "passed"),
    (State.PLACED, "placed"),
    (State.OPEN, "open"),
    (State.CLOSED, "closed"),
)
"""Words of the legend for the marks of levels, by state, the best state first."""
RETAINED = "Retained: passed again, cold, on a later day."
"""Sentence that says what a retained level is."""
WELL = "Well retained: still there after a week and more."
"""Sentence that says what a well retained level is."""
STATES = (
    (State.PASSED, State.RETAINED, State.WELL_RETAINED),
    (State.RETAINED, State.WELL_RETAINED),
    (State.WELL_RETAINED,),
)
"""States of a level that count as passed, those that count as retained, and as well retained."""


def levels_words(progress: Progress) -> PageWords:
    """How many levels are retained, of how many, and what that means."""
    states = Counter(level.state for stage in progress.stages for level in stage.rungs)
    passed, retained, well = (sum(states[state] for state in group) for group in STATES)
    lead = f"{retained} of {counted(states.total(), 'level')} retained"
    well_words = "all" if well == retained else f"{well} of them"
    lead += f", {well_words} well." if well else "."
    figures = (f"{counted(passed, 'level')} passed, the retained ones included.", WELL)
    return PageWords(lead, RETAINED, (*figures, *_limits_words(progress)))


def _limits_words(progress: Progress) -> Iterator[str]:
    """How many retained levels have a personal limit, and the lowest and the highest of them."""
    rungs = [rung for stage in progress.stages for rung in stage.rungs]
    retained = [rung.level for rung in rungs if rung.state in STATES[1]]
    found = [
        (limit.factor, f"{level.title}, {personal_words(limit)}.")
        for level in retained
        if (limit := progress.personal.get(level.id)) is not None and limit.factor is not None
    ]
    if found:
        yield f"Personal limits: {len(found)} of {counted(len(retained), 'retained level')}."
        yield f"Lowest: {min(found)[1]}"
    if len(found) > 1:
        yield f"Highest: {max(found)[1]}"


def retention_words(stages: Sequence[LadderStage]) -> str:
    """How many levels of these stages are passed, retained, well retained; zeros left out."""
    states = Counter(level.state for stage in stages for level in stage.rungs)
    passed, retained, well = (sum(states[state] for state in group) for group in STATES)
    parts = [f"{passed} of {states.total()} passed"]
    parts += [f"{retained} retained"] if retained else []
    parts += [f"{well} of them well"] if well else []
    return ", ".join(parts)


def levels_height(progress: Progress) -> float:
    """Height of the chart of levels with all rows and its legend, in canvas units."""
    return ROW * (len(progress.stages) + 1)


def levels_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw a row for each stage: its name, a mark for each level, and the counts in words."""
    stages = progress.stages
    rows = [(stage.name, [stage]) for stage in stages]
    room = int((area.height - ROW) // SMALLEST_ROW)
    if len(rows) > room:
        rest = list(stages[room - 1 :])
        rows = [*rows[: room - 1], (f"{len(rest)} more", rest)]
    height = min(ROW, (area.height - ROW) / max(len(rows), 1))
    wide = max((paper.measure(name, theme.SMALL) for name, _ in rows), default=0.0)
    left = min(max(wide + PITCH, MARKS_LEFT), MOST_LEFT)
    for number, (name, in_row) in enumerate(rows):
        middle = area.top + (number + 0.5) * height
        corner = (area.left, middle - LETTER)
        paper.text(fitted(paper, name, left - PITCH / 2), corner, theme.SMALL)
        levels = [level for stage in in_row for level in stage.rungs]
        if len(levels) <= MOST_MARKS:
            for place, level in enumerate(levels):
                draw_state(paper, (area.left + left + (place + 0.5) * PITCH, middle), level.state)
        corner = (area.right, middle - LETTER)
        paper.text(retention_words(in_row), corner, theme.SMALL, theme.QUIET, "right")
    _legend(paper, area.left, area.top + len(rows) * height + ROW / 2)


def _legend(paper: Paper, left: float, middle: float) -> None:
    """Draw the legend below the rows: the mark of each state of a level, with its words."""
    x = left
    for state, words in LEGEND:
        draw_state(paper, (x + PITCH / 2, middle), state)
        paper.text(words, (x + PITCH + 8, middle - LETTER), theme.SMALL, theme.QUIET)
        x += PITCH + 8 + paper.measure(words, theme.SMALL) + 36
