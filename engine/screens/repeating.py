"""One repetition on the screen: the prompt, then the dark, then the cue."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping

from drills.kinds.base import Task
from drills.level import Aid, Level
from drills.measures.blip import ON
from drills.repetition import LIT, OVER, Phase, Repetition
from drills.score import Reason
from drills.trace import Sample
from engine.screens import theme, widgets
from engine.screens.base import Pace, Screen
from engine.screens.canvas import Canvas
from engine.stage.actions import Action

OnPhase = Callable[[Phase, int], None]
"""Told each phase entered and its time in ns."""
LEAN_STEPS = 20
"""steps of the bubble from the middle to a line: finer ones cannot be seen."""


class Repeating(Screen):
    """Ends with the repetition once it is done or void, or with the reason where none began."""

    name = "repetition"

    def __init__(self, level: Level, task: Task, place: tuple[int, int], on_phase: OnPhase) -> None:
        """`place` is the number of this repetition (from 1) and of those in the set."""
        super().__init__()
        self._level = level
        self._task = task
        self._place = place
        self._on_phase = on_phase
        self._repetition: Repetition | None = None
        self._lean = 0
        self._throttle_on = False

    @property
    def target(self) -> float:
        """%, the brake that is asked for."""
        return self._task.target

    @property
    def pace(self) -> Pace:  # type: ignore[override]
        """Live while something is shown, dark from then on."""
        phase = Phase.APPROACH if self._repetition is None else self._repetition.phase
        return Pace.LIVE if phase in LIT else Pace.DARK

    def details(self) -> Mapping[str, object]:
        """What is asked."""
        return {
            "level": self._level.id,
            "kind": self._level.kind,
            "rep": self._place[0],
            "of": self._place[1],
            "target": self._task.target,
            "band": self._task.band,
        }

    def on_action(self, action: Action) -> None:
        """Only going back means something here."""
        if action is Action.BACK:
            self._fault(Reason.LEFT, None)

    def on_focus_lost(self, now: int) -> None:
        """Pedals may be unheard without focus: this one cannot be judged."""
        self._fault(Reason.FOCUS_LOST, now)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """The next sample; without one the pedals are gone."""
        if self._repetition is None:
            self._repetition = Repetition(self._task, now)
            self._on_phase(Phase.APPROACH, now)
        if sample is None:
            self._fault(Reason.UNPLUGGED, now)
            return
        phase = self._repetition.feed(sample)
        if phase is not None:
            self._entered(phase, sample.time)
        elif self._repetition.phase in LIT:
            lean = (sample.brake - self._task.target) / self._task.band
            self._lean = round(min(max(lean, -4.0), 4.0) * LEAN_STEPS)
            self._throttle_on = sample.throttle >= ON

    def appearance(self) -> Hashable:
        """The phase, the bubble where there is one, and a throttle that is not at rest."""
        phase = None if self._repetition is None else self._repetition.phase
        lean = self._lean if self._level.aid is Aid.BUBBLE else 0
        return phase, lean, self._throttle_on

    def draw(self, canvas: Canvas, press: float) -> None:
        """The prompt."""
        middle = theme.WIDTH / 2
        held = self._repetition is not None and self._repetition.phase is Phase.HELD
        canvas.text("Brake to", (middle, 150), theme.LARGE, theme.QUIET, "centre")
        target = f"{self._task.target:.0f} %"
        canvas.text(target, (middle, 230), theme.HUGE * 1.9, theme.BRAKE, "centre")
        if self._level.aid is Aid.BUBBLE:
            widgets.level(canvas, (middle, 600), 900, self._lean / LEAN_STEPS)
        state = "Keep it there" if held else "Find it, then keep it there"
        if self._throttle_on and self._task.window is None:
            state = "Let go of the throttle"
        canvas.text(state, (middle, 730), theme.LARGE * 1.2, theme.TEXT, "centre")
        after = "Then it goes dark: keep the brake where it is until the light comes back."
        if self._task.window is None:
            after = "Then it goes dark: at the orange flash and the click, blip once."
        canvas.text(after, (middle, 850), theme.BODY, theme.QUIET, "centre")
        number, total = self._place
        place = f"{self._level.title}: {number} of {total}     Esc: leave the set"
        widgets.foot(canvas, place)

    def _fault(self, reason: Reason, now: int | None) -> None:
        if self._repetition is None:
            self.outcome = reason
            return
        time = self._repetition.last if now is None else now
        if self._repetition.fault(reason, time) is not None:
            self._entered(Phase.VOID, time)

    def _entered(self, phase: Phase, time: int) -> None:
        self._on_phase(phase, time)
        if phase in OVER:
            self.outcome = self._repetition
