"""Screens while a trial is played: changing the set-up, a pause, and recalibrated pedals."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from drills.number_words import counted
from engine.drill.lesson_words import SHOW_MOVEMENT
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.menu_screens import draw_list
from engine.trial.screen_words import (
    LATER,
    NO_HURRY,
    READ_OTHERWISE,
    SET_UP_AGAIN,
    UNTOLD,
    in_block,
)
from engine.trial.set_up_picture import draw_set_up
from engine.trial.status import TrialStatus
from engine.trial.trial import BLOCK, Arm, SetUp


class ChangeOver(Menu[bool]):
    """Wait before a block while the player changes the set-up. Its outcome is whether to go on."""

    name = "change over"
    in_a_bar = True

    def __init__(
        self, arm: Arm, set_up: SetUp, changes: Sequence[bool], status: TrialStatus
    ) -> None:
        """`set_up` is the new one; `changes` tells which of its features the other differs in."""
        between = not status.done and status.block % 2 == 1 and status.pairs > 0
        left = BLOCK - status.done
        go = f"Ready: {counted(left, 'repetition')}"
        stop = "Stop for today" if between else "Stop for now"
        super().__init__([Choice(go, True), Choice(stop, False)], back=False)
        self.back_word = stop.lower()
        self._arm = arm
        self._set_up = set_up
        self._changes = tuple(changes)
        self._status = status

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, A or B, and how far the trial is."""
        status = self._status
        return {
            **super().details(),
            "arm": self._arm.value,
            "block": status.block,
            "done": status.done,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-up with its new features marked, and how far the trial is."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        status = self._status
        block = f"block {status.block} of {status.blocks}"
        y = draw_set_up(canvas, "Now", self._arm, block, self._set_up, self._changes)
        if status.done:
            y = canvas.text(in_block(status.done), (left, y), theme.BODY) + 12
        canvas.text(NO_HURRY, (left, y), theme.BODY, theme.QUIET, width=width)


class Paused(Enum):
    """What the player can choose in the pause menu of a trial."""

    ON = "on"
    MOVEMENT = "movement"
    STOP = "stop"
    GIVE_UP = "give up"


class TrialPause(Menu[Paused]):
    """Pause menu of a trial, with what the player can do; going back continues the trial."""

    name = "trial menu"
    in_a_bar = True
    back_word = "go on"

    def __init__(self, status: TrialStatus) -> None:
        super().__init__(
            [
                Choice("Go on", Paused.ON),
                Choice(SHOW_MOVEMENT, Paused.MOVEMENT),
                Choice("Stop for now", Paused.STOP),
                Choice("Give the trial up", Paused.GIVE_UP),
            ],
            back=Paused.ON,
        )
        self._status = status

    def picture(self, canvas: Canvas) -> None:
        """Draw how far the block is, and that the repetitions already played are stored."""
        status = self._status
        draw_list(
            canvas,
            title(canvas, "A pause") + 20,
            (
                f"{status.done} of {BLOCK} repetitions are done.",
                f"It is block {status.block} of {status.blocks}.",
                LATER,
                UNTOLD,
            ),
        )


class Recalibrated(Menu[bool]):
    """Warning that the pedals were calibrated during the trial. Its outcome: whether to go on."""

    name = "trial recalibrated"
    in_a_bar = True

    def __init__(self) -> None:
        super().__init__(
            [
                Choice("Not now", False),
                Choice("Go on all the same", True),
            ],
            back=False,
        )

    def picture(self, canvas: Canvas) -> None:
        """Draw that the pedals were calibrated, and how that may affect the comparison."""
        draw_list(canvas, title(canvas, SET_UP_AGAIN) + 20, READ_OTHERWISE)
