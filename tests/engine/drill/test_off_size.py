"""Blips off the size asked are repeated; after three in a row a screen says what helps."""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pygame
import pytest

from drills.foot import SimulatedFoot
from drills.kinds.asked_size import with_size
from drills.level import Feedback
from drills.score import Reason
from drills.task import Task
from engine.drill.attempt import Setting
from engine.drill.off_size import AIM, TOO_BIG, TOO_LIGHT, UNEVEN, OffSize
from engine.drill.set import Played, run_set
from engine.drill.turn import LOST_IN_A_ROW, MOST_VOID
from engine.kit.canvas import Fonts
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import measures_of
from tests.engine.drill.sets import reasons
from tests.engine.five.unattended import Seen, attend
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.walking import Step
from tests.fakes import MILLISECOND, a_stage
from tests.made import BLIP

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
LEVEL = replace(BLIP, feedback=Feedback.NONE, tolerance=30.0, band=8.0, limits={"dip": 30.0})
SMALL = with_size(LEVEL, 30.0)
"""A level that asks for blips half as deep as is the habit of the simulated foot."""


class Heeding(SimulatedPedals):
    """A simulated foot that blips to the size asked, and counts."""

    counts = True


class Heedless(Heeding):
    """A simulated foot that blips as it always does, whatever size is asked."""

    def on_task(self, task: Task) -> None:
        """Pass over the size asked."""
        super().on_task(replace(task, size=0.0))


def set_by(history: History, feet: type[SimulatedPedals], clock: ManualClock) -> Setting:
    """What a set by such feet is played with."""
    foot = feet(SimulatedFoot(1.0, 4), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    return Setting(rig, a_stage(foot), history, np.random.default_rng(1), lambda: DATE)


def played(history: History, feet: type[SimulatedPedals], *steps: str) -> tuple[Played, list[Seen]]:
    """A set of three by such feet, and the screens of it; each step is taken at an off size one."""
    clock, seen = ManualClock(), list[Seen]()
    flow = run_set(SMALL, set_by(history, feet, clock), 3)
    return attend(flow, clock, [("off size", step) for step in steps], seen), seen


def told(seen: list[Seen]) -> list[object]:
    """The peaks told on each screen about the size."""
    return [details["peaks"] for name, details in seen if name == "off size"]


def text_of(screen: OffSize) -> str:
    """Everything that a screen says."""
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.paint(canvas, 0.0)
    return " ".join(drawn.text for drawn in canvas.texts)


def test_a_foot_that_heeds_the_size_has_every_blip_of_it_count(history: History) -> None:
    ran, seen = played(history, Heeding)

    assert ran.log.counted == ran.log.played == 3
    assert told(seen) == []
    peaks = [record.verdict.measures["peak"] or 0.0 for record in ran.log.records]
    assert all(10 <= peak <= 50 for peak in peaks)


def test_a_foot_that_does_not_is_asked_again_told_every_third_time_and_given_up(
    history: History,
) -> None:
    ran, seen = played(history, Heedless)

    records = ran.log.records
    assert reasons(records) == [Reason.OFF_SIZE] * MOST_VOID
    assert (ran.log.counted, ran.log.given_up) == (0, True)
    reached = [record.verdict.measures["peak"] for record in records]
    assert told(seen) == [reached[at : at + LOST_IN_A_ROW] for at in (0, 3, 6)]


def test_the_player_may_leave_where_it_is_told(history: History) -> None:
    ran, seen = played(history, Heedless, "Leave for now")

    assert reasons(ran.log.records) == [Reason.OFF_SIZE] * LOST_IN_A_ROW
    assert len(told(seen)) == 1


def test_what_a_blip_reached_is_kept_and_nothing_else_of_it(history: History) -> None:
    ran, _ = played(history, Heedless, "Leave for now")

    peaks = [record.verdict.measures["peak"] for record in ran.log.records]
    assert [measures_of(history, number) for number in (1, 2, 3)] == [
        {"peak": peak} for peak in peaks
    ]


def test_a_repetition_left_after_a_blip_off_its_size_counts_as_left(history: History) -> None:
    clock = ManualClock()
    setting = set_by(history, Heedless, clock)

    def leave(screen: Attended) -> None:
        throttle, most = 0.0, 0.0
        while most < 50 or throttle > 1:
            clock.advance(MILLISECOND)
            sample = setting.rig.sample()
            assert sample is not None
            throttle, most = sample.throttle, max(most, sample.throttle)
            screen.on_sample(sample, clock())
        screen.on_action(Action.MENU)

    steps: list[tuple[str, Step]] = [("repetition", leave), ("menu", "Leave the set")]
    ran = attend(run_set(SMALL, setting, 3), clock, steps)

    assert reasons(ran.log.records) == [Reason.WALKED_OUT]
    assert ran.log.counted == 1


@pytest.mark.parametrize(
    ("peaks", "said", "advice"),
    [
        ((92.4, 88.0, 95.1), "reached 92, 88 and 95 %", TOO_BIG),
        ((31.0, 39.96, 12.0), "reached 31, 39.96 and 12 %", TOO_LIGHT),
        ((31.0, 88.0, 92.0), "reached 31, 88 and 92 %", UNEVEN),
    ],
)
def test_the_screen_says_what_they_reached_what_is_asked_and_what_helps(
    peaks: tuple[float, ...], said: str, advice: tuple[str, ...]
) -> None:
    screen = OffSize(with_size(BLIP, 60.0), peaks)

    text = text_of(screen)

    assert text.startswith("Blip to 60 %")
    assert f"The last blips {said}. 40 to 80 % counts" in text
    for line in (*advice, AIM):
        assert line in text
    for line in {*TOO_BIG, *TOO_LIGHT, *UNEVEN} - {*advice}:
        assert line not in text
