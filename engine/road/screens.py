"""Screens before and after the recording of a drive: its blips, in figures, curves and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.blips_overlay import overlay_chart
from engine.kit.canvas import Canvas, Point
from engine.kit.charts import Area
from engine.kit.widgets import Figure
from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive
from engine.road.summary import Summary, summary_of
from engine.road.summary_words import counted, found_words, summary_words
from engine.road.transfer import DrillComparison
from engine.road.words import CAUTION, OLDER, OLDER_WHY, short_words, transfer_words

BEFORE = (
    "Your pedals are recorded while you drive in any simulator on this computer. "
    "Blips are looked for afterwards and held against your drills.",
    CAUTION,
)
"""Explanation before a drive is recorded, one string a line."""
SO_FAR = "Drives so far with these pedals, median dip"
"""Heading of the list of earlier drives."""
NO_DRIVES = "No drives with these pedals yet."
"""Text in place of the list of earlier drives if there are none."""
HEAD = 60
"""Top of the heading of a drive's result, in canvas units."""
FIGURES_HEIGHT = 128
"""Height of the row of a drive's figures, in canvas units."""
GAP = 18
"""Space above and below the chart of a drive, in canvas units."""
MOST_DRIVES = 5
"""Largest number of earlier drives that are listed; older ones are not."""
DATE_WIDTH, MEDIAN_WIDTH = 330.0, 330.0
"""Widths of two columns of the list of drives, date and median dip, in canvas units."""
LINE = 52
"""Height of a line of the list of drives, in canvas units."""


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


class Start(Enum):
    """Choice of the player before a recording."""

    BEGIN = "begin"
    EARLIER = "earlier"
    """Look at an earlier drive."""
    BACK = "back"


class Look(Enum):
    """Choice of the player on the result of a drive."""

    GO_ON = "go on"
    WORDS = "words"
    """Read all that is known of the drive."""


class BeforeDrive(Menu[Start]):
    """Explanation of a recording; its outcome is what the player wants."""

    name = "before drive"

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are the earlier drives, oldest first, shown as a list."""
        choices = [Choice("Begin recording", Start.BEGIN), Choice("Back", Start.BACK)]
        if can_be_opened(drives):
            choices.insert(1, Choice("Earlier drives", Start.EARLIER))
        super().__init__(choices, back=Start.BACK)
        self.beside = len(choices)
        self._drives = tuple(drives)

    def picture(self, canvas: Canvas) -> None:
        """Draw what the recording of a drive is, and the earlier drives."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Record a drive") + 6
        for line in BEFORE:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 18
        canvas.text(
            SO_FAR if self._drives else NO_DRIVES, (theme.MARGIN, y), theme.SMALL, theme.QUIET
        )
        drives_list(canvas, (theme.MARGIN, y + LINE), self._drives)


class EarlierDrives(Menu[Drive | Start]):
    """List of the newest drives that can be looked at; its outcome is one, or Start.BACK."""

    name = "earlier drives"

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are the earlier drives, oldest first."""
        choices: list[Choice[Drive | Start]] = [
            Choice(f"{drive.at.day} {drive.at:%b %Y, %H:%M}", drive, _median_words(drive))
            for drive in reversed(can_be_opened(drives))
        ]
        super().__init__([*choices, Choice("Back", Start.BACK)], back=Start.BACK)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading."""
        title(canvas, "Earlier drives")


class RoadShown(Menu[Look]):
    """Result of a recorded drive: its figures, and all of its blips in one chart."""

    name = "road"
    beside = 2

    def __init__(self, road: Road) -> None:
        choices = [Choice("Go on", Look.GO_ON), Choice("In words", Look.WORDS)]
        super().__init__(choices, back=Look.GO_ON)
        self._road = road
        self._summary = summary_of(road.drive.blips)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the labels of the choices, and the figures of the drive."""
        found = self._summary
        figures = {"blips": found.blips, "scored": found.scored, "dip": self._road.drive.dip}
        return {**super().details(), **figures, "early": found.early}

    def picture(self, canvas: Canvas) -> None:
        """Draw drill against road, the figures of the drive, and its blips over each other."""
        road, left, width = self._road, theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        canvas.text(short_words(road.drive, road.beside), (left, HEAD), theme.LARGE)
        y = HEAD + theme.LARGE * 1.25
        if row := figures_of(self._summary):
            widgets.figures(canvas, (left, y), width, row)
            y += FIGURES_HEIGHT
        else:
            found = found_words(self._summary, road.drive.seconds)
            y = canvas.text(found, (left, y), theme.SMALL, width=width) + 8
        for line in road.warnings[:1]:
            y = canvas.text(f"Note: {line}", (left, y), theme.SMALL, theme.QUIET, width=width)
        if road.curves:
            y += GAP
            area = Area(left, y, width, self.choices_top - GAP - y)
            overlay_chart(canvas, area, road.curves, road.drill)


class RoadInWords(Menu[bool]):
    """All that is known of a recorded drive in words, and the drives before it."""

    name = "road in words"

    def __init__(self, road: Road, earlier: Sequence[Drive]) -> None:
        """`earlier` are the drives before this one, oldest first."""
        super().__init__([Choice("Back", True)], back=True)
        self._road = road
        self._earlier = tuple(earlier)

    def picture(self, canvas: Canvas) -> None:
        """Draw the words, and below them the earlier drives as far as there is room."""
        road, left, width = self._road, theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        summary = summary_of(road.drive.blips)
        lines = summary_words(summary, road.drive.seconds)
        if summary.scored:
            lines += transfer_words(road.drive, road.beside, road.waits)
        y = float(HEAD)
        for line in [*lines, *(f"Note: {warning}" for warning in road.warnings[:2])]:
            y = canvas.text(line, (left, y), theme.SMALL, width=width) + 4
        room = int((self.choices_top - y - 20) // LINE) - 1
        room -= any(not drive.is_current for drive in self._earlier[-MOST_DRIVES:])
        if self._earlier and room > 0:
            canvas.text("Drives before, median dip", (left, y + 10), theme.SMALL, theme.QUIET)
            drives_list(canvas, (left, y + 10 + LINE), self._earlier[-min(room, MOST_DRIVES) :])


class NotRecorded(Menu[bool]):
    """Screen that says why a drive has no result; ends when the player goes on."""

    name = "not recorded"

    def __init__(self, reason: str) -> None:
        """`reason` is the sentence that says why the drive has no result."""
        super().__init__([Choice("Go on", True)], back=True)
        self._reason = reason

    def picture(self, canvas: Canvas) -> None:
        """Draw the reason why the drive has no result."""
        y = title(canvas, "Not kept") + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._reason, (theme.MARGIN, y), theme.BODY, width=width)


def figures_of(summary: Summary) -> list[Figure]:
    """Figures of a drive: its typical dip and blip, the worst, early ones; none if not scored."""
    dips = summary.typical
    if dips is None or summary.peak is None or summary.worst is None:
        return []
    row = [
        Figure("typical dip", f"{dips.dip:.1f} points"),
        Figure("middle half", f"{dips.low:.1f} to {dips.high:.1f}"),
        Figure("worst", f"{summary.worst:.1f}"),
        Figure("typical blip", f"{summary.peak:.0f} %"),
    ]
    if summary.early_known:
        where = "" if summary.early_known >= summary.scored else ", where known"
        early = f"{summary.early} of {summary.early_known}"
        row.append(Figure(f"brake left early{where}", early))
    return row


def can_be_opened(drives: Sequence[Drive]) -> list[Drive]:
    """The newest drives that can be looked at once more, oldest first.

    One that older definitions measured cannot be held against the drills of today.
    """
    return [drive for drive in drives if drive.is_current][-MOST_DRIVES:]


def drives_list(canvas: Canvas, corner: Point, drives: Sequence[Drive]) -> None:
    """Draw the list of recorded drives, a line each, the newest first."""
    x, y = corner
    for drive in reversed(drives[-MOST_DRIVES:]):
        canvas.text(f"{drive.at.day} {drive.at:%b %Y}", (x, y), theme.SMALL)
        canvas.text(_median_words(drive), (x + DATE_WIDTH, y), theme.SMALL)
        count = counted(len(drive.blips if drive.dip is None else drive.dips), "blip")
        canvas.text(count, (x + DATE_WIDTH + MEDIAN_WIDTH, y), theme.SMALL, theme.QUIET)
        y += LINE
    if not all(drive.is_current for drive in drives[-MOST_DRIVES:]):
        canvas.text(OLDER_WHY, (x, y), theme.SMALL, theme.QUIET)


def _median_words(drive: Drive) -> str:
    if not drive.is_current:
        return OLDER
    return "not scored" if drive.dip is None else f"{drive.dip:.1f} points"
