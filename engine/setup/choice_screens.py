"""Menus of the setup: which pedals to set up, what to do when stuck, what to save."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from drills.capitals import capitalised, uncapitalised
from drills.trace import Pedal, Sample, nanoseconds
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.pedals.travel import Still
from engine.setup.any_pedal_menu import AnyPedalMenu, SetUpChoice
from engine.setup.finding_screens import COLOURS
from engine.setup.search import Search
from engine.setup.search_screen import track, track_step
from engine.setup.words import (
    BACK,
    BACK_NOW,
    FULLY,
    LET_GO,
    OTHERS_STAY,
    SET_UP,
    SETTING_UP,
    SOFT,
    TRY_THEM,
    WHICH,
    resting_words,
)

LEAST_REST = 3.0
"""Resting position of a pedal above which a note is shown, in %: the smallest blip is little
more."""
TRACK = 1580
"""Length of the line along which a found pedal is drawn, in canvas units."""
PITCH = 158
"""Distance from one found pedal to the next, in canvas units: three and a note fit."""
NOTE_TOP = 792
"""Top of the note below the found pedals, in canvas units: two lines of it fit."""
MOST_REST = 25.0
"""Position above which a still pedal counts as pressed rather than resting, in %."""
RESTS_FOR = nanoseconds(1.5)
"""Time that a pedal must move by less than LEAST_REST to count as resting, in ns."""


class WhichPedals(Menu[Pedal | SetUpChoice]):
    """Menu shown if pedals are set up already: set up all of them again, or a single one."""

    name = "which pedals"
    list_top = theme.LIST

    def __init__(self, lines: Mapping[Pedal, str], shift: str | None = None) -> None:
        """`lines` describes for each pedal that is set up its device and axis.

        `shift` names the shift button, empty for none; None where no device may have one.
        """
        choices: list[Choice[Pedal | SetUpChoice]] = [Choice("All pedals", SetUpChoice.ALL)]
        for pedal in Pedal:
            label = f"{capitalised(pedal.value)} only" if pedal in lines else f"Add a {pedal.value}"
            choices.append(Choice(label, pedal, lines.get(pedal, "")))
        if shift is not None:
            label = "Shift button" if shift else "Add a shift button"
            choices.append(Choice(label, SetUpChoice.SHIFT, shift))
        choices.append(Choice("Back", SetUpChoice.STOP))
        super().__init__(choices, back=SetUpChoice.STOP)

    def picture(self, canvas: Canvas) -> None:
        """Draw the question which pedals to set up."""
        y = title(canvas, WHICH)
        canvas.text(OTHERS_STAY, (theme.MARGIN, y), theme.BODY, theme.QUIET)


class SavedPedalsBack(Menu[SetUpChoice]):
    """Menu shown when the saved pedals are plugged in while others are being set up."""

    name = "pedals came"
    in_a_bar = True

    def __init__(self) -> None:
        choices = [
            Choice("Play with them", SetUpChoice.KEEP),
            Choice("Go on setting up", SetUpChoice.GO_ON),
        ]
        super().__init__(choices, back=SetUpChoice.GO_ON)

    def picture(self, canvas: Canvas) -> None:
        """Draw that the saved pedals are plugged in, and what the player can do."""
        statement(canvas, BACK, BACK_NOW)


class PedalMenu(AnyPedalMenu[SetUpChoice]):
    """Menu for when the setup goes wrong, and for a player who has tried the found pedals."""

    name = "pedals menu"
    list_top = theme.LIST
    back_word = "go on"

    def __init__(self, search: Search, pedal: Pedal | None = None, *, tried: bool = False) -> None:
        """`pedal` is the pedal being set up; None if all of them are found.

        `tried` says that the player tried the found pedals, and so can keep them here.
        """
        choices = [Choice("Keep them", SetUpChoice.KEEP)] if tried else []
        note = "try them further" if tried else f"with the {pedal.value}" if pedal else ""
        choices.append(Choice("Go on", SetUpChoice.GO_ON, note))
        if pedal is not None and search.doubted is not None:
            note = search.called(search.doubted)
            choices.append(Choice(f"That is not the {pedal.value}", SetUpChoice.REFUSE, note))
        choices += [
            Choice("Set up again from the start", SetUpChoice.ALL),
            Choice("Stop setting up", SetUpChoice.STOP, "the pedals stay as they were"),
        ]
        super().__init__(search.shares, choices, back=SetUpChoice.GO_ON)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading, and what to do before choosing."""
        y = title(canvas, SETTING_UP)
        canvas.text(LET_GO, (theme.MARGIN, y), theme.BODY, theme.QUIET)


class SoftPress(AnyPedalMenu[SetUpChoice]):
    """Question whether a pedal was pressed fully that used only a part of its axis."""

    name = "soft press"
    in_a_bar = True
    back_word = "press it again"

    def __init__(self, search: Search, pedal: Pedal, share: float) -> None:
        """`share` is the part of its axis that the pedal used, from 0 to 1."""
        choices = [
            Choice("Press it again", SetUpChoice.AGAIN),
            Choice("Yes, a full press", SetUpChoice.KEEP),
        ]
        super().__init__(search.shares, choices, back=SetUpChoice.AGAIN)
        self._pedal = pedal
        self._share = share

    def picture(self, canvas: Canvas) -> None:
        """Draw the question, and how little of the axis the presses used."""
        used = f"{100 * self._share:.0f} % of the {self._pedal.value}'s axis was used."
        statement(canvas, SOFT, used, note=f"A full press: {uncapitalised(FULLY[self._pedal])}")


class PedalsFound(Menu[Pedal | SetUpChoice]):
    """Menu after all pedals are found: shows each as it moves, to be saved or set up again.

    Pedals are tried here, so no press of one chooses: keys, buttons and the mouse do. Brake and
    throttle held down together open the menu, as everywhere; a player with pedals alone keeps them
    there. That decides nothing by itself, so that trying both at once does no harm.
    """

    name = "pedals found"
    feet_choose = False
    in_a_bar = True
    back_word = "menu"

    def __init__(self, lines: Mapping[Pedal, str], health: str = "") -> None:
        """`lines` describes for each found pedal its device and axis, `health` what it can show."""
        choices: list[Choice[Pedal | SetUpChoice]] = [
            Choice("Keep them", SetUpChoice.KEEP),
            Choice("Start over", SetUpChoice.ALL),
        ]
        choices += [Choice(f"{capitalised(pedal.value)} again", pedal) for pedal in lines]
        choices.append(Choice("Menu", SetUpChoice.STOP))
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
        y = title(canvas, SET_UP)
        canvas.text(TRY_THEM, (theme.MARGIN, y), theme.BODY, theme.QUIET)
        y += 1.8 * theme.BODY
        for pedal, line in self._lines.items():
            canvas.text(pedal.value, (theme.MARGIN, y), theme.BODY, COLOURS[pedal])
            named = canvas.fitted(line, TRACK, theme.SMALL)
            right = theme.WIDTH - theme.MARGIN
            canvas.text(named, (right, y + 8), theme.SMALL, theme.QUIET, "right")
            place = self._percent[pedal] / 100
            track(canvas, (theme.MARGIN + 30, y + 90), TRACK, place, COLOURS[pedal])
            y += PITCH
        note = self._health
        if self._resting is not None:
            note = resting_words(self._resting, self._percent[self._resting])
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(note, (theme.MARGIN, NOTE_TOP), theme.SMALL, width=width)
