"""The choices of setting up: which pedal, what to do when stuck, and whether to keep the result."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Mapping
from enum import Enum

import pygame

from drills.trace import Pedal, Sample, nanoseconds
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.pedals.gestures import Gesture
from engine.pedals.together import TapOrStay
from engine.pedals.travel import Still
from engine.setup.finding_screens import COLOURS
from engine.setup.search_screen import Search, track, track_step
from engine.setup.words import capital, resting_said
from engine.stage.actions import Action

LEAST_REST = 3.0
"""%, a pedal that rests above this is spoken of: the smallest blip begins at little more."""
TRACK = 1600
"""units, length of the line that a pedal is drawn on."""
MOST_REST = 25.0
"""%, and one above this is pressed."""
RESTS_FOR = nanoseconds(1.5)
"""ns it must stay within LEAST_REST to rest there."""


class SetUpChoice(Enum):
    """What is to be done."""

    ALL = "all"
    KEEP = "keep"
    GO_ON = "go on"
    REFUSE = "refuse"
    STOP = "stop"


class WhichPedals(Menu[Pedal | SetUpChoice]):
    """Pedals are set up already: all of them anew, or a single one."""

    name = "which pedals"

    def __init__(self, lines: Mapping[Pedal, str]) -> None:
        """`lines` says for each pedal where it is."""
        choices: list[Choice[Pedal | SetUpChoice]] = [Choice("All pedals", SetUpChoice.ALL)]
        for pedal in Pedal:
            label = f"{capital(pedal.value)} only" if pedal in lines else f"Add a {pedal.value}"
            choices.append(Choice(label, pedal, lines.get(pedal, "")))
        choices.append(Choice("Back", SetUpChoice.STOP))
        super().__init__(choices, back=SetUpChoice.STOP)

    def picture(self, canvas: Canvas) -> None:
        """What is asked."""
        y = title(canvas, "Set up the pedals") + 20
        canvas.text("Which of them? The others stay as they are.", (theme.MARGIN, y), theme.BODY)


class SavedCame(Menu[SetUpChoice]):
    """The pedals that were set up before are plugged in while others are set up."""

    name = "pedals came"

    def __init__(self) -> None:
        choices = [
            Choice("Play with them", SetUpChoice.KEEP),
            Choice("Go on setting up", SetUpChoice.GO_ON),
        ]
        super().__init__(choices, back=SetUpChoice.GO_ON)

    def picture(self, canvas: Canvas) -> None:
        """What happened."""
        y = title(canvas, "Your pedals are back") + 20
        canvas.text(
            "The pedals that you set up before are plugged in now.",
            (theme.MARGIN, y),
            theme.BODY + 6,
            width=theme.WIDTH - 2 * theme.MARGIN,
        )


class PedalMenu(Menu[SetUpChoice]):
    """What to do when setting up goes wrong; chosen by any pedal, as none is known for sure."""

    name = "pedals menu"
    feet_choose = False
    hint = "Any pedal kept down, or Enter: yes     Tapped, or Tab: next choice     Esc: go on"

    def __init__(self, search: Search, pedal: Pedal | None = None) -> None:
        """`pedal` is the one being set up; None where all are found."""
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
        """Feet choose nothing while another window has the focus."""
        self._focused = focused
        self._chosen = TapOrStay()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Choose with any pedal."""
        shares = self._search.presses.shares(self._search.values())
        if not self._focused:
            return
        match self._chosen.feed(now, shares):
            case Gesture.GO:
                self.on_action(Action.GO)
            case Gesture.NEXT:
                self.on_action(Action.NEXT)

    def appearance(self) -> Hashable:
        """The choice, and how far it has got."""
        return super().appearance(), round(20 * self._chosen.progress)

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw all of it."""
        super().draw(surface, self._chosen.progress)

    def picture(self, canvas: Canvas) -> None:
        """What is asked."""
        y = title(canvas, "Setting up the pedals") + 20
        canvas.text("Let go of all pedals first.", (theme.MARGIN, y), theme.BODY, theme.QUIET)


class PedalsFound(Menu[Pedal | SetUpChoice]):
    """All pedals are found: each is shown as it is moved, to be kept or set up again."""

    name = "pedals found"

    def __init__(self, lines: Mapping[Pedal, str], again: Collection[Pedal] = tuple(Pedal)) -> None:
        """`lines` says for each pedal where it was found."""
        choices: list[Choice[Pedal | SetUpChoice]] = [
            Choice("Keep them", SetUpChoice.KEEP),
            Choice("Start over", SetUpChoice.ALL),
        ]
        choices += [
            Choice(f"{capital(pedal.value)} again", pedal) for pedal in lines if pedal in again
        ]
        super().__init__(choices, back=SetUpChoice.STOP)
        self._lines = lines
        self._percent = dict.fromkeys(lines, 0.0)
        self._still = {pedal: Still() for pedal in lines}
        self._resting: Pedal | None = None

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """See where the pedals are, and whether one rests where it should not."""
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
        """The choice, and where the pedals are."""
        places = [track_step(percent / 100) for percent in self._percent.values()]
        return super().appearance(), self._resting, *places

    def picture(self, canvas: Canvas) -> None:
        """Each pedal, its axis, and where it is."""
        y = title(canvas, "The pedals are set up")
        for pedal, line in self._lines.items():
            canvas.text(f"{capital(pedal.value)}: {line}", (theme.MARGIN, y), theme.SMALL)
            place = self._percent[pedal] / 100
            track(canvas, (theme.MARGIN + 30, y + 78), TRACK, place, COLOURS[pedal])
            y += 124
        if self._resting is not None:
            said = resting_said(self._resting, self._percent[self._resting])
            canvas.text(said, (theme.MARGIN, y), theme.SMALL)
