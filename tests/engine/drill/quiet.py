"""What is heard, lit and drawn in sets and sessions without a window, each with its time."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drills.braking_zone import at_line
from drills.phases import OVER, Event, Phase, Transition
from drills.repetition import SETTLING_IN
from drills.task import Signal, Task
from drills.trace import SECOND, Pedal, nanoseconds
from engine.drill.repetition_screen import RepetitionScreen
from engine.pedals.port import Reading
from engine.practice.record import Record
from engine.stage.actions import Action
from engine.stage.brake_tone import BrakeTone
from engine.stage.earcon import Earcon
from engine.stage.earcon_waves import clean, earcon
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow, Pace, Scene, T
from engine.stage.sounds import FADE
from engine.stage.waves import RATE, Wave
from tests.coarse_clock import READ_EACH
from tests.fakes import Lamp
from tests.loudspeaker import Loudspeaker

FADES = nanoseconds(FADE / 1000)
REACTION, PULSE, PEAK = nanoseconds(0.25), nanoseconds(0.24), 0.70
"""Time from a cue to the blip, its length, both in ns, and its height, as a share."""
TREMBLE = 0.0002
"""Share by which the pedals tremble, 9 times a second: still ones are void as motionless."""


@dataclass
class Sounding:
    """A sound from its begin to its end."""

    what: str
    """Name of the sound."""
    begins: int
    """When it begins, in ns."""
    ends: int
    """When it ends, its fade included, in ns."""


class TimedLoudspeaker(Loudspeaker):
    """Speaker that records how long verdicts, moments, curves and brake tones sound."""

    def __init__(self, clock: ManualClock) -> None:
        super().__init__()
        self._clock = clock
        self._curve: Sounding | None = None
        self.feedback: list[Sounding] = []
        """Verdicts, moments and curves."""
        self.tones: list[Sounding] = []
        """Brake tones."""
        self.cues: list[tuple[str, int]] = []
        """Each click, beat, falling tone and knock with its time in ns."""

    def play_tone(self, tone: BrakeTone) -> None:
        """End the tone that sounds, and begin another one unless it is the silent one."""
        now = self._clock()
        if self.tones and self.tones[-1].what != tone.value:
            self.tones[-1].ends = min(self.tones[-1].ends, now + FADES)
        if tone is BrakeTone.SILENT:
            return
        if not self.tones or self.tones[-1].ends < 2**62:
            self.tones.append(Sounding(tone.value, now, 2**62))

    def click(self) -> bool:
        """Record a cue."""
        return self._cue("cue")

    def count(self) -> bool:
        """Record a beat of the count-in."""
        return self._cue("count")

    def fall(self) -> bool:
        """Record the begin of the falling tone."""
        return self._cue("fall")

    def knock(self, *, high: bool) -> bool:
        """Record a knock of the second task."""
        return self._cue("high" if high else "low")

    def step(self, number: int, after: Wave | None = None) -> None:
        """Record the sound of a step, and what is heard before it."""
        self._sound(f"step {number}", clean(number), after)

    def play(self, earcon_: Earcon, after: Wave | None = None) -> None:
        """Record a short sound, and what is heard before it."""
        self._sound(earcon_.value, earcon(earcon_), after)

    def play_curve(self, wave: Wave) -> bool:
        """Record a curve, which ends the one before."""
        self.end_curve()
        self._curve = self._begin("curve", len(wave))
        return True

    def end_curve(self) -> None:
        """Fade out the curve that sounds."""
        if self._curve is not None:
            self._curve.ends = min(self._curve.ends, self._clock() + FADES)

    def end_feedback(self) -> None:
        """Fade out all that tells how a repetition went."""
        for sounding in self.feedback:
            sounding.ends = min(sounding.ends, self._clock() + FADES)

    def _sound(self, what: str, wave: Wave, after: Wave | None) -> None:
        before = 0 if after is None else len(after)
        sounding = self._begin(what, before + len(wave))
        if after is not None:
            self.end_curve()
            self._curve = sounding

    def _begin(self, what: str, samples: int) -> Sounding:
        now = self._clock()
        sounding = Sounding(what, now, now + round(samples / RATE * SECOND))
        self.feedback.append(sounding)
        return sounding

    def _cue(self, what: str) -> bool:
        self.cues.append((what, self._clock()))
        return True


class TimedLamp(Lamp):
    """Window that records when it went dark and when it flashed."""

    def __init__(self, clock: ManualClock) -> None:
        super().__init__()
        self._clock = clock
        self.lit: list[tuple[str, int]] = []
        """Each change of the whole window, with its time in ns."""

    def darken(self) -> None:
        """Record that the window went dark."""
        self.lit.append(("dark", self._clock()))

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Record a flash, or a dim beat of the count-in."""
        self.lit.append(("beat" if dim else "flash", self._clock()))


class QuickFoot:
    """Foot that is on its target at once, holds it, and blips after each cue to act."""

    name = "quick"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock) -> None:
        self._clock = clock
        self._task: Task | None = None
        self._brake = 0.0
        self._blips = list[int]()
        self._cue: int | None = None
        self._braked: int | None = None
        self._dark: int | None = None
        self.measured: list[tuple[int, int]] = []
        """Begin and end of each measured window, in ns."""
        self.dark: list[tuple[int, int]] = []
        """Begin and end of each stretch from the dark to the end of a repetition, in ns."""

    def read(self) -> Reading | None:
        """The pedals now."""
        now = self._clock()
        tremble = TREMBLE * math.sin(2 * math.pi * 9 * now / SECOND)
        shares = [(now - at - REACTION) / PULSE for at in self._blips]
        throttle = sum(math.sin(math.pi * share) for share in shares if 0 < share < 1)
        return Reading(now, self._held(now) + tremble, PEAK * throttle, 0.0)

    def on_menu(self) -> None:
        """Let go."""
        self._brake, self._blips = 0.0, []

    def on_task(self, task: Task) -> None:
        """Let go, so that the repetition may find its target."""
        self._task, self._brake, self._blips = task, 0.0, []
        self._cue = self._dark = self._braked = None

    def on_transition(self, transition: Transition) -> None:
        """Press to where the repetition begins; note its dark and its measured window."""
        task, time = self._task, transition.time
        assert task is not None
        if transition.phase is Phase.APPROACH:
            low, high = task.start[Pedal.BRAKE]
            middle = task.target if task.begins_on_target else max(low, 0.0)
            self._brake = min(max(middle, low), high) / 100
        if transition.event is Event.STEADY:
            self._dark = time
        if transition.event is Event.CUE:
            self._cue = time if self._cue is None else self._cue
            if transition.signal is Signal.FALL and task.line:
                self._braked = time
            if transition.signal is Signal.CUE and task.moves:
                self._blips.append(time)
        if transition.phase in OVER and self._dark is not None:
            self._note(task, time)

    def on_record(self, place: int, record: Record) -> None:
        """Do nothing."""

    def _held(self, now: int) -> float:
        """Share of the brake at a time in ns: what is held or, in a zone, what its line asks."""
        if self._braked is None or self._task is None:
            return self._brake
        since = np.array((now - self._braked) / SECOND)
        return float(at_line(self._task.line, since)) / 100

    def _note(self, task: Task, ends: int) -> None:
        """Note the dark and the measured window of a repetition that has ended."""
        assert self._dark is not None
        opens = self._dark + SETTLING_IN if task.dark else self._cue
        dark = self._dark if task.dark else self._cue
        if opens is not None and opens < ends:
            self.measured.append((opens, ends))
        if dark is not None:
            self.dark.append((dark, ends))


Acts = Callable[[Attended, int], Action | None]
"""Function from a screen and the time in ns since it opened to what the player does now."""


def attend(flow: Flow[T], clock: ManualClock, acts: Acts, drawn: list[int]) -> T:
    """Run a flow to its end with what the player does; notes when a picture would be drawn."""
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        _run(scene, clock, acts, drawn)


def _run(scene: Scene, clock: ManualClock, acts: Acts, drawn: list[int]) -> None:
    screen, opened = scene.screen, clock()
    screen.on_motion(allowed=True)
    screen.on_means(scene.rig.means)
    screen.on_focus(True, opened)
    if screen.feet_choose:
        scene.stage.open_menu()
    shown: object = None
    while screen.outcome is None:
        clock.advance(READ_EACH)
        screen.on_sample(scene.rig.sample(), clock())
        if screen.outcome is not None:
            break
        if screen.pace is not Pace.DARK:
            state = screen.appearance(), screen.movement()
            if state != shown:
                drawn.append(clock())
            shown = state
        action = acts(screen, clock() - opened)
        if action is not None:
            screen.on_action(action)


def at_once(screen: Attended, _: int = 0) -> Action | None:
    """Player who goes on from each screen as soon as it opens."""
    return None if isinstance(screen, RepetitionScreen) else Action.GO


def replaying(screen: Attended, since: int) -> Action | None:
    """Player who asks for the replays of each reveal, and goes on while the second one plays."""
    if screen.name != "reveal":
        return at_once(screen)
    wanted = {round(0.4 * SECOND): Action.NEXT, round(1.6 * SECOND): Action.NEXT}
    return Action.GO if since >= 2 * SECOND else wanted.get(since)
