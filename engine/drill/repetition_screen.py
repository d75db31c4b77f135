"""Screen of one repetition: the prompt, then darkness, then the cue."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from drills.level import Aid, Level
from drills.phases import FINDING, OVER, Phase, Transition
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from drills.trace import Pedal, Sample
from engine.drill.left_pressed import LeftPressed
from engine.drill.prompt_words import (
    BRAKE_FIRST,
    BY_TONE,
    LOST_FOCUS,
    by_feel,
    let_go,
    menu_words,
    part_words,
)
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen
from engine.kit.canvas import Canvas
from engine.kit.foot_pose import Way
from engine.kit.set_marks import draw_set_marks
from engine.kit.typeface import Weight
from engine.pedals.moved_ends import LastingEnds
from engine.stage.actions import Action
from engine.stage.brake_tone import Aim, BrakeTone, next_tone
from engine.stage.scene import Pace
from engine.stage.stage import Stage

ASKED = 190
"""Top of the word above the target, in canvas units."""
NUMBER = 400
"""Height of the target, in canvas units: it is read from the corner of the eye."""
NUMBER_TOP = 230
"""Top of the target, in canvas units."""
BUBBLE = 640
"""Height of the spirit level's middle, in canvas units."""
STATE = 734
"""Top of the instruction for now, in canvas units."""
THEN = 838
"""Top of the line on what comes once it is dark, in canvas units."""
FOOT_GAP = 60
"""Smallest gap between what stands at the foot of the prompt, in canvas units."""
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
        way: Way = Way.ROLL,
    ) -> None:
        """`opened` is the time at which the screen opens, in ns.

        `report_interval` is the time between reports of the pedals in s, 0 where it is not known.
        `way` is how the player blips, for a screen that shows the foot.
        """
        super().__init__()
        self._level = level
        self._task = task
        self._place = place
        self._stage = stage
        self._opened = opened
        self._report_interval = report_interval
        self._way = way
        self._prompt = level.kind.prompt(level, task)
        self._repetition: Repetition | None = None
        self._focused = True
        self._lean = 0
        self._aim = Aim()
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
            self.asked_for_menu = True
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
        prompt, place = self._prompt, self._place
        if place.named:
            canvas.text(place.named, (middle, theme.TITLE), theme.BODY, align="centre")
        canvas.text(prompt.asked, (middle, ASKED), theme.BODY + 8, theme.QUIET, "centre")
        self._number(canvas, prompt.value)
        if self._has_bubble:
            widgets.level(canvas, (middle, BUBBLE), 600, self._lean / LEAN_STEPS)
        elif self._how:
            canvas.text(self._how, (middle, BUBBLE - 40), theme.BODY, theme.QUIET, "centre")
        canvas.text(self._state, (middle, STATE), theme.LARGE, align="centre", weight=Weight.BOLD)
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(prompt.then, (middle, THEN), theme.BODY, theme.QUIET, "centre", width)
        self._below(canvas)

    def _number(self, canvas: Canvas, value: str) -> None:
        """Write the target, as large as the width allows."""
        wide = canvas.measure(value, NUMBER, Weight.BOLD)
        size = NUMBER * min((theme.WIDTH - 2 * theme.MARGIN) / max(wide, 1.0), 1.0)
        at = (theme.WIDTH / 2, NUMBER_TOP + (NUMBER - size) / 2)
        canvas.text(value, at, size, theme.BRAKE, "centre", weight=Weight.BOLD)

    def _below(self, canvas: Canvas) -> None:
        """Draw the marks of the set, what the repetition is part of and, at first, the menu."""
        place, right = self._place, float(theme.WIDTH - theme.MARGIN)
        left = float(theme.MARGIN)
        if place.marks is not None:
            left = draw_set_marks(canvas, place.marks, len(place.marks), place.to_come)
        wordings = part_words(self._level, place)
        words = canvas.fullest(wordings, right - left - FOOT_GAP, theme.SMALL)
        canvas.text(words, (right, theme.FOOT), theme.SMALL, theme.QUIET, "right")
        menu = menu_words(self.means)
        half = canvas.measure(menu, theme.SMALL) / 2 + FOOT_GAP
        free = right - canvas.measure(words, theme.SMALL)
        if place.number == 1 and left + half < theme.WIDTH / 2 < free - half:
            widgets.foot(canvas, menu)

    @property
    def _has_bubble(self) -> bool:
        return self._level.aid is Aid.BUBBLE and self._task.begins_on_target

    @property
    def _how(self) -> str:
        """Sentence on how to find the brake target without a bubble; empty if none is needed."""
        if not self._task.begins_on_target or self._has_bubble:
            return ""
        if self._level.aid is Aid.TONE:
            return BY_TONE
        return "" if self._state == self._prompt.keep else by_feel(self._prompt)

    @property
    def _state(self) -> str:
        """Instruction to the player for the current phase of the repetition."""
        if not self._focused:
            return LOST_FOCUS
        if self._pressed is not None:
            return let_go(self._pressed.value)
        phase = Phase.RELEASE if self._repetition is None else self._repetition.phase
        if phase is Phase.RELEASE:
            return BRAKE_FIRST
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
        self._aim = next_tone(self._aim, sample.brake, lean, sample.time) if aiming else Aim()
        tone = self._aim.tone
        guided = self._level.aid is not Aid.NONE or tone is BrakeTone.ON
        self._stage.speaker.play_tone(tone if guided else BrakeTone.SILENT)

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
