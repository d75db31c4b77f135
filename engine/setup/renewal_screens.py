"""Screens that offer to set one end of a pedal anew, and do it."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from drills.calibration import Calibration
from drills.trace import Pedal, Sample
from engine.kit import theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.pedals.ends import FULL_AT_ONCE
from engine.pedals.gestures import LET_GO
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.set_anew import FullAnew, RestAnew, ranges_of
from engine.pedals.trouble import Motion
from engine.setup.any_pedal_menu import SetUpChoice
from engine.setup.finding_screens import BETWEEN, COLOURS, TRACK, TRACK_LEFT
from engine.setup.search_screen import PAST, TRACKS, count_dots, instruct, track, track_step
from engine.setup.words import (
    FEET_OFF,
    FULLY,
    ONCE_MORE,
    PROMPTS,
    SET_FULL,
    SET_REST,
    moved_end_words,
)
from engine.stage.scene import Pace

LEAVE: Choice[Calibration | SetUpChoice] = Choice("Leave it as it is", SetUpChoice.STOP)
"""Choice that ends setting an end anew without a change."""


class EndMoved(Menu[bool]):
    """Notice that an end of a pedal moved; its outcome is whether to set it anew."""

    name = "end moved"
    back_word = "not now"
    in_a_bar = True

    def __init__(self, moved: MovedEnd) -> None:
        self._moved = moved
        if moved.end is End.REST:
            step = Choice(SET_REST, True, "feet off, two seconds")
        else:
            step = Choice(SET_FULL, True, "press it twice")
        later = Choice("Not now", False)
        super().__init__([step, later], back=False)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and the end that moved."""
        moved = self._moved
        return {**super().details(), "pedal": moved.pedal.value, "end": moved.end.value}

    def picture(self, canvas: Canvas) -> None:
        """Draw which end moved, and what that does."""
        heading, text, note = moved_end_words(self._moved)
        statement(canvas, heading, text, note)


class SetRestAnew(Menu[Calibration | SetUpChoice]):
    """Takes the rest of all pedals with the feet off; its outcome is the new calibration.

    Pedals choose nothing on it: they are what is measured.
    """

    name = "set rest"
    feet_choose = False
    back_word = "leave it"
    in_a_bar = True

    def __init__(self, old: Calibration, moved: MovedEnd) -> None:
        """`old` is the calibration in use; `moved` is the rest to be set."""
        super().__init__([LEAVE], back=SetUpChoice.STOP)
        self._old, self._moved = old, moved
        self._anew = RestAnew(old, moved)
        self._percent = dict.fromkeys(ranges_of(old), 0.0)

    @property
    def pace(self) -> Pace:
        """Live, so that noise averages out."""
        return Pace.LIVE

    def on_focus(self, focused: bool, now: int) -> None:
        """Begin again: the pedals may have moved without the focus."""
        self._anew = RestAnew(self._old, self._moved)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Take the pedals' positions, and end once their rests are known."""
        if sample is None:
            self._anew = RestAnew(self._old, self._moved)
            return
        self._percent = {pedal: sample.of(pedal) or 0.0 for pedal in self._percent}
        self._anew.feed(sample)
        self.outcome = self._anew.found or self.outcome

    def appearance(self) -> Hashable:
        """State that the picture depends on: the positions, and a pedal pressed or restless."""
        places = [track_step(percent / 100) for percent in self._percent.values()]
        return super().appearance(), self._anew.pressed, self._anew.restless, *places

    def picture(self, canvas: Canvas) -> None:
        """Draw the instruction and the positions of the pedals."""
        instruct(canvas, ("set the rest again", theme.QUIET), FEET_OFF, [self._note])
        for number, (pedal, percent) in enumerate(self._percent.items()):
            start = (TRACK_LEFT, TRACKS + BETWEEN * number)
            track(canvas, start, TRACK, percent / 100, COLOURS[pedal], self._wanted(pedal))

    def _wanted(self, pedal: Pedal) -> tuple[float, float]:
        """Where a pedal may rest, as a share: the one that moved from its old rest to its new."""
        rest = self._moved.percent / 100 if pedal is self._moved.pedal else 0.0
        return max(min(rest, 0.0), -PAST), max(rest, 0.0)

    @property
    def _note(self) -> str:
        """What keeps the rest from being taken; empty where nothing does."""
        if self._anew.pressed is not None:
            return f"The {self._anew.pressed.value} is pressed. Let it go."
        if self._anew.restless is not None:
            name = self._anew.restless.value
            return f"The {name} does not come to rest. Keep all pedals still."
        return ""


class SetFullAnew(Menu[Calibration | SetUpChoice]):
    """Takes the full of the brake from two presses; its outcome is the new calibration.

    Pedals choose nothing on it: the brake is what is measured.
    """

    name = "set full"
    feet_choose = False
    back_word = "leave it"
    in_a_bar = True

    def __init__(self, old: Calibration) -> None:
        """`old` is the calibration in use."""
        super().__init__([LEAVE], back=SetUpChoice.STOP)
        self._old = old
        self._anew = FullAnew(old)

    @property
    def pace(self) -> Pace:
        """Live, so that noise averages out."""
        return Pace.LIVE

    def on_focus(self, focused: bool, now: int) -> None:
        """Begin again: the brake may have moved without the focus."""
        self._anew = FullAnew(self._old)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Take the brake's position, and end once its full is known."""
        if sample is None:
            self._anew = FullAnew(self._old)
            return
        self._anew.feed(sample)
        self.outcome = self._anew.found or self.outcome

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and the movement that is waited for."""
        return {**super().details(), "step": self._anew.motion.value}

    def appearance(self) -> Hashable:
        """State that the picture depends on: the movement to make, and the brake's position."""
        anew = self._anew
        return super().appearance(), anew.motion, len(anew.presses), track_step(self._place)

    def picture(self, canvas: Canvas) -> None:
        """Draw the movement to make, and the position of the brake."""
        anew = self._anew
        again = anew.motion is Motion.FULL and anew.presses
        note = FULLY[Pedal.BRAKE] if anew.motion is Motion.FULL else ""
        if anew.differ:
            first, second = (f"{press:.0f}" for press in anew.presses[-2:])
            note = f"The two differ: {first} and {second} % of the old full."
        over = (Pedal.BRAKE.value, COLOURS[Pedal.BRAKE])
        instruct(canvas, over, ONCE_MORE if again else PROMPTS[anew.motion], [note])
        wanted = (0.0, LET_GO / self._scale)
        if anew.motion is Motion.FULL:
            wanted = (FULL_AT_ONCE if anew.presses else 0.8, 1.0)
        track(canvas, (TRACK_LEFT, TRACKS), TRACK, self._place, theme.BRAKE, wanted)
        count_dots(canvas, min(len(anew.presses), 2), 2)

    @property
    def _scale(self) -> float:
        """Position that the right end of the line stands for, in % of the old range."""
        return max(100.0, *self._anew.presses[-1:], self._anew.percent)

    @property
    def _place(self) -> float:
        return self._anew.percent / self._scale
