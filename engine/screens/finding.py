"""Finding the pedals by moving them, and learning where their ends are."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.trace import Pedal, Sample
from engine.pedals.calibration import Range
from engine.pedals.finder import AtRest, Finder, Motion, Trouble
from engine.pedals.identity import Axis
from engine.screens import theme, widgets
from engine.screens.base import Choice, Menu, Screen, title
from engine.screens.canvas import Canvas
from engine.stage.actions import Action
from engine.stage.scene import Pace

Values = Callable[[], Mapping[Axis, float]]

COLOURS = {
    Pedal.BRAKE: theme.BRAKE,
    Pedal.THROTTLE: theme.THROTTLE,
    Pedal.CLUTCH: theme.CLUTCH,
}
PROMPTS = {
    Motion.FIND: "Press the {} down and hold it",
    Motion.RELEASE: "Let it go",
    Motion.FULL: "Press it fully and hold it",
    Motion.AGAIN: "Let it go once more",
    Motion.FOUND: "Found",
}
FULLY = {
    Pedal.BRAKE: "Fully is as hard as you would ever brake, not as hard as you can.",
    Pedal.THROTTLE: "Fully is down to the stop.",
    Pedal.CLUTCH: "Fully is down to the stop.",
}
TROUBLES = {
    Trouble.TAKEN: "That pedal is set up already. Press the {}.",
    Trouble.SHARED: "Brake and throttle move one shared axis and cancel each other, so this set "
    "cannot show heel-and-toe. Look for a separate-axes setting of the device.",
    Trouble.PRESSED: "If your foot is off it already, it was on it before. Keep it off: this "
    "begins again by itself.",
}
FEET_OFF = "Take your feet off all pedals"


class Gone(Enum):
    """Why the search for a pedal ended without one."""

    SKIPPED = "skipped"
    """It need not be there."""
    BACK = "back"
    """The player would rather not."""
    LOST = "lost"
    """A pedal that was found before was unplugged or plugged anew, or nothing is plugged in."""
    PRESSED = "pressed"
    """A pedal that was found before reads as pressed while the feet are off."""


NOTES = {
    Gone.LOST: "The pedals were unplugged, so this begins again with the brake.",
    Gone.PRESSED: "A pedal read as pressed with the feet off, so this begins again with the brake.",
}
"""Why it begins again."""


@dataclass(frozen=True)
class Found:
    """One pedal that was found."""

    axis: Axis
    """Where."""
    range: Range
    """Its ends."""


class FeetOff(Screen[bool | Gone]):
    """Waits until nothing is pressed. Ends with True, or why it cannot go on."""

    name = "pedals"

    def __init__(
        self, values: Values, known: Mapping[Pedal, Found], heading: str, note: str = ""
    ) -> None:
        """`known` are the pedals found so far, `note` says why this begins again."""
        super().__init__()
        self._values = values
        self._known = {one.axis: one.range for one in known.values()}
        self._heading = heading
        self._note = note
        self._names = {one.axis: pedal.value for pedal, one in known.items()}
        self._rest = AtRest(self._known)

    @property
    def pace(self) -> Pace:
        """Pedals are read often."""
        return Pace.LIVE

    def details(self) -> Mapping[str, object]:
        """What is waited for."""
        return {"step": "rest", "known": len(self._known)}

    def on_action(self, action: Action) -> None:
        """Only going back means something here."""
        if action is Action.BACK:
            self.outcome = Gone.BACK

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Look at every axis of every device."""
        values = self._values()
        if not values or not self._known.keys() <= values.keys():
            self.outcome = Gone.LOST
            return
        self._rest.feed(now, values)
        if self._rest.contradicts:
            self.outcome = Gone.PRESSED
        elif self._rest.rested:
            self.outcome = True

    def appearance(self) -> Hashable:
        """A pedal that reads as pressed."""
        return self._rest.pressed

    def paint(self, canvas: Canvas, press: float) -> None:
        """What to do with the feet."""
        notes = [self._note] if self._note else []
        if self._rest.pressed is not None:
            name = self._names[self._rest.pressed]
            notes = [f"The {name} reads as pressed. If it is not, wait: this begins again."]
        _paint(canvas, self._heading, None, FEET_OFF, notes)


class FindPedal(Screen[Found | Gone]):
    """Finds one pedal. Ends with where it is, or why there is none."""

    name = "pedals"

    def __init__(
        self, pedal: Pedal, values: Values, known: Mapping[Pedal, Found], *, optional: bool
    ) -> None:
        """`known` are the pedals found so far; an optional pedal may be left out."""
        super().__init__()
        self._pedal = pedal
        self._values = values
        self._known = {one.axis: one.range for one in known.values()}
        self._optional = optional
        self._finder = Finder(self._known)

    @property
    def pace(self) -> Pace:
        """Pedals are read often."""
        return Pace.LIVE

    def details(self) -> Mapping[str, object]:
        """Which pedal is looked for, and which movement is waited for."""
        return {"pedal": self._pedal.value, "step": self._finder.motion.value}

    def on_action(self, action: Action) -> None:
        """Going on leaves an optional pedal out."""
        if action is Action.BACK:
            self.outcome = Gone.BACK
        elif action is Action.GO and self._optional:
            self.outcome = Gone.SKIPPED

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Look at every axis of every device."""
        values = self._values()
        if not values or not self._known.keys() <= values.keys():
            self.outcome = Gone.LOST
            return
        self._finder.feed(now, values)
        if self._finder.found is not None:
            self.outcome = Found(*self._finder.found)
        elif self._optional and self._finder.trouble is Trouble.TAKEN:
            self.outcome = Gone.SKIPPED

    def appearance(self) -> Hashable:
        """The movement waited for, and what went wrong."""
        return self._finder.motion, self._finder.trouble

    def paint(self, canvas: Canvas, press: float) -> None:
        """What to do with the foot."""
        name = self._pedal.value
        motion, trouble = self._finder.motion, self._finder.trouble
        notes = [FULLY[self._pedal]] if motion is Motion.FULL else []
        if trouble is Trouble.PRESSED and motion is Motion.FIND:
            notes.append("It begins again, as the foot was on it before.")
        elif trouble is not None:
            notes.append(TROUBLES[trouble].format(name))
        if self._optional and motion is Motion.FIND:
            notes.append("Without one: press the brake once, or Enter, to go on.")
        prompt = PROMPTS[motion].format(name)
        _paint(canvas, heading(self._pedal), self._pedal, prompt, notes)


class PedalsFound(Menu[bool]):
    """All pedals are found. Ends with True to keep them, False to start over."""

    name = "pedals found"

    def __init__(self, lines: Mapping[Pedal, str]) -> None:
        """`lines` says for each pedal where it was found."""
        super().__init__([Choice("Keep them", True), Choice("Start over", False)], back=False)
        self._lines = lines

    def picture(self, canvas: Canvas) -> None:
        """Each pedal and its device."""
        y = title(canvas, "The pedals are set up") + 20
        for pedal, line in self._lines.items():
            canvas.box((theme.MARGIN, y), (14, 50), COLOURS[pedal], 7)
            y = canvas.text(f"{pedal.value}: {line}", (theme.MARGIN + 44, y + 8), theme.BODY) + 24


def heading(pedal: Pedal) -> str:
    """What is being done for a pedal."""
    return f"Set up the {pedal.value}"


def _paint(
    canvas: Canvas, heading: str, pedal: Pedal | None, prompt: str, notes: Sequence[str]
) -> None:
    y = title(canvas, heading)
    if pedal is not None:
        canvas.box((theme.MARGIN, y), (220, 14), COLOURS[pedal], 7)
    canvas.text(prompt, (theme.WIDTH / 2, 330), theme.HUGE * 0.8, theme.TEXT, "centre")
    width = theme.WIDTH - 2 * theme.MARGIN
    y = 560.0
    for note in notes:
        y = canvas.text(note, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 24
    widgets.foot(canvas, "Esc: back")
