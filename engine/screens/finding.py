"""Finding the pedals by moving them, and learning where their ends are."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping

from drills.trace import Sample, nanoseconds
from engine.pedals.calibration import Range
from engine.pedals.finder import Finder, Motion, Trouble
from engine.pedals.identity import Axis
from engine.screens import theme
from engine.screens.base import Choice, Menu, Pace, Screen, title
from engine.screens.canvas import Canvas
from engine.stage.actions import Action

Values = Callable[[], Mapping[Axis, float]]
Found = tuple[Axis, Range]

AT_REST = nanoseconds(1.0)
"""ns everything must be still before a pedal is looked for."""
QUIET_WITHIN = 0.1
"""raw, movement that still counts as nothing moving."""

COLOURS = {"brake": theme.BRAKE, "throttle": theme.THROTTLE, "clutch": theme.CLUTCH}
PROMPTS = {
    Motion.FIND: "Press the {} down and hold it",
    Motion.RELEASE: "Let it go",
    Motion.FULL: "Press it fully and hold it",
    Motion.AGAIN: "Let it go once more",
    Motion.FOUND: "Found",
}
FULLY = {
    "brake": "Fully is as hard as you would ever brake, not as hard as you can.",
    "throttle": "Fully is down to the stop.",
    "clutch": "Fully is down to the stop.",
}
TROUBLES = {
    Trouble.TAKEN: "That pedal is set up already. Press the {}.",
    Trouble.SHARED: "Brake and throttle move one shared axis and cancel each other, so this set "
    "cannot show heel-and-toe. Look for a separate-axes setting of the device.",
    Trouble.PRESSED: "It still reads as pressed. If your foot is off it, keep it off: "
    "this begins again.",
}


class FindPedal(Screen):
    """Finds one pedal. Ends with its axis and ends, with SKIPPED, or with False on going back."""

    name = "pedals"
    pace = Pace.LIVE
    SKIPPED = "skipped"

    def __init__(
        self, pedal: str, values: Values, taken: Mapping[Axis, Range], *, optional: bool
    ) -> None:
        super().__init__()
        self._pedal = pedal
        self._values = values
        self._taken = taken
        self._optional = optional
        self._finder: Finder | None = None
        self._rest: dict[Axis, float] = {}
        self._quiet_since: int | None = None
        self._tapped = False

    def details(self) -> Mapping[str, object]:
        """Which pedal is looked for."""
        return {"pedal": self._pedal, "step": self.step}

    @property
    def step(self) -> str:
        """What is waited for: "rest" first, then the steps of the finder."""
        return "rest" if self._finder is None else self._finder.motion.value

    def on_action(self, action: Action) -> None:
        """Going on leaves an optional pedal out."""
        if action is Action.BACK:
            self.outcome = False
        elif action is Action.GO and self._optional:
            self.outcome = self.SKIPPED

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Look at every axis of every device."""
        values = self._values()
        if self._finder is None:
            self._wait_for_rest(values, now)
            return
        self._finder.feed(now, values)
        if self._finder.found is not None:
            self.outcome = self._finder.found
        elif self._optional and self._finder.trouble is Trouble.TAKEN:
            self.outcome = self.SKIPPED

    def appearance(self) -> Hashable:
        """The step, and what went wrong."""
        return self.step, None if self._finder is None else self._finder.trouble

    def draw(self, canvas: Canvas, press: float) -> None:
        """What to do with the foot."""
        y = title(canvas, f"Set up the {self._pedal}")
        canvas.box((theme.MARGIN, y), (220, 14), COLOURS[self._pedal], 7)
        prompt = "Take your feet off all pedals"
        trouble = None
        if self._finder is not None:
            prompt = PROMPTS[self._finder.motion].format(self._pedal)
            trouble = self._finder.trouble
        canvas.text(prompt, (theme.WIDTH / 2, 330), theme.HUGE * 0.8, theme.TEXT, "centre")
        width = theme.WIDTH - 2 * theme.MARGIN
        notes = [FULLY[self._pedal]]
        if trouble is not None:
            notes.append(TROUBLES[trouble].format(self._pedal))
        if self._optional:
            notes.append("Without one: press the brake once, or Enter, to go on.")
        y = 560.0
        for note in notes:
            y = canvas.text(note, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 24
        canvas.text("Esc: back", (theme.WIDTH / 2, 1022), theme.SMALL, theme.QUIET, "centre")

    def _wait_for_rest(self, values: Mapping[Axis, float], now: int) -> None:
        moved = self._rest.keys() != values.keys() or any(
            abs(value - self._rest[axis]) > QUIET_WITHIN for axis, value in values.items()
        )
        if moved or self._quiet_since is None:
            self._rest, self._quiet_since = dict(values), now
        elif now - self._quiet_since >= AT_REST and values:
            self._finder = Finder(self._taken)


class PedalsFound(Menu):
    """All pedals are found. Ends with True to keep them, False to start over."""

    name = "pedals found"

    def __init__(self, lines: Mapping[str, str]) -> None:
        """`lines` says for each pedal where it was found."""
        super().__init__([Choice("Keep them", True), Choice("Start over", False)], back=False)
        self._lines = lines

    def picture(self, canvas: Canvas) -> None:
        """Each pedal and its device."""
        y = title(canvas, "The pedals are set up") + 20
        for pedal, line in self._lines.items():
            canvas.box((theme.MARGIN, y), (14, 50), COLOURS[pedal], 7)
            y = canvas.text(f"{pedal}: {line}", (theme.MARGIN + 44, y + 8), theme.BODY) + 24
