"""Finding the pedals by moving them, and learning where their ends are."""

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
from engine.setup.search_screen import Gone, Search, SearchScreen, track, track_step
from engine.setup.words import (
    FEET_OFF,
    FULLY,
    PROMPTS,
    heading,
    left_out_said,
    middle_said,
    moving_said,
    pedal_moving_said,
    pressed_said,
    refused_said,
    trouble_said,
)
from engine.stage.actions import Action

COLOURS = {
    Pedal.BRAKE: theme.BRAKE,
    Pedal.THROTTLE: theme.THROTTLE,
    Pedal.CLUTCH: theme.CLUTCH,
}
TRACK = 1200
"""units, length of the line that a pedal is drawn on."""
TRACK_LEFT = (theme.WIDTH - TRACK) / 2
"""units from the left, where it begins."""
NAME_AT = (theme.WIDTH / 2, 550)
"""units, where the axis is named."""
BETWEEN = 70
"""units, from one such line to the next."""


@dataclass(frozen=True)
class Rested:
    """The feet are off all pedals."""


@dataclass(frozen=True)
class Retry:
    """The pedal is to be looked for anew, once the feet are off."""

    note: str
    """Why."""


class FeetOff(SearchScreen[Rested]):
    """Waits until nothing is pressed, and measures the noise of every axis meanwhile.

    What it finds goes into the search.
    """

    def __init__(self, search: Search, heading: str, note: str = "") -> None:
        """`note` says why this begins again."""
        super().__init__(search)
        self._heading = heading
        self._note = note
        self._pedals = {one.axis: pedal for pedal, one in search.known.items()}
        self._rest = AtRest({one.axis: one.range for one in search.known.values()})
        self._values: Mapping[Axis, float] = {}

    def on_focus(self, focused: bool, now: int) -> None:
        """What was not looked at meanwhile has rested for no time yet."""
        super().on_focus(focused, now)
        self._rest = AtRest({one.axis: one.range for one in self._search.known.values()})

    def details(self) -> Mapping[str, object]:
        """What is waited for."""
        return {"step": "rest", "known": len(self._pedals)}

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """Whether everything rests."""
        self._values = values
        self._rest.feed(now, values)
        if self._rest.contradicts:
            self.outcome = Gone.PRESSED
        elif self._rest.rested:
            search = self._search
            search.noise, search.left_out = self._rest.noise, sorted(self._rest.left_out)
            search.presses.rest(values, search.noise)
            for pedal in search.known.keys() - search.kept:
                search.known[pedal] = self._settled(search.known[pedal], values)
            self.outcome = Rested()

    def _settled(self, one: Found, values: Mapping[Axis, float]) -> Found:
        """A pedal whose foot was not quite off before rests farther out than that."""
        value = values[one.axis]
        out = -one.range.percent(value) / 100
        if RETURNED < out < NEAR and value != 0.0:
            return Found(one.axis, Range(value, one.range.full))
        return one

    def appearance(self) -> Hashable:
        """Where the pedals are, and what is wrong."""
        places = [track_step(place) for place, _ in self._tracks()]
        return *places, self._rest.pressed, self._rest.moving, self._focused

    def paint(self, canvas: Canvas, press: float) -> None:
        """What to do with the feet, and where the pedals are."""
        self._frame(canvas, self._heading, FEET_OFF, self._notes())
        for number, (place, colour) in enumerate(self._tracks()):
            start = (TRACK_LEFT, 450 + BETWEEN * number)
            wanted = None if colour is theme.QUIET else (0.0, 0.0)
            track(canvas, start, TRACK, place, colour, wanted)
        self._foot(canvas, [("Esc: menu" if self._pedals else "Esc: back", Action.BACK)])

    def _notes(self) -> list[str]:
        pressed, moving = self._rest.pressed, self._rest.moving
        if pressed is not None:
            return [pressed_said(self._pedals[pressed])]
        if moving in self._pedals:
            return [pedal_moving_said(self._pedals[moving])]
        if moving is not None:
            return [moving_said(self._search.called(moving))]
        return [self._note] if self._note else []

    def _tracks(self) -> list[tuple[float, tuple[int, int, int]]]:
        """Where each pedal is that is known, or else the axis that keeps moving."""
        known = self._search.known
        places = [
            (one.range.percent(self._values[one.axis]) / 100, COLOURS[pedal])
            for pedal, one in known.items()
            if one.axis in self._values
        ]
        moving = self._rest.moving
        if moving is not None and moving not in self._pedals:
            places = [*places[:2], ((self._values[moving] + 1) / 2, theme.QUIET)]
        return places


class FindPedal(SearchScreen[Found | Retry]):
    """Finds one pedal. Ends with where it is, or why there is none."""

    def __init__(self, pedal: Pedal, search: Search, note: str = "") -> None:
        """A clutch may be left out; `note` says why this begins again."""
        super().__init__(search)
        self._pedal = pedal
        self._optional = pedal is Pedal.CLUTCH
        self._note = note
        taken = {one.axis: one.range for one in search.known.values()}
        self._finder = Finder(search.noise, taken, search.refused)

    @property
    def axis(self) -> Axis | None:
        """The axis that is taken for the pedal; None while none is."""
        return self._finder.axis

    def on_focus(self, focused: bool, now: int) -> None:
        """Nobody knows what the foot did meanwhile: begin with the feet off again."""
        if focused and not self._focused:
            self.outcome = Retry("")
        super().on_focus(focused, now)

    def details(self) -> Mapping[str, object]:
        """Which pedal is looked for, which movement is waited for, and what is wrong."""
        trouble = self._finder.trouble
        said = {} if trouble is None else {"trouble": trouble.value}
        return {"pedal": self._pedal.value, "step": self._finder.motion.value, **said}

    def on_action(self, action: Action) -> None:
        """Going on leaves an optional pedal out; the next one, please, refuses what was found."""
        if action is Action.GO and self._optional:
            self.outcome = Gone.SKIPPED
        elif action is Action.NEXT and self.axis is not None:
            self._search.refused = {*self._finder.refused, self.axis}
            self.outcome = Retry(refused_said(self._search.called(self.axis)))
        else:
            super().on_action(action)

    def look(self, values: Mapping[Axis, float], now: int) -> None:
        """Follow the pedal."""
        finder = self._finder
        finder.feed(now, values)
        self._search.refused = set(finder.refused)
        if finder.found is not None:
            self.outcome = finder.found
        elif finder.trouble is Trouble.THROUGH and finder.motion is Motion.FIND:
            self.outcome = Retry(self._said(Trouble.THROUGH))
        elif self._optional and finder.trouble is Trouble.TAKEN:
            self.outcome = Gone.SKIPPED

    def appearance(self) -> Hashable:
        """The movement waited for, where the pedal is, and what is wrong."""
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
        )

    def paint(self, canvas: Canvas, press: float) -> None:
        """What to do with the foot, and where the pedal is."""
        motion, position = self._finder.motion, self._finder.position
        prompt = PROMPTS[motion].format(self._pedal.value)
        self._frame(canvas, heading(self._pedal), prompt, self._notes())
        wanted = (position.low, position.high)
        track(canvas, (TRACK_LEFT, 480), TRACK, position.place, COLOURS[self._pedal], wanted)
        buttons = [("Esc: menu" if self.axis or self._search.known else "Esc: back", Action.BACK)]
        if self.axis is not None:
            named = f"Not the {self._pedal.value}? This is {self._search.called(self.axis)}"
            canvas.text(named, NAME_AT, theme.SMALL, theme.QUIET, "centre")
            buttons.insert(0, (f"Tab: not the {self._pedal.value}", Action.NEXT))
        elif self._finder.moving is not None:
            named = f"This is {self._search.called(self._finder.moving)}"
            canvas.text(named, NAME_AT, theme.SMALL, theme.QUIET, "centre")
        if self.axis is None and self._optional:
            buttons.insert(0, ("Enter: no clutch", Action.GO))
        self._foot(canvas, buttons)

    def _notes(self) -> Sequence[str]:
        finder, notes = self._finder, []
        if finder.trouble is not None:
            notes = [self._said(finder.trouble)]
        elif finder.motion is Motion.FULL:
            notes = [FULLY[self._pedal]]
            notes += [note for note in [middle_said(finder.rest)] if note]
        elif self._note and finder.motion is Motion.FIND:
            notes = [self._note]
        if finder.motion is Motion.FIND:
            notes += self._asides()
        return notes

    def _asides(self) -> list[str]:
        """What else there is to say while the pedal is looked for."""
        if self._optional:
            return ["Without one: press the brake once, or Enter, to go on."]
        left_out = self._search.left_out
        if left_out and self._finder.trouble is None:
            return [left_out_said(self._search.called(left_out[0]), len(left_out) - 1)]
        return []

    def _said(self, trouble: Trouble) -> str:
        finder = self._finder
        about = "" if finder.about is None else self._search.called(finder.about)
        return trouble_said(trouble, finder.motion, self._pedal, about, finder.share)
