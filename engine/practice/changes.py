"""Changes of foot or rig in the history: marked by the player, or pedals that were set up anew."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from drills.calibration import Calibration, Range

SPAN_MOVED = 0.03
"""Share by which the brake's span must differ from the one before to be another scale: less stays
within what a foot varies from day to day."""
EXCUSED = timedelta(days=21)
"""Time after a change for which being worse is excused; then no more. A choice: no source says how
long a foot takes to a new position."""


class Changed(StrEnum):
    """What changed about the foot or the rig."""

    POSITION = "foot position"
    PEDALS = "pedals"
    SHOES = "shoes"
    OTHER = "another kind"
    """A change that the player's note names, if anything does."""
    SCALE = "brake scale"
    """The brake was set up anew, and its points are others than before."""
    SET_UP = "pedals set up"
    """Pedals were set up anew, and the brake's points stay comparable."""

    @property
    def begins_anew(self) -> bool:
        """Whether learning curves begin anew at such a change."""
        return self is not Changed.SET_UP

    @property
    def by_player(self) -> bool:
        """Whether the player marked it, who changed something about foot or rig."""
        return self not in (Changed.SCALE, Changed.SET_UP)


@dataclass(frozen=True)
class Change:
    """One change to the foot or the rig."""

    at: datetime
    """When the change was made or marked, with the local offset from UTC."""
    what: Changed
    """What changed."""
    after: int
    """Number of the newest repetition before the change; 0 if there was none."""
    note: str = ""
    """Note of the player on the change, in a few words; may be empty."""

    def excuses(self, today: date) -> bool:
        """Whether being worse is excused on a day: less than three weeks after such a change.

        A set-up of the pedals excuses nothing: it moves the points, not the foot.
        """
        return self.what.by_player and timedelta() <= today - self.at.date() < EXCUSED


def is_new_scale(old: Range, new: Range) -> bool:
    """Whether points of a brake with the range `new` are others than with the range `old`."""
    before, now = abs(old.full - old.rest), abs(new.full - new.rest)
    return abs(now - before) > SPAN_MOVED * before


def set_up_change(old: Calibration, new: Calibration, *, same_axis: bool) -> Changed | None:
    """Change that a set-up of the pedals made; None where no end of any pedal moved.

    `same_axis` says whether the brake is read from the same axis as before: spans of two axes
    cannot be compared.
    """
    if not same_axis or is_new_scale(old.brake, new.brake):
        return Changed.SCALE
    return None if old == new else Changed.SET_UP
