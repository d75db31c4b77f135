"""Sessions that are disturbed in lessons, repetitions, reveals, replays, moments and at the end.

The game's own loop, window and mixer run them on SDL's dummy drivers, as fast as the machine can.
"""

import random
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pygame

from drills.calibration import Calibration, Range
from drills.phases import OVER, Transition
from drills.task import Task
from drills.trace import SECOND, nanoseconds
from engine.drill.attempt import Setting
from engine.drill.lesson_saved import Lessons
from engine.five.flow import five_minutes
from engine.kit import theme, widgets
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig
from engine.practice.record import Record
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.loop import Loop
from engine.stage.mixer import Mixer
from engine.stage.signals import Signals, Volume
from engine.stage.sounds import CHANNELS, PROBE_CHANNEL
from engine.stage.stage import Stage
from engine.stage.window import Window
from engine.stage.window_shape import Shape
from engine.store import open_history
from engine.store.repetitions import recent_results
from tests.bench.attempts.attempt import Finding, drawn, lost, wrong
from tests.coarse_clock import READ_EACH
from tests.engine.drill.quiet import QuickFoot
from tests.engine.five.unattended import passed_on

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
SIZES = ((640, 360), (320, 200), (1280, 720), (700, 900))
PEDALS = Calibration(Range(0.0, 1.0), Range(0.0, 1.0), Range(0.0, 1.0))
STILL_LOOK = nanoseconds(0.017)
"""Time from one look to the next between repetitions, in ns: no deadline of the loop is waited for.
"""
RARE, OFTEN = 0.001, 0.04
"""Share of the looks at which something happens, in a repetition and between two."""
LONGEST = 30 * 60 * SECOND
"""Time on the game's clock after which the window is closed, in ns: a session may wait for ever."""
FADED = 5.0
"""Longest time in s until the mixer is silent after the end: the longest chord, and a slow machine.
"""
KEYS = (pygame.K_RETURN, pygame.K_TAB, pygame.K_DOWN, pygame.K_ESCAPE)


class DisturbedFoot(QuickFoot):
    """Quick foot at whose looks the clock goes on, and things happen to the window and to sound."""

    def __init__(self, clock: ManualClock, rng: random.Random, mixer: Mixer) -> None:
        super().__init__(clock)
        self._rng, self._mixer = rng, mixer
        self._plays = False
        self._holds = self._gone = 0
        self.stored = 0
        """Number of repetitions that were judged and stored."""

    def read(self) -> Reading | None:
        """The pedals, a while later; None while they are unplugged."""
        self._clock.advance(READ_EACH if self._plays else STILL_LOOK)
        if self._rng.random() < (RARE if self._plays else OFTEN):
            self._disturb()
        self._holds, self._gone = max(self._holds - 1, 0), max(self._gone - 1, 0)
        if self._gone:
            return None
        reading = super().read()
        return replace(reading, throttle=0.8) if reading and self._holds else reading

    def on_menu(self) -> None:
        """Let go, as no repetition is played."""
        super().on_menu()
        self._plays = False

    def on_task(self, task: Task) -> None:
        """Begin a repetition."""
        super().on_task(task)
        self._plays = True

    def on_transition(self, transition: Transition) -> None:
        """Follow a repetition up to its end."""
        super().on_transition(transition)
        self._plays = transition.phase not in OVER

    def on_record(self, place: int, record: Record) -> None:
        """Count it."""
        self.stored += 1

    def _disturb(self) -> None:
        """Do one thing of many that a player, a system or a cable does."""
        rng = self._rng
        match rng.randrange(12):
            case 0:
                pygame.event.post(pygame.event.Event(pygame.WINDOWFOCUSLOST))
            case 1 | 2 | 3:
                pygame.event.post(pygame.event.Event(pygame.WINDOWFOCUSGAINED))
            case 4:
                pygame.display.set_mode(rng.choice(SIZES), pygame.RESIZABLE)
                pygame.event.post(pygame.event.Event(pygame.VIDEORESIZE, size=(1, 1), w=1, h=1))
            case 5:
                which = rng.randint(0, 2)
                gone = pygame.event.Event(pygame.AUDIODEVICEREMOVED, which=which, iscapture=0)
                pygame.event.post(gone)
            case 6:
                self._gone = rng.choice((1, 30, 300))
            case 7:
                self._holds = rng.choice((5, 40, 200))
            case 8:
                self._mixer.tune(rng.choice(list(Volume)), click=True, ear=rng.random() < 0.8)
            case 9:
                at = rng.randint(0, 640), rng.randint(0, 360)
                click = pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=at, button=1)
                pygame.event.post(click)
            case _:
                key = pygame.K_F11 if rng.random() < 0.2 else rng.choice(KEYS)
                pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=key, mod=0))


def session(number: int, folder: Path) -> Iterator[Finding]:
    """Play a disturbed session: it ends, is stored whole, and nothing sounds on."""
    rng, clock, mixer = drawn("disturbed", number), ManualClock(), Mixer()
    window = Window(Shape(SIZES[0]), theme.GROUND, theme.THROTTLE, widgets.icon())
    pygame.joystick.init()
    pygame.event.clear()
    foot, events = DisturbedFoot(clock, rng, mixer), Events(None, clock)
    stage = Stage(window, mixer, events, (foot,))
    stage.tune(Signals(ear=True, motion=rng.random() < 0.8))
    rig = Rig(clock, pedals=CalibratedPedals(foot, PEDALS))
    levels = load_levels([SHIPPED])
    with open_history(folder, levels) as history:
        for level in rng.sample(levels, 8):
            passed_on(history, level, rng.choice((1, 2, 4)), AT)
        before = len(recent_results(history, 1000))
        setting = Setting(
            *(rig, stage, history, np.random.default_rng(number)),
            lambda: AT + timedelta(seconds=clock() / SECOND),
            levels=levels,
            lessons=Lessons(history),
        )
        flow = five_minutes(setting, history, load_band(), rng.choice((0.5, 2.0)))
        Loop(window, rig, events, lambda: clock() > LONGEST).run(flow)
        stored = len(recent_results(history, 1000)) - before
    if stored != foot.stored:
        yield lost(f"{foot.stored} repetitions were judged and {stored} stored")
    if clock() <= LONGEST and sounds_on():
        yield wrong("a sound goes on after the session")
    pygame.quit()


def sounds_on() -> bool:
    """Whether the mixer still plays anything once all that is short has ended."""
    until = time.monotonic() + FADED
    while pygame.mixer.get_init() and time.monotonic() < until:
        busy = [pygame.mixer.Channel(k).get_busy() for k in range(PROBE_CHANNEL + 1, CHANNELS)]
        if not any(busy):
            return False
        time.sleep(0.02)
    return bool(pygame.mixer.get_init())
