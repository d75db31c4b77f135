"""`ResultTexts`: all that the screens of a trial's result say."""

from __future__ import annotations

from dataclasses import dataclass

from drills.remark import Headline
from engine.trial.difference_rows import DifferenceRow
from engine.trial.measure_table import Row


@dataclass(frozen=True)
class ResultTexts:
    """All that the screens of a trial's result say."""

    lines: tuple[str, ...]
    """Lead sentence, and the lines under it."""
    figure: Headline | None
    """The one large figure; None if there is none."""
    rows: tuple[DifferenceRow, ...]
    """Rows of the picture of the difference; empty if there is nothing to draw."""
    names: tuple[str, str]
    """Names of set-up A and set-up B; either may be empty."""
    table: tuple[Row, ...]
    """Table of all compared measures: the headings, then a row for each measure."""
    counts: tuple[Row, ...]
    """Rows on how the repetitions ended: a name, and the numbers for A and B."""
