"""Screen of one repetition: the prompt, then darkness, then the cue."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from drills.level import Aid, Feedback, Level
from drills.phases import FINDING, OVER, Phase, Transition
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from drills.trace import Pedal, Sample
from engine.drill.left_pressed import LeftPressed
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen
from engine.kit.canvas import Canvas
from engine.pedals.moved_ends import LastingEnds
from engine.stage.actions import Action
from engine.stage.brake_tone import BrakeTone, next_tone
from engine.stage.scene import Pace
from engine.stage.stage import Stage

TITLE_GAP = 36
"""Gap between the level's title and the reason why it was chosen, in canvas units."""
LEAN_STEPS = 20
"""Number of steps in which the bubble moves from the middle to a line: finer ones cannot be
seen."""


class RepetitionScreen(Screen[Repetition]):
    """Screen on which a repetition is played. Its outcome is the repetition, done or void.

    The repetition begins with the first sample while the window has the focus.
    """

    name = "repetition"

    def __init__(
        self,
        level: Level,
        task: Task,
        place: Place,
        stage: Stage,
        opened: int,
        report_interval: float = 0.0,
    ) -> None:
        """`opened` is the time at which the screen opens, in ns.

        `report_interval` is the time between reports of the pedals in s, 0 where it is not known.
        """
        super().__init__()
        self._level = level
        self._task = task
        self._place = place
        self._stage = stage
        self._opened = opened
        self._report_interval = report_interval
        self._prompt = level.kind.prompt(level, task)
        self._repetition: Repetition | None = None
        self._focused = True
        self._lean = 0
        self._tone = BrakeTone.SILENT
        self._pressed: Pedal | None = None
        self._left_pressed = LeftPressed(task)
        self.asked_for_menu = False
        """Whether the player left the repetition to open the menu."""
        self.ends = LastingEnds()
        """Where each pedal rested and how far it was pressed since the screen opened."""

    @property
    def pace(self) -> Pace:
        """Live while the screen is lit; dark in the measured window, where nothing is drawn."""
        return Pace.LIVE if self.is_lit else Pace.DARK

    @property
    def is_lit(self) -> bool:
        """Whether the screen may draw anything: not inside the measured window."""
        return self._repetition is None or self._repetition.lit

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the level, the task and the number of the repetition."""
        return {
            "level": self._level.id,
            "kind": self._level.kind.name,
            "rep": self._place.number,
            "of": self._place.of,
            "target": self._task.target,
            "band": self._level.approach_band,
            "named": self._place.named,
            "why": self._place.why,
            "aid": self._level.aid.value,
        }

    def on_action(self, action: Action) -> None:
        """Leave the repetition if the player asks for it; ignore other actions."""
        if action in (Action.BACK, Action.MENU):
            self.asked_for_menu = action is Action.MENU
            self._leave()

    def on_focus(self, focused: bool, now: int) -> None:
        """Void a begun repetition when the window loses the focus before anything was asked.

        After that it goes on, as pedals are heard without the focus; the mouse is not.
        """
        self._focused = focused
        if focused or self._repetition is None:
            return
        if not (self._repetition.asked and self.means.feet):
            self._fault(Reason.FOCUS_LOST, now)

    def on_closing(self) -> None:
        """Leave the repetition if anything was asked: it counts, as with every way of leaving."""
        if self._repetition is not None and self._repetition.asked:
            self._leave()

    def on_devices(self, *, cut: bool) -> None:
        """Void the repetition if its pedals were unplugged, even for a moment."""
        if cut:
            self._fault(Reason.UNPLUGGED, None)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Feed the repetition a sample; None, as the pedals are gone, voids it."""
        if sample is None:
            self._fault(Reason.UNPLUGGED, now)
            return
        self.ends.feed(sample)
        if self.is_lit:
            self._update(sample)
        if self._repetition is None:
            if not self._focused:
                return
            self._repetition = self._begin(now)
        repetition = self._repetition
        was_lit = repetition.lit
        self._follow(repetition, repetition.feed(sample), was_lit)
        if repetition.phase in FINDING and self._left_pressed.feed(sample):
            self._fault(Reason.NO_TARGET, now)

    def appearance(self) -> Hashable:
        """State that the prompt depends on: the phase, the bubble, a pedal to release."""
        phase = None if self._repetition is None else self._repetition.phase
        lean = self._lean if self._has_bubble else 0
        return phase, lean, self._pressed, self._focused, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the prompt: what to do, the bubble, and the place in the set."""
        middle = theme.WIDTH / 2
        prompt = self._prompt
        self._title(canvas)
        canvas.text(prompt.asked, (middle, 150), theme.LARGE, theme.QUIET, "centre")
        canvas.text(prompt.value, (middle, 230), theme.HUGE * 1.9, theme.BRAKE, "centre")
        if self._has_bubble:
            widgets.level(canvas, (middle, 600), 900, self._lean / LEAN_STEPS)
        canvas.text(self._state, (middle, 730), theme.LARGE * 1.2, theme.TEXT, "centre")
        canvas.text(prompt.then, (middle, 850), theme.BODY, theme.QUIET, "centre")
        canvas.text(self._how, (middle, 930), theme.SMALL, theme.QUIET, "centre")
        place = f"{self._level.title}: {self._place.words}"
        if self._level.feedback is Feedback.OUTSIDE:
            place += "     shown only when not clean"
        way = "Brake and throttle, Esc: menu" if self.means.feet else "Esc, right click: menu"
        widgets.foot(canvas, f"{place}     {way}")

    def _title(self, canvas: Canvas) -> None:
        """Draw the level's title, and why it was chosen, where levels change each time."""
        why, size = self._place.why, theme.LARGE * 0.8
        named = self._place.named or (self._level.title if why else "")
        gap = TITLE_GAP if why else 0
        room = theme.WIDTH - 2 * theme.MARGIN - gap - canvas.measure(why, theme.SMALL)
        named = canvas.cut(named, room, size)
        wide = canvas.measure(named, size), canvas.measure(why, theme.SMALL)
        x = theme.WIDTH / 2 - (sum(wide) + gap) / 2
        if named:
            canvas.text(named, (x, 66), size)
        if why:
            canvas.text(why, (x + wide[0] + gap, 82), theme.SMALL, theme.QUIET)

    @property
    def _has_bubble(self) -> bool:
        return self._level.aid is Aid.BUBBLE and self._task.begins_on_target

    @property
    def _how(self) -> str:
        """Sentence on how to find the brake target without a bubble; empty if none is needed."""
        if not self._task.begins_on_target or self._has_bubble:
            return ""
        if self._level.aid is Aid.TONE:
            return "A low tone is too light, a high one too heavy."
        return f'Feel for it: "{self._prompt.keep}" says that you are there.'

    @property
    def _state(self) -> str:
        """Instruction to the player for the current phase of the repetition."""
        if not self._focused:
            return "Click here to go on"
        if self._pressed is not None:
            return f"Let go of the {self._pressed.value}"
        phase = Phase.RELEASE if self._repetition is None else self._repetition.phase
        if phase is Phase.RELEASE:
            return "Let the brake go first"
        return self._prompt.find if phase is Phase.APPROACH else self._prompt.keep

    def _begin(self, now: int) -> Repetition:
        self._stage.begin(self._task, now)
        return Repetition(self._task, now, self._report_interval)

    def _update(self, sample: Sample) -> None:
        """Take from a sample the place of the bubble, the tone and the pedal to release."""
        lean = (sample.brake - self._task.target) / self._level.approach_band
        self._lean = round(min(max(lean, -4.0), 4.0) * LEAN_STEPS)
        self._pressed = self._pressed_in(sample)
        phase = None if self._repetition is None else self._repetition.phase
        aiming = phase in (Phase.APPROACH, Phase.HELD) and self._pressed is None
        aiming = aiming and self._task.begins_on_target
        self._tone = next_tone(self._tone, sample.brake, lean) if aiming else BrakeTone.SILENT
        guided = self._level.aid is not Aid.NONE or self._tone is BrakeTone.ON
        self._stage.speaker.play_tone(self._tone if guided else BrakeTone.SILENT)

    def _pressed_in(self, sample: Sample) -> Pedal | None:
        """Pedal other than the brake that must be released first; None if there is none."""
        for pedal, (_, high) in self._task.start.items():
            if pedal is not Pedal.BRAKE and (sample.of(pedal) or 0.0) > high:
                return pedal
        return None

    def _leave(self) -> None:
        """Leave the repetition: it is void before the cue, not clean after it."""
        repetition = self._begun()
        was_lit = repetition.lit
        self._follow(repetition, repetition.leave(repetition.last), was_lit)

    def _fault(self, reason: Reason, now: int | None) -> None:
        """End the repetition as void, for this reason."""
        repetition = self._begun()
        was_lit = repetition.lit
        time = repetition.last if now is None else now
        self._follow(repetition, repetition.fault(reason, time), was_lit)

    def _begun(self) -> Repetition:
        """Repetition being played; it is begun now if it has not been, so that it can end."""
        if self._repetition is None:
            self._repetition = self._begin(self._opened)
        return self._repetition

    def _follow(
        self, repetition: Repetition, transitions: tuple[Transition, ...], was_lit: bool
    ) -> None:
        if was_lit and not repetition.lit and repetition.phase not in OVER:
            self._stage.darken()
        for transition in transitions:
            self._stage.follow(transition)
        if repetition.phase in OVER:
            self.outcome = repetition
