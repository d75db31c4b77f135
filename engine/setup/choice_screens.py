"""Menus of the setup: which pedals to set up, what to do when stuck, what to save."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from enum import Enum

import pygame

from drills.trace import Pedal, Sample, nanoseconds
from engine.kit import theme
from engine.kit.base import Choice, Menu, notice, title
from engine.kit.canvas import Canvas
from engine.pedals.gestures import Gesture
from engine.pedals.together import TapOrStay
from engine.pedals.travel import Still
from engine.setup.finding_screens import COLOURS
from engine.setup.search import Search
from engine.setup.search_screen import track, track_step
from engine.setup.words import capitalized, resting_words
from engine.stage.actions import Action

LEAST_REST = 3.0
"""Resting position of a pedal above which a note is shown, in %: the smallest blip is little
more."""
TRACK = 1600
"""Length of the line along which a found pedal is drawn, in canvas units."""
MOST_REST = 25.0
"""Position above which a still pedal counts as pressed rather than resting, in %."""
RESTS_FOR = nanoseconds(1.5)
"""Time that a pedal must move by less than LEAST_REST to count as resting, in ns."""


class SetUpChoice(Enum):
    """What the player can choose in the menus of the pedal setup."""

    ALL = "all"
    KEEP = "keep"
    GO_ON = "go on"
    REFUSE = "refuse"
    STOP = "stop"


class WhichPedals(Menu[Pedal | SetUpChoice]):
    """Menu shown if pedals are set up already: set up all of them again, or a single one."""

    name = "which pedals"

    def __init__(self, lines: Mapping[Pedal, str]) -> None:
        """`lines` describes for each pedal that is set up its device and axis."""
        choices: list[Choice[Pedal | SetUpChoice]] = [Choice("All pedals", SetUpChoice.ALL)]
        for pedal in Pedal:
            label = f"{capitalized(pedal.value)} only" if pedal in lines else f"Add a {pedal.value}"
            choices.append(Choice(label, pedal, lines.get(pedal, "")))
        choices.append(Choice("Back", SetUpChoice.STOP))
        super().__init__(choices, back=SetUpChoice.STOP)

    def picture(self, canvas: Canvas) -> None:
        """Draw the question which pedals to set up."""
        y = title(canvas, "Set up the pedals") + 20
        canvas.text("Which of them? The others stay as they are.", (theme.MARGIN, y), theme.BODY)


class SavedPedalsBack(Menu[SetUpChoice]):
    """Menu shown when the saved pedals are plugged in while others are being set up."""

    name = "pedals came"

    def __init__(self) -> None:
        choices = [
            Choice("Play with them", SetUpChoice.KEEP),
            Choice("Go on setting up", SetUpChoice.GO_ON),
        ]
        super().__init__(choices, back=SetUpChoice.GO_ON)

    def picture(self, canvas: Canvas) -> None:
        """Draw that the saved pedals are plugged in, and what the player can do."""
        text = "The pedals that you set up before are plugged in now."
        notice(canvas, "Your pedals are back", text)


class PedalMenu(Menu[SetUpChoice]):
    """Menu for when the setup goes wrong; operated with any pedal, as none is certain yet."""

    name = "pedals menu"
    feet_choose = False
    hint = "Any pedal kept down, or Enter: yes     Tapped, or Tab: next choice     Esc: go on"

    def __init__(self, search: Search, pedal: Pedal | None = None) -> None:
        """`pedal` is the pedal being set up; None if all of them are found."""
        choices = [Choice("Go on", SetUpChoice.GO_ON, f"with the {pedal.value}" if pedal else "")]
        if pedal is not None and search.doubted is not None:
            note = f"leaves out {search.called(search.doubted)}"
            choices.append(Choice(f"That is not the {pedal.value}", SetUpChoice.REFUSE, note))
        choices += [
            Choice("Set up again from the start", SetUpChoice.ALL),
            Choice("Stop setting up", SetUpChoice.STOP, "the pedals stay as they were"),
        ]
        super().__init__(choices, back=SetUpChoice.GO_ON)
        self._search = search
        self._chosen = TapOrStay()
        self._focused = True

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus; without it, pedals choose nothing."""
        self._focused = focused
        self._chosen = TapOrStay()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Choose with any pedal: a tap selects the next choice, a held pedal confirms."""
        shares = self._search.presses.shares(self._search.values())
        if not self._focused:
            return
        match self._chosen.feed(now, shares):
            case Gesture.GO:
                self.on_action(Action.GO)
            case Gesture.NEXT:
                self.on_action(Action.NEXT)

    def appearance(self) -> Hashable:
        """State that the picture depends on: the choices, and the progress of a held pedal."""
        return super().appearance(), round(20 * self._chosen.progress)

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw the menu, with the progress of a held pedal towards confirming a choice."""
        super().draw(surface, self._chosen.progress)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading, and what to do before choosing."""
        y = title(canvas, "Setting up the pedals") + 20
        canvas.text("Let go of all pedals first.", (theme.MARGIN, y), theme.BODY, theme.QUIET)


class PedalsFound(Menu[Pedal | SetUpChoice]):
    """Menu after all pedals are found: shows each as it moves, to be saved or set up again."""

    name = "pedals found"

    def __init__(self, lines: Mapping[Pedal, str], health: str = "") -> None:
        """`lines` describes for each found pedal its device and axis, `health` what it can show."""
        choices: list[Choice[Pedal | SetUpChoice]] = [
            Choice("Keep them", SetUpChoice.KEEP),
            Choice("Start over", SetUpChoice.ALL),
        ]
        choices += [Choice(f"{capitalized(pedal.value)} again", pedal) for pedal in lines]
        super().__init__(choices, back=SetUpChoice.STOP)
        self._lines = lines
        self._health = health
        self._percent = dict.fromkeys(lines, 0.0)
        self._still = {pedal: Still() for pedal in lines}
        self._resting: Pedal | None = None

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Update the drawn positions of the pedals, and whether one rests too far from its end."""
        if sample is None:
            return
        self._resting = None
        for pedal, still in self._still.items():
            percent = sample.of(pedal) or 0.0
            self._percent[pedal] = percent
            stayed = still.take(now, percent, LEAST_REST)
            if LEAST_REST < percent < MOST_REST and stayed >= RESTS_FOR:
                self._resting = self._resting or pedal

    def appearance(self) -> Hashable:
        """State that the picture depends on: the choices, and the positions of the pedals."""
        places = [track_step(percent / 100) for percent in self._percent.values()]
        return super().appearance(), self._resting, *places

    def picture(self, canvas: Canvas) -> None:
        """Draw each found pedal with its axis and its position."""
        y = title(canvas, "The pedals are set up")
        for pedal, line in self._lines.items():
            canvas.text(f"{capitalized(pedal.value)}: {line}", (theme.MARGIN, y), theme.SMALL)
            place = self._percent[pedal] / 100
            track(canvas, (theme.MARGIN + 30, y + 78), TRACK, place, COLOURS[pedal])
            y += 124
        if self._resting is not None:
            note = resting_words(self._resting, self._percent[self._resting])
            canvas.text(note, (theme.MARGIN, y), theme.SMALL)
        elif self._health:
            canvas.text(self._health, (theme.MARGIN, y), theme.SMALL)
