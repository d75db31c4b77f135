"""The levels, stage by stage: which are passed, which kept, which kept well."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from engine.kit import theme
from engine.kit.charts import LETTER, Area, Paper, fitted
from engine.ladder.climb_picture import MOST_MARKS, PITCH, mark
from engine.ladder.ladder import LadderStage, State

ROW = 62
"""units, from a stage to the next, where there is room."""
MARKS = 480
"""units from the left, where the marks of the levels begin."""
LEAST_ROW = 50
"""units, the same at least; of more stages than have room the last are told together."""
LEGEND = (
    (State.WELL_RETAINED, "kept well"),
    (State.RETAINED, "kept"),
    (State.PASSED, "passed"),
    (State.PLACED, "placed"),
    (State.OPEN, "open"),
    (State.CLOSED, "closed"),
)
"""What the marks are, the best first."""
STATES = (
    (State.PASSED, State.RETAINED, State.WELL_RETAINED),
    (State.RETAINED, State.WELL_RETAINED),
    (State.WELL_RETAINED,),
)
"""What counts as passed, as kept, and as kept well: each holds the next."""


def kept_counts(stages: Sequence[LadderStage]) -> tuple[int, int, int, int]:
    """count of levels, of those passed by playing, of those kept, and of those kept well."""
    states = Counter(rung.state for ladder_stage in stages for rung in ladder_stage.rungs)
    passed, levels_chart, well = (sum(states[one] for one in group) for group in STATES)
    return states.total(), passed, levels_chart, well


def kept_words(stages: Sequence[LadderStage]) -> str:
    """The same in a few words, those that are none left out."""
    of, passed, levels_chart, well = kept_counts(stages)
    parts = [f"{passed} of {of} passed"]
    parts += [f"{levels_chart} kept"] if levels_chart else []
    parts += [f"{well} kept well"] if well else []
    return ", ".join(parts)


def kept_height(stages: Sequence[LadderStage]) -> float:
    """units, what the rows and the words over them take."""
    return ROW * (len(stages) + 1)


def levels_chart(paper: Paper, area: Area, stages: Sequence[LadderStage]) -> None:
    """A row for each stage: its name, a mark for each level, and how many stand how."""
    _legend(paper, area)
    rows = [(ladder_stage.name, [ladder_stage]) for ladder_stage in stages]
    room = int((area.height - ROW) // LEAST_ROW)
    if len(rows) > room:
        rest = list(stages[room - 1 :])
        rows = [*rows[: room - 1], (f"{len(rest)} more", rest)]
    row = min(ROW, (area.height - ROW) / max(len(rows), 1))
    for number, (name, some) in enumerate(rows):
        top = area.top + ROW + number * row
        paper.line((area.left, top), (area.right, top), theme.BAND, 2)
        middle = top + row / 2
        shown = fitted(paper, name, MARKS - PITCH / 2)
        paper.text(shown, (area.left, middle - LETTER), theme.SMALL)
        rungs = [rung for ladder_stage in some for rung in ladder_stage.rungs]
        if len(rungs) <= MOST_MARKS:
            for place, rung in enumerate(rungs):
                mark(paper, (area.left + MARKS + (place + 0.5) * PITCH, middle), rung.state)
        corner = (area.right, middle - LETTER)
        paper.text(kept_words(some), corner, theme.SMALL, theme.QUIET, "right")


def _legend(paper: Paper, area: Area) -> None:
    """The marks with their words over the rows."""
    x = area.left
    for state, words in LEGEND:
        mark(paper, (x + PITCH / 2, area.top + 20), state)
        paper.text(words, (x + PITCH + 8, area.top + 4), theme.SMALL, theme.QUIET)
        x += PITCH + 8 + paper.measure(words, theme.SMALL) + 36
