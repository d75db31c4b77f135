"""Nothing is heard, lit or drawn in a measured window but what its level asks for."""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest

from drills.calibration import Calibration, Range
from drills.level import Aid, Feedback, Level, PassRule
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.five.flow import five_minutes
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.signals import Signals
from engine.stage.stage import Stage
from engine.store import History
from tests.engine.drill.quiet import (
    Acts,
    QuickFoot,
    TimedLamp,
    TimedLoudspeaker,
    at_once,
    attend,
    replaying,
)
from tests.engine.five.unattended import passed_on
from tests.made import HOLD
from tests.scripted import printed

LEVELS = load_levels([SHIPPED])
FIRST_OF_KIND = list({level.kind.name: level for level in reversed(LEVELS)}.values())
THREE = Calibration(Range(0.0, 1.0), Range(0.0, 1.0), Range(0.0, 1.0))
AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
SHORT = replace(HOLD, feedback=Feedback.EVERY, own={"duration": 1.0})
"""A hold in which only the first second is measured: what still sounds then is what is wrong."""


class Player:
    """Player with a quick foot, on a stage that records what is heard and seen, by ear too."""

    def __init__(self, history: History, levels: list[Level]) -> None:
        self.clock = ManualClock()
        self.clock.advance(SECOND)
        self.foot = QuickFoot(self.clock)
        self.speaker, self.lamp = TimedLoudspeaker(self.clock), TimedLamp(self.clock)
        stage = Stage(self.lamp, self.speaker, Events(None, self.clock), (self.foot,))
        stage.tune(Signals(ear=True))
        rig = Rig(self.clock, pedals=CalibratedPedals(self.foot, THREE))
        rng = np.random.default_rng(1)
        self.setting = Setting(rig, stage, history, rng, lambda: AT, levels=levels)
        self.drawn: list[int] = []

    def play(self, level: Level, acts: Acts, repetitions: int) -> None:
        """Play a set."""
        flow = run_set(level, self.setting, repetitions)
        attend(flow, self.clock, acts, self.drawn)

    def disturbances(self) -> list[str]:
        """What was heard, lit or drawn in the dark or in a measured window unasked."""
        measured, dark = self.foot.measured, self.foot.dark
        sounds = [*self.speaker.feedback, *self.speaker.tones]
        heard = [
            f"{sound.what} for {(sound.ends - opens) / SECOND:.2f} s"
            for sound in sounds
            for opens, ends in measured
            if sound.begins <= ends and sound.ends > opens and sound.begins != ends
        ]
        cues = {time for _, time in self.speaker.cues}
        lit = [
            what
            for what, time in self.lamp.lit
            for begins, ends in dark
            if begins < time < ends and time not in cues
        ]
        drawn = ["picture" for at in self.drawn for begins, ends in dark if begins < at < ends]
        return heard + lit + drawn


@pytest.mark.parametrize("acts", [at_once, replaying])
@pytest.mark.parametrize("level", FIRST_OF_KIND, ids=lambda level: level.kind.name)
def test_no_repetition_of_any_kind_is_disturbed_by_the_one_before(
    level: Level, acts: Acts, history: History
) -> None:
    player = Player(history, LEVELS)

    player.play(replace(level, feedback=Feedback.EVERY), acts, 3)

    assert len(player.foot.measured) >= 3
    assert len(player.speaker.feedback) >= 3
    assert player.disturbances() == []


def test_the_chord_of_a_moment_that_is_skipped_has_ended_before_anything_is_measured(
    history: History,
) -> None:
    player = Player(history, [SHORT])

    player.play(replace(SHORT, rule=PassRule(1, 1)), at_once, 3)

    [chord] = [sound for sound in player.speaker.feedback if sound.what == "passed"]
    opens = next(opens for opens, _ in player.foot.measured if opens > chord.begins)
    assert opens - chord.begins < 1.1 * SECOND
    assert player.disturbances() == []


def test_a_brake_tone_guides_up_to_the_dark_alone(history: History) -> None:
    player = Player(history, [])

    player.play(replace(SHORT, aid=Aid.TONE), at_once, 3)

    assert len(player.speaker.tones) >= 3
    assert player.disturbances() == []


@pytest.mark.parametrize("acts", [at_once, replaying])
def test_no_repetition_of_a_session_is_disturbed_by_what_it_achieves(
    acts: Acts, history: History
) -> None:
    levels = [
        replace(SHORT, id=name, title=name.title(), needs=needs, rule=PassRule(1, 1))
        for name, needs in (("first", ()), ("second", ("first",)), ("third", ("second",)))
    ]
    for level in levels[:2]:
        passed_on(history, level, 2, AT)
    player = Player(history, levels)

    flow = five_minutes(player.setting, history, load_band(), 1.0)
    attend(flow, player.clock, acts, player.drawn)

    sounds = {sound.what for sound in player.speaker.feedback}
    assert {"passed", "retained"} <= sounds
    assert len(player.foot.measured) > 5
    assert player.disturbances() == []


REAL = """
import os, tempfile, time
os.environ["SDL_AUDIODRIVER"] = "dummy"
from dataclasses import replace
from pathlib import Path
import numpy as np
import pygame
from drills.calibration import UNIT
from drills.level import PassRule
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.kit import theme, widgets
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.mixer import Mixer
from engine.stage.sounds import CHANNELS, PROBE_CHANNEL
from engine.stage.stage import Stage
from engine.stage.window import Window
from engine.stage.window_shape import Shape
from engine.store import open_history
from tests.engine.drill.quiet import QuickFoot
from tests.engine.drill.test_quiet_window import AT, SHORT

clock = time.perf_counter_ns
shown, busy = [], []
for name in ("flip", "update"):
    def record(*areas, real=getattr(pygame.display, name)):
        shown.append(clock())
        real(*areas)
    setattr(pygame.display, name, record)

class Hasty(QuickFoot):
    def read(self):
        channels = range(PROBE_CHANNEL + 1, CHANNELS)
        if pygame.mixer.get_init() and any(pygame.mixer.Channel(k).get_busy() for k in channels):
            busy.append(clock())
        return super().read()
    def on_menu(self):
        super().on_menu()
        pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_RETURN))

window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
foot, events = Hasty(clock), Events(None, clock)
stage = Stage(window, Mixer(), events, (foot,))
rig = Rig(clock, pedals=CalibratedPedals(foot, UNIT))
with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
    setting = Setting(rig, stage, history, np.random.default_rng(1), lambda: AT)
    Loop(window, rig, events).run(run_set(replace(SHORT, rule=PassRule(1, 1)), setting, 2))
print(len(foot.measured) >= 2, bool(shown), bool(busy))
for times in (shown, busy):
    print(sum(opens <= at <= ends for at in times for opens, ends in foot.measured))
for begins, ends in foot.dark:
    print(sum(begins <= at <= ends for at in shown))
"""
RUNS = 3
"""Most runs in a real window: a fade takes longer where the machine stands still."""


def test_in_a_real_window_nothing_is_shown_or_played_in_a_measured_window() -> None:
    for _ in range(RUNS):
        found = printed(REAL)
        if found[2] == "0":
            break

    assert found[:3] == ["True True True", "0", "0"]
    # The only picture of a dark without a cue is the dark itself.
    assert set(found[3:]) <= {"0", "1"}
