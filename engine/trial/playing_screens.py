"""A trial while it is played: changing over, a pause, and pedals that were set up anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.setups import set_up_words
from engine.trial.status import UNTOLD, TrialStatus, listed
from engine.trial.trial import BLOCK, Arm, SetUp


class ChangeOver(Menu[bool]):
    """Before a block: the foot changes over, and nothing hurries it. Ends with whether to go on."""

    name = "change over"

    def __init__(self, arm: Arm, one: SetUp, changes: Sequence[bool], far: TrialStatus) -> None:
        """`one` is the set-up that comes now; `changes` says of each of its things whether it is
        another in the other set-up.
        """
        between = not far.done and far.block % 2 == 1 and far.pairs > 0
        left = BLOCK - far.done
        go = f"Ready: {left} repetition{'s' if left > 1 else ''}"
        stop, note = ("Stop for today", "a pair is done") if between else ("Stop for now", "")
        super().__init__([Choice(go, True), Choice(stop, False, note)], back=False)
        self.back_word = stop.lower()
        self._arm = arm
        self._one = one
        self._changes = tuple(changes)
        self._far = far

    def details(self) -> Mapping[str, object]:
        """The choices, which arm comes, and how far the trial is."""
        far = self._far
        return {
            **super().details(),
            "arm": self._arm.value,
            "block": far.block,
            "done": far.done,
        }

    def picture(self, canvas: Canvas) -> None:
        """How the foot stands now, what of it is another, and that there is time."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = title(
            canvas, canvas.cut(f"Now {self._arm.value}: {self._one.name}", width, theme.LARGE)
        )
        for line, is_new in zip(set_up_words(self._one), self._changes, strict=True):
            if is_new:
                canvas.shape([(left, y + 6), (left, y + 34), (left + 22, y + 20)], theme.BRAKE)
            colour = theme.TEXT if is_new else theme.QUIET
            y = canvas.text(line, (left + 48, y), theme.BODY, colour) + 12
        if self._one.note:
            note = canvas.cut(f'Your note: "{self._one.note}"', width, theme.SMALL)
            y = canvas.text(note, (left, y + 6), theme.SMALL) + 10
        far = self._far
        place = f"Pair {(far.block + 1) // 2} of {far.of}, block {far.block} of {far.blocks}"
        if far.done:
            place += f", {far.done} of {BLOCK} done"
        y = canvas.text(f"{place}.", (left, y + 24), theme.BODY) + 12
        canvas.text(NO_HURRY, (left, y), theme.BODY, theme.QUIET, width=width)


NO_HURRY = (
    "Change over in your own time: it waits. Then take the foot off all pedals, place it as it "
    "says here, and go on."
)
"""What is said before a block."""


class Paused(Enum):
    """What to do now."""

    ON = "on"
    STOP = "stop"
    GIVE_UP = "give up"


class TrialPause(Menu[Paused]):
    """The small menu of a trial. Going back goes on."""

    name = "trial menu"
    back_word = "go on"

    def __init__(self, far: TrialStatus) -> None:
        super().__init__(
            [
                Choice("Go on", Paused.ON),
                Choice("Stop for now", Paused.STOP, "it goes on where you stopped"),
                Choice("Give the trial up", Paused.GIVE_UP),
            ],
            back=Paused.ON,
        )
        self._far = far

    def picture(self, canvas: Canvas) -> None:
        """How far it is, and that it is kept."""
        far = self._far
        listed(
            canvas,
            title(canvas, "A pause") + 20,
            (
                f"Block {far.block} of {far.blocks}: {far.done} of {BLOCK} repetitions are done, "
                "and kept.",
                UNTOLD,
            ),
        )


class Recalibrated(Menu[bool]):
    """The pedals were set up anew since the trial began. Ends with whether to go on."""

    name = "trial recalibrated"

    def __init__(self) -> None:
        super().__init__(
            [
                Choice("Not now", False, "to set them up as they were, or to begin another trial"),
                Choice("Go on all the same", True, "the end will say so"),
            ],
            back=False,
        )

    def picture(self, canvas: Canvas) -> None:
        """What happened, and what it may do."""
        listed(
            canvas,
            title(canvas, "The pedals were set up anew") + 20,
            (
                "They read otherwise than when this trial began.",
                "A point of dip may be another length of pedal now, and A and B are compared "
                "across that.",
            ),
        )
