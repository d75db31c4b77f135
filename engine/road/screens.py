"""Screens of a recorded drive: one sentence, one figure and one chart; and all figures in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from engine.date_words import full_words
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice, Menu, title
from engine.kit.blips_overlay import overlay_chart
from engine.kit.canvas import Canvas
from engine.kit.opening import FIGURE_FOOT, draw_figure, draw_lead
from engine.kit.typeface import Weight
from engine.practice.remeasuring import Remeasuring
from engine.road.before_screens import LINE, MOST_DRIVES, drives_list
from engine.road.drive import Drive
from engine.road.figure_rows import figure_rows
from engine.road.screen_words import BEFORE_THIS
from engine.road.summary import summary_of
from engine.road.summary_words import NO_BLIPS, scored_words
from engine.road.transfer import DrillComparison
from engine.road.words import dip_figure, lead_words

VALUES, NOTES = 340.0, 640.0
"""Left edges of the values and of the words beside them, in canvas units from the margin."""
APART = 4
"""Space between two rows of the figures of a drive, in canvas units."""
GAP = 20
"""Space above and below the chart of a drive, in canvas units."""


@dataclass(frozen=True)
class Road:
    """A recorded drive, its comparisons with the drills, its curves, and the warnings about it."""

    drive: Drive
    """The drive that is shown."""
    beside: tuple[DrillComparison, ...] = ()
    """Comparisons of the drive with the drills before it, one for each kind of drill."""
    warnings: tuple[str, ...] = ()
    """Reasons why the measures of the drive are less certain, a line each."""
    waits: Remeasuring | None = None
    """How far the drills are remeasured, which the comparisons wait for; None if they are."""
    curves: tuple[Deviation, ...] = ()
    """Brake curve of each scored blip, in order of time; empty if they are not at hand."""
    drill: tuple[str, Deviation] | None = None
    """Label and median brake curve of the drills; None if there is none."""


class Look(Enum):
    """Choice of the player on the result of a drive."""

    GO_ON = "go on"
    WORDS = "words"
    """Read all that is known of the drive."""


class RoadShown(Menu[Look]):
    """Result of a recorded drive: a sentence, its typical dip, and its blips in one chart."""

    name = "road"
    in_a_bar = True

    def __init__(self, road: Road) -> None:
        choices = [Choice("Go on", Look.GO_ON), Choice("All figures", Look.WORDS)]
        super().__init__(choices, back=Look.GO_ON)
        self._road = road
        self._summary = summary_of(road.drive.blips)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the labels of the choices, and the figures of the drive."""
        found = self._summary
        figures = {"blips": found.blips, "scored": found.scored, "dip": self._road.drive.dip}
        return {**super().details(), **figures, "early": found.early}

    def picture(self, canvas: Canvas) -> None:
        """Draw road against drills in a sentence, the typical dip, and the curves of all blips."""
        road, left, figure = self._road, theme.MARGIN, dip_figure(self._road.drive)
        width = draw_figure(canvas, figure)
        at = (left, theme.TITLE)
        y = canvas.text(date_words(road.drive), at, theme.BODY, theme.QUIET) + 22
        y = draw_lead(canvas, y, lead_words(road.drive, road.beside, road.waits), width) + 6
        found = scored_words(self._summary, road.drive.seconds) if self._summary.blips else NO_BLIPS
        y = canvas.text(found, (left, y), theme.BODY, theme.QUIET, width=width) + 6
        for line in road.warnings[:1]:
            y = canvas.text(f"Note: {line}", (left, y), theme.SMALL, theme.QUIET, width=width)
        if road.curves:
            top = y + GAP if figure is None else max(y + GAP, FIGURE_FOOT)
            area = Area(left, top, theme.WIDTH - 2 * left, self.choices_top - GAP - top)
            overlay_chart(canvas, area, road.curves, road.drill)


class RoadInWords(Menu[bool]):
    """All figures of a recorded drive, and the drives before it."""

    name = "road in words"
    in_a_bar = True

    def __init__(self, road: Road, earlier: Sequence[Drive]) -> None:
        """`earlier` are the drives before this one, oldest first."""
        super().__init__([Choice("Back", True)], back=True)
        self._road = road
        self._earlier = tuple(earlier)

    def picture(self, canvas: Canvas) -> None:
        """Draw the figures, and below them the earlier drives as far as there is room."""
        road, left, width = self._road, theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, date_words(road.drive))
        rows = figure_rows(road.drive, road.beside, road.waits)
        if not rows:
            y = canvas.text(NO_BLIPS, (left, y), theme.SMALL)
        for label, value, note in rows:
            canvas.text(label, (left, y), theme.SMALL, theme.QUIET)
            canvas.text(value, (left + VALUES, y), theme.SMALL, weight=Weight.BOLD)
            x, room = left + NOTES, width - NOTES
            y = canvas.text(note, (x, y), theme.SMALL, theme.QUIET, width=room) + APART
        for warning in road.warnings[:2]:
            if y + theme.SMALL < self.choices_top:
                note = canvas.fitted(f"Note: {warning}", width, theme.SMALL)
                y = canvas.text(note, (left, y), theme.SMALL, theme.QUIET) + APART
        lines = int((self.choices_top - y - 20) // LINE) - 1
        lines -= any(not drive.is_current for drive in self._earlier[-MOST_DRIVES:])
        if self._earlier and lines > 0:
            canvas.text(BEFORE_THIS, (left, y + 10), theme.SMALL, theme.QUIET)
            drives_list(canvas, (left, y + 10 + LINE), self._earlier[-min(lines, MOST_DRIVES) :])


def date_words(drive: Drive) -> str:
    """Heading of a drive: the day on which it was recorded."""
    return f"Drive of {full_words(drive.at)}"
