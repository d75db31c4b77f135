"""Screens before and after the recording of a drive: drill against road, and earlier drives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas, Point
from engine.kit.widgets import Figure
from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive, by_place
from engine.road.transfer import DrillComparison
from engine.road.words import (
    CAUTION,
    NO_BLIPS,
    OLDER,
    OLDER_WHY,
    brake_words,
    carry_words,
    drive_name,
    found_words,
    short_words,
)

BEFORE = (
    "Your pedals are recorded while you drive in any simulator on this computer. "
    "Blips are looked for afterwards and held against your drills.",
    CAUTION,
)
"""Explanation before a drive is recorded, one string a line."""
SO_FAR = "Drives so far, median dip"
"""Heading of the list of earlier drives."""
NO_DRIVES = "No drives yet."
"""Text in place of the list of earlier drives if there are none."""
HEAD = 60
"""Top of the heading of a drive's result, in canvas units."""
PLACES = 3
"""Largest number of places in a run whose median dip is shown, beside that of all blips and the
worst."""
MOST_DRIVES = 5
"""Largest number of earlier drives that are listed; older ones are not."""
DATE_WIDTH, MEDIAN_WIDTH = 330.0, 330.0
"""Widths of two columns of the list of drives, date and median dip, in canvas units."""
LINE = 52
"""Height of a line of the list of drives, in canvas units."""


@dataclass(frozen=True)
class Road:
    """A recorded drive, its comparisons with the drills, and the warnings about it."""

    drive: Drive
    """The drive that was just recorded."""
    beside: tuple[DrillComparison, ...] = ()
    """Comparisons of the drive with the drills of the last weeks, one for each kind of drill."""
    warnings: tuple[str, ...] = ()
    """Reasons why the measures of the drive are less certain, a line each."""
    waits: Remeasuring | None = None
    """How far the drills are remeasured, which the comparisons wait for; None if they are."""


class BeforeDrive(Menu[bool]):
    """Explanation of a recording; its outcome is whether to begin one."""

    name = "before drive"

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are the earlier drives, oldest first, shown as a list."""
        super().__init__([Choice("Begin recording", True), Choice("Back", False)], back=False)
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


class RoadShown(Menu[bool]):
    """Result of a recorded drive; ends when the player goes on."""

    name = "road"

    def __init__(self, road: Road, earlier: Sequence[Drive]) -> None:
        """`earlier` are the drives before this one, oldest first."""
        super().__init__([Choice("Go on", True)], back=True)
        self._road = road
        self._earlier = tuple(earlier)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the labels of the choices, and the figures of the drive."""
        drive = self._road.drive
        figures = {"blips": len(drive.blips), "scored": len(drive.dips), "dip": drive.dip}
        early = sum(blip.is_early for blip in drive.blips)
        return {**super().details(), **figures, "early": early}

    def picture(self, canvas: Canvas) -> None:
        """Draw drill against road, the figures of the drive, and the earlier drives."""
        drive, width = self._road.drive, theme.WIDTH - 2 * theme.MARGIN
        left = theme.MARGIN
        canvas.text(short_words(drive, self._road.beside), (left, HEAD), theme.LARGE)
        y = HEAD + theme.LARGE * 1.25
        y = canvas.text(found_words(drive), (left, y), theme.SMALL, theme.QUIET, width=width) + 14
        if not drive.blips:
            y = canvas.text(NO_BLIPS, (left, y), theme.SMALL, width=width) + 8
        if drive.dip is not None:
            widgets.figures(canvas, (left, y), width, figures_of(drive))
            y += 108 + theme.SMALL + 18
            for line in brake_words(drive):
                y = canvas.text(line, (left, y), theme.SMALL, theme.QUIET, width=width) + 8
            for line in carry_words(drive, self._road.beside, self._road.waits):
                y = canvas.text(line, (left, y), theme.SMALL, width=width) + 8
        for line in self._road.warnings[:1]:
            y = canvas.text(f"Note: {line}", (left, y), theme.SMALL, theme.QUIET, width=width) + 8
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


def figures_of(drive: Drive) -> list[Figure]:
    """Figures of a drive: its median dip, the medians by place in the run, and the worst dip."""
    dips, places = drive.dips, by_place(drive)
    first = places[:PLACES] if len(places) > 1 else []
    return [
        Figure("median dip", f"{drive.dip or 0.0:.1f} points", _blips(len(dips))),
        *(
            Figure(f"{drive_name(at.place)} of a run", f"{at.dip:.1f}", _blips(len(at.dips)))
            for at in first
        ),
        Figure("worst", f"{max(dips):.1f}"),
    ]


def drives_list(canvas: Canvas, corner: Point, drives: Sequence[Drive]) -> None:
    """Draw the list of recorded drives, a line each, the newest first."""
    x, y = corner
    for drive in reversed(drives[-MOST_DRIVES:]):
        median = "not scored" if drive.dip is None else f"{drive.dip:.1f} points"
        median = median if drive.is_current else OLDER
        canvas.text(f"{drive.at.day} {drive.at:%b %Y}", (x, y), theme.SMALL)
        canvas.text(median, (x + DATE_WIDTH, y), theme.SMALL)
        count = len(drive.blips if drive.dip is None else drive.dips)
        canvas.text(_blips(count), (x + DATE_WIDTH + MEDIAN_WIDTH, y), theme.SMALL, theme.QUIET)
        y += LINE
    if not all(drive.is_current for drive in drives[-MOST_DRIVES:]):
        canvas.text(OLDER_WHY, (x, y), theme.SMALL, theme.QUIET)


def _blips(count: int) -> str:
    return f"{count} blips" if count != 1 else "1 blip"
