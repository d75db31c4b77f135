"""Before a drive is recorded, and what it was: drill against road, and the drives before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas, Point
from engine.kit.widgets import Figure
from engine.road.drive import Drive, by_place
from engine.road.transfer import DrillComparison
from engine.road.words import CAUTION, NO_BLIPS, carry_words, drive_name, found_words, short_words

BEFORE = (
    "Your pedals are recorded while you drive in any simulator on this computer. "
    "Blips are looked for afterwards and held against your drills.",
    CAUTION,
)
SO_FAR = "Drives so far, median dip"
NO_DRIVES = "No drives yet."
HEAD = 60
"""units from the top, where the heading is."""
PLACES = 3
"""count of places in a run that are shown beside the median and the worst."""
MOST = 5
"""count of drives that are listed, the newest."""
DATE, MEDIAN = 330.0, 330.0
"""units across, for the date of a drive and for its median."""
LINE = 52
"""units from one drive to the next."""


@dataclass(frozen=True)
class Road:
    """What a drive was."""

    drive: Drive
    """The drive."""
    beside: tuple[DrillComparison, ...] = ()
    """It beside the drills of the last weeks, those of each kind."""
    warnings: tuple[str, ...] = ()
    """What makes its measures less sure, a line each."""


class BeforeDrive(Menu[bool]):
    """Ends with whether to begin."""

    name = "before drive"

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are those before, oldest first."""
        super().__init__([Choice("Begin recording", True), Choice("Back", False)], back=False)
        self._drives = tuple(drives)

    def picture(self, canvas: Canvas) -> None:
        """What will be done, and the drives before."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Record a drive") + 6
        for line in BEFORE:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 18
        canvas.text(
            SO_FAR if self._drives else NO_DRIVES, (theme.MARGIN, y), theme.SMALL, theme.QUIET
        )
        drives_list(canvas, (theme.MARGIN, y + LINE), self._drives)


class RoadShown(Menu[bool]):
    """Ends with going on."""

    name = "road"

    def __init__(self, road: Road, earlier: Sequence[Drive]) -> None:
        """`earlier` are the drives before, oldest first."""
        super().__init__([Choice("Go on", True)], back=True)
        self._road = road
        self._earlier = tuple(earlier)

    def details(self) -> Mapping[str, object]:
        """The choices and the figures."""
        drive = self._road.drive
        told = {"blips": len(drive.blips), "scored": len(drive.dips), "dip": drive.dip}
        return {**super().details(), **told}

    def picture(self, canvas: Canvas) -> None:
        """Drill against road, the figures, what can be said, and the drives before."""
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
            for line in carry_words(drive, self._road.beside):
                y = canvas.text(line, (left, y), theme.SMALL, width=width) + 8
        for line in self._road.warnings[:1]:
            y = canvas.text(f"Note: {line}", (left, y), theme.SMALL, theme.QUIET, width=width) + 8
        room = int((self.choices_top - y - 20) // LINE) - 1
        if self._earlier and room > 0:
            canvas.text("Drives before, median dip", (left, y + 10), theme.SMALL, theme.QUIET)
            drives_list(canvas, (left, y + 10 + LINE), self._earlier[-min(room, MOST) :])


class NotRecorded(Menu[bool]):
    """Why there is nothing to show; ends with going on."""

    name = "not recorded"

    def __init__(self, said: str) -> None:
        """`said` is why."""
        super().__init__([Choice("Go on", True)], back=True)
        self._said = said

    def picture(self, canvas: Canvas) -> None:
        """The words."""
        y = title(canvas, "Not kept") + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._said, (theme.MARGIN, y), theme.BODY, width=width)


def figures_of(drive: Drive) -> list[Figure]:
    """The median dip by place in the run, of all, and the worst."""
    dips, places = drive.dips, by_place(drive)
    shown = places[:PLACES] if len(places) > 1 else []
    return [
        Figure("median dip", f"{drive.dip or 0.0:.1f} points", _blips(len(dips))),
        *(
            Figure(f"{drive_name(one.place)} of a run", f"{one.dip:.1f}", _blips(len(one.dips)))
            for one in shown
        ),
        Figure("worst", f"{max(dips):.1f}"),
    ]


def drives_list(canvas: Canvas, corner: Point, drives: Sequence[Drive]) -> None:
    """The newest drives, a line each, the newest first."""
    x, y = corner
    for drive in reversed(drives[-MOST:]):
        median = "not scored" if drive.dip is None else f"{drive.dip:.1f} points"
        canvas.text(f"{drive.at.day} {drive.at:%b %Y}", (x, y), theme.SMALL)
        canvas.text(median, (x + DATE, y), theme.SMALL)
        count = len(drive.blips if drive.dip is None else drive.dips)
        canvas.text(_blips(count), (x + DATE + MEDIAN, y), theme.SMALL, theme.QUIET)
        y += LINE


def _blips(count: int) -> str:
    return f"{count} blips" if count != 1 else "1 blip"
