"""Screens that find a pedal by its movement and learn the raw values at its ends."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

from drills.calibration import Range
from drills.trace import Pedal
from engine.kit import theme
from engine.kit.canvas import Canvas
from engine.pedals.at_rest import AtRest
from engine.pedals.ends import RETURNED
from engine.pedals.finder import Finder, Found
from engine.pedals.identity import Axis
from engine.pedals.travel import NEAR
from engine.pedals.trouble import Motion, Trouble
from engine.setup.search import Search, SearchEnd
from engine.setup.search_screen import TRACKS, SearchScreen, count_dots, track, track_step
from engine.setup.words import (
    FEET_OFF,
    FULLY,
    NO_CLUTCH,
    PROMPTS,
    TWO_PEDALS,
    left_out_words,
    middle_words,
    moving_axis_words,
    moving_pedal_words,
    pressed_words,
    refused_words,
    trouble_words,
)
from engine.stage.actions import Action

COLOURS = {
    Pedal.BRAKE: theme.BRAKE,
    Pedal.THROTTLE: theme.THROTTLE,
    Pedal.CLUTCH: theme.CLUTCH,
}
TRACK = 1200
"""Length of the line along which a searched pedal is drawn, in canvas units."""
TRACK_LEFT = (theme.WIDTH - TRACK) / 2
"""Left end of the line along which a pedal is drawn, in canvas units."""
MOTIONS = tuple(PROMPTS)
"""Movements of a pedal that is set up, in order; the last one is none."""
NAME_AT = (theme.WIDTH / 2, TRACKS + 56)
"""Place of the name of the axis that was found, in canvas units."""
BETWEEN = 70
"""Distance between the lines along which two pedals are drawn, in canvas units."""


@dataclass(frozen=True)
class Rested:
    """Outcome of FeetOff: the feet are off all pedals."""


@dataclass(frozen=True)
class Retry:
    """Outcome of FindPedal: search for the pedal again, once the feet are off."""

    note: str
    """Reason for the new search, shown to the player."""


class FeetOff(SearchScreen[Rested]):
    """Screen that waits until no pedal is pressed, and measures the noise of every axis meanwhile.

    The noise, and the axes that keep moving, are stored in the search.
    """

    def __init__(self, search: Search, heading: str, note: str = "") -> None:
        """`note` is the reason why the search begins again, if it does, shown to the player."""
        super().__init__(search)
        self._heading = heading
        self._note = note
        self._pedals = {found.axis: pedal for pedal, found in search.found.items()}
        self._rest = AtRest(search.taken)
        self._values: Mapping[Axis, float] = {}

    def on_focus(self, focused: bool, now: int) -> None:
        """Start the wait again: the axes were not read while another window had the focus."""
        super().on_focus(focused, now)
        self._rest = AtRest(self._search.taken)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the step of the search, and the number of pedals found."""
        return {"step": "rest", "known": len(self._pedals)}

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """End once every axis rests, or if a pedal found before is pressed after all."""
        self._values = values
        self._rest.feed(now, values)
        if self._rest.contradicts:
            self.outcome = SearchEnd.PRESSED
        elif self._rest.rested:
            search = self._search
            search.noise, search.left_out = self._rest.noise, sorted(self._rest.left_out)
            search.presses.rest(values, search.noise)
            for pedal in search.found.keys() - search.fixed:
                search.found[pedal] = self._settled(search.found[pedal], values)
            self.outcome = Rested()

    def _settled(self, pedal: Found, values: Mapping[Axis, float]) -> Found:
        """Found pedal, its released end moved outwards if a foot was still on it when found."""
        value = values[pedal.axis]
        out = -pedal.range.percent(value) / 100
        if RETURNED < out < NEAR and value != 0.0:
            return Found(pedal.axis, Range(value, pedal.range.full))
        return pedal

    def appearance(self) -> Hashable:
        """State that the picture depends on: pedal positions, and the pressed or moving axis."""
        places = [track_step(place) for place, _ in self._tracks()]
        rest = self._rest
        return *places, rest.pressed, rest.moving, self._focused, self._search.unopened()

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the instruction to take the feet off, and the positions of the pedals."""
        self._frame(canvas, (self._heading, theme.QUIET), FEET_OFF, self._notes())
        for number, (place, colour) in enumerate(self._tracks()):
            start = (TRACK_LEFT, TRACKS + BETWEEN * number)
            wanted = None if colour is theme.QUIET else (0.0, 0.0)
            track(canvas, start, TRACK, place, colour, wanted)
        self._foot(canvas, [(TWO_PEDALS if self._pedals else "Esc: back", Action.BACK)])

    def _notes(self) -> list[str]:
        pressed, moving = self._rest.pressed, self._rest.moving
        if pressed is not None:
            return [pressed_words(self._pedals[pressed])]
        if moving in self._pedals:
            return [moving_pedal_words(self._pedals[moving])]
        if moving is not None:
            return [moving_axis_words(self._search.called(moving))]
        return [self._note] if self._note else []

    def _tracks(self) -> list[tuple[float, tuple[int, int, int]]]:
        """Position and colour of each found pedal, and of another axis that keeps moving."""
        places = [
            (found.range.percent(self._values[found.axis]) / 100, COLOURS[pedal])
            for pedal, found in self._search.found.items()
            if found.axis in self._values
        ]
        moving = self._rest.moving
        if moving is not None and moving not in self._pedals:
            places = [*places[:2], ((self._values[moving] + 1) / 2, theme.QUIET)]
        return places


class FindPedal(SearchScreen[Found | Retry]):
    """Screen that finds one pedal. Its outcome is the pedal, or why the search ended without it."""

    def __init__(self, pedal: Pedal, search: Search, note: str = "") -> None:
        """A clutch may be left out; `note` tells why the search begins again, if it does."""
        super().__init__(search)
        self._pedal = pedal
        self._optional = pedal is Pedal.CLUTCH
        self._note = note
        self._finder = Finder(search.noise, search.taken, search.refused)

    @property
    def axis(self) -> Axis | None:
        """Axis taken so far for the pedal that is searched for; None if there is none."""
        return self._finder.axis

    def on_focus(self, focused: bool, now: int) -> None:
        """Begin again with the feet off: pedals may have moved without focus."""
        if focused and not self._focused:
            self.outcome = Retry("")
        super().on_focus(focused, now)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the pedal, the movement waited for, and any trouble."""
        trouble = self._finder.trouble
        details = {"pedal": self._pedal.value, "step": self._finder.motion.value}
        return details if trouble is None else {**details, "trouble": trouble.value}

    def on_action(self, action: Action) -> None:
        """GO leaves out an optional pedal; NEXT refuses the axis found and searches for another."""
        if action is Action.GO and self._optional:
            self.outcome = SearchEnd.SKIPPED
        elif action is Action.NEXT and self.axis is not None:
            self._search.refused = {*self._finder.refused, self.axis}
            self.outcome = Retry(refused_words(self._search.called(self.axis)))
        else:
            super().on_action(action)

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """Feed the finder, and end once it has found the pedal or cannot find it."""
        finder = self._finder
        finder.feed(now, values)
        self._search.refused = set(finder.refused)
        if finder.found is not None:
            self.outcome = finder.found
        elif finder.trouble is Trouble.THROUGH and finder.motion is Motion.FIND:
            self.outcome = Retry(self._trouble_words(Trouble.THROUGH))
        elif self._optional and finder.trouble is Trouble.TAKEN:
            self.outcome = SearchEnd.SKIPPED

    def appearance(self) -> Hashable:
        """State that the picture depends on: movement asked for, pedal position, any trouble."""
        finder = self._finder
        percent = round(100 * finder.share)
        place = track_step(finder.position.place)
        return (
            finder.motion,
            finder.trouble,
            finder.about,
            finder.axis,
            place,
            percent,
            self._focused,
            self._search.unopened(),
        )

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the movement to make, and the position of the pedal."""
        motion, position = self._finder.motion, self._finder.position
        over = (self._pedal.value, COLOURS[self._pedal])
        self._frame(canvas, over, PROMPTS[motion], self._notes())
        wanted = (position.low, position.high)
        track(canvas, (TRACK_LEFT, TRACKS), TRACK, position.place, COLOURS[self._pedal], wanted)
        taken = self.axis or self._finder.moving
        if taken is not None:
            named = canvas.fitted(self._search.called(taken), theme.ACROSS, theme.SMALL)
            canvas.text(named, NAME_AT, theme.SMALL, theme.QUIET, "centre")
        count_dots(canvas, MOTIONS.index(motion), len(MOTIONS) - 1)
        begun = self.axis is not None or self._search.found
        buttons = [(TWO_PEDALS if begun else "Esc: back", Action.BACK)]
        if self.axis is not None:
            buttons.insert(0, (f"Tab: not the {self._pedal.value}", Action.NEXT))
        elif self._optional:
            buttons.insert(0, ("Enter: no clutch", Action.GO))
        self._foot(canvas, buttons)

    def _notes(self) -> Sequence[str]:
        finder, notes = self._finder, []
        if finder.trouble is not None:
            notes = [self._trouble_words(finder.trouble)]
        elif finder.motion is Motion.FULL:
            notes = [FULLY[self._pedal]]
            notes += [note for note in [middle_words(finder.rest)] if note]
        elif self._note and finder.motion is Motion.FIND:
            notes = [self._note]
        if finder.motion is Motion.FIND:
            notes += self._asides()
        return notes

    def _asides(self) -> list[str]:
        """Notes beside the instruction: how to leave out a pedal, or which axes are ignored."""
        if self._optional:
            return [NO_CLUTCH]
        left_out = self._search.left_out
        if left_out and self._finder.trouble is None:
            return [left_out_words(self._search.called(left_out[0]), len(left_out) - 1)]
        return []

    def _trouble_words(self, trouble: Trouble) -> str:
        finder = self._finder
        about = "" if finder.about is None else self._search.called(finder.about)
        return trouble_words(trouble, finder.motion, self._pedal, about, finder.share)
