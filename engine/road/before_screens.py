"""Screens before the recording of a drive: the earlier drives, and why there is no result."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from drills.number_words import counted
from engine.date_words import full_words
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas, Point
from engine.kit.opening import draw_lead
from engine.road.drive import Drive
from engine.road.screen_words import BEFORE, NO_DRIVES, RECORD, SO_FAR
from engine.road.words import CAUTION, OLDER, OLDER_WHY

MOST_DRIVES = 5
"""Largest number of earlier drives that are listed; older ones are not."""
DATE_WIDTH, MEDIAN_WIDTH = 330.0, 330.0
"""Widths of two columns of the list of drives, date and median dip, in canvas units."""
LINE = 52
"""Height of a line of the list of drives, in canvas units."""


class Start(Enum):
    """Choice of the player before a recording."""

    BEGIN = "begin"
    EARLIER = "earlier"
    """Look at an earlier drive."""
    BACK = "back"


class BeforeDrive(Menu[Start]):
    """Explanation of a recording; its outcome is what the player wants."""

    name = "before drive"
    in_a_bar = True

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are the earlier drives, oldest first, shown as a list."""
        choices = [Choice("Begin recording", Start.BEGIN), Choice("Back", Start.BACK)]
        if can_be_opened(drives):
            choices.insert(1, Choice("Earlier drives", Start.EARLIER))
        super().__init__(choices, back=Start.BACK)
        self._drives = tuple(drives)

    def picture(self, canvas: Canvas) -> None:
        """Draw what the recording of a drive is, and the earlier drives."""
        width = theme.WIDTH - 2 * theme.MARGIN
        left, y = theme.MARGIN, title(canvas, "Record a drive")
        y = draw_lead(canvas, y, RECORD) + 6
        for line in (BEFORE, CAUTION):
            y = canvas.text(line, (left, y), theme.BODY, theme.QUIET, width=width) + 10
        y += 30
        canvas.text(SO_FAR if self._drives else NO_DRIVES, (left, y), theme.SMALL, theme.QUIET)
        drives_list(canvas, (left, y + LINE), self._drives)


class EarlierDrives(Menu[Drive | Start]):
    """List of the newest drives that can be looked at; its outcome is one, or Start.BACK."""

    name = "earlier drives"
    list_top = theme.BELOW + 20

    def __init__(self, drives: Sequence[Drive]) -> None:
        """`drives` are the earlier drives, oldest first."""
        choices: list[Choice[Drive | Start]] = [
            Choice(f"{full_words(drive.at)}, {drive.at:%H:%M}", drive, median_words(drive))
            for drive in reversed(can_be_opened(drives))
        ]
        super().__init__([*choices, Choice("Back", Start.BACK)], back=Start.BACK)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading."""
        title(canvas, "Earlier drives")


class NotRecorded(Menu[bool]):
    """Screen that says why a drive has no result; ends when the player goes on."""

    name = "not recorded"
    in_a_bar = True

    def __init__(self, reason: str) -> None:
        """`reason` is the sentence that says why the drive has no result."""
        super().__init__([Choice("Go on", True)], back=True)
        self._reason = reason

    def picture(self, canvas: Canvas) -> None:
        """Draw the reason why the drive has no result."""
        at = (theme.MARGIN, title(canvas, "Not saved") + 20)
        canvas.text(self._reason, at, theme.BODY + 6, width=theme.ACROSS)


def can_be_opened(drives: Sequence[Drive]) -> list[Drive]:
    """The newest drives that can be looked at once more, oldest first.

    One that older definitions measured cannot be held against the drills of today.
    """
    return [drive for drive in drives if drive.is_current][-MOST_DRIVES:]


def drives_list(canvas: Canvas, corner: Point, drives: Sequence[Drive]) -> None:
    """Draw the list of recorded drives, a line each, the newest first."""
    x, y = corner
    for drive in reversed(drives[-MOST_DRIVES:]):
        canvas.text(full_words(drive.at), (x, y), theme.SMALL)
        canvas.text(median_words(drive), (x + DATE_WIDTH, y), theme.SMALL)
        count = counted(len(drive.blips if drive.dip is None else drive.dips), "blip")
        canvas.text(count, (x + DATE_WIDTH + MEDIAN_WIDTH, y), theme.SMALL, theme.QUIET)
        y += LINE
    if not all(drive.is_current for drive in drives[-MOST_DRIVES:]):
        canvas.text(OLDER_WHY, (x, y), theme.SMALL, theme.QUIET)


def median_words(drive: Drive) -> str:
    """Typical dip of a drive as text, or why it has none."""
    if not drive.is_current:
        return OLDER
    return "not scored" if drive.dip is None else f"{drive.dip:.1f} points"
