"""What the pedals did makes repetitions void, and three in a row are told on a screen."""

from dataclasses import replace

import pygame
import pytest

from drills.measures.device import DeviceHistory
from drills.remeasure import Remeasurer, Unmeasured
from drills.score import OF_THE_PEDALS, Reason
from drills.trace import Pedal
from engine.drill.pedal_trouble import TROUBLES, PedalTrouble, Remedy
from engine.kit.canvas import Fonts
from engine.pedals.port import Reading, Source
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History
from engine.store.remeasure import stored_repetition
from engine.store.traces import trace_of
from tests.engine.drill.sets import SHORT, SetPlayer, reasons
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.fakes import MILLISECOND, Steady

QUICK = replace(SHORT, repetitions=1)


class Twitching:
    """Source whose brake reads nothing for 4 ms, every so many ms, in the first repetitions."""

    name = "twitching"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, inner: Source, clock: ManualClock, every: int, until: float) -> None:
        """`until` is when it stops, in s."""
        self._inner = inner
        self._clock = clock
        self._every = every
        self._until = until

    def read(self) -> Reading | None:
        """What the other source reads, or no brake."""
        reading, now = self._inner.read(), self._clock() // MILLISECOND
        twitches = now % self._every < 4 and now < 1000 * self._until
        return replace(reading, brake=0.0) if reading is not None and twitches else reading


def twitching(history: History, every: int = 300, until: float = 10.0) -> SetPlayer:
    """A set on pedals whose brake twitches."""
    clock = ManualClock()
    source = Twitching(Steady(clock, 0.6), clock, every, until)
    return SetPlayer(source, clock, history)


def test_a_brake_that_jumps_again_and_again_is_void_and_told_by_its_name(history: History) -> None:
    session = twitching(history)

    records = session.walk(QUICK, *[("reveal", "on")] * 3, ("pedal trouble", "Leave for now"))

    assert reasons(records) == [Reason.JUMPED] * 3
    assert [record.verdict.score for record in records] == [None] * 3
    assert {record.verdict.pedal for record in records} == {Pedal.BRAKE}
    assert {record.verdict.measures.get("total_error") for record in records} == {None}


def test_a_set_goes_on_after_the_trouble_is_over(history: History) -> None:
    session = twitching(history)

    records = session.walk(
        QUICK, *[("reveal", "on")] * 3, ("pedal trouble", "Go on"), ("reveal", "on")
    )

    assert reasons(records) == [Reason.JUMPED] * 3 + [Reason.CLEAN]


def test_a_check_of_the_pedals_is_offered_where_there_is_one(history: History) -> None:
    session, checked = twitching(history), []

    def check(rig: Rig, stage: Stage) -> Flow[None]:
        checked.append((rig, stage))
        yield from ()

    session.setting = replace(session.setting, check_pedals=check)

    records = session.walk(
        QUICK, *[("reveal", "on")] * 3, ("pedal trouble", "Check the pedals"), ("reveal", "on")
    )

    assert checked == [(session.rig, session.stage)]
    assert reasons(records)[3:] == [Reason.CLEAN]


def test_jumps_are_left_out_of_the_measures_told_and_kept_in_the_trace(history: History) -> None:
    session = twitching(history, every=1400)

    [record] = session.walk(QUICK, ("reveal", "on"))

    assert record.verdict.reason is Reason.CLEAN
    assert record.verdict.measures["total_error"] == 0.0
    assert 1 <= len(record.jumps) <= 2
    trace = trace_of(history, 1)
    assert trace is not None
    assert sorted({*trace.brake}) == [0.0, 60.0]


def test_remeasuring_leaves_out_the_same_jumps(history: History) -> None:
    twitching(history, every=1400).walk(QUICK, ("reveal", "on"))

    stored = stored_repetition(history, 1)

    assert stored is not None
    assert Remeasurer([QUICK]).measure(stored) == stored.measures


def test_what_the_pedals_made_void_is_not_remeasured(history: History) -> None:
    steps = [*[("reveal", "on")] * 3, ("pedal trouble", "Leave for now")]
    twitching(history).walk(QUICK, *steps)

    found = list(filter(None, (stored_repetition(history, number) for number in (1, 2, 3))))

    assert [one.reason for one in found] == ["pedal jumped"] * 3
    assert {Remeasurer([QUICK]).measure(one) for one in found} == {Unmeasured.UNJUDGED}


def test_the_mouse_is_not_judged_as_pedals_are(history: History) -> None:
    session = twitching(history)
    session.foot.is_feet = False

    records = session.walk(QUICK, ("reveal", "on"))

    assert reasons(records) == [Reason.CLEAN]


def test_other_pedals_begin_with_nothing_known(history: History) -> None:
    session = twitching(history)
    session.walk(QUICK, *[("reveal", "on")] * 3, ("pedal trouble", "Leave for now"))
    before = session.rig.device_history

    session.rig.play_with(session.rig.pedals)

    assert before.tops == (60.0, 60.0)
    assert session.rig.device_history == DeviceHistory()


def test_every_reason_of_the_pedals_has_its_trouble() -> None:
    assert set(TROUBLES) == OF_THE_PEDALS


@pytest.mark.parametrize("reason", TROUBLES)
@pytest.mark.parametrize("pedal", ["brake", "throttle", "clutch"])
def test_the_screen_says_what_it_is_and_what_helps(reason: Reason, pedal: str) -> None:
    pygame.font.init()
    drawing = RecordingCanvas((1920, 1080), Fonts())
    screen = PedalTrouble(reason, pedal, can_check=True)

    screen.paint(drawing, 0.0)

    text = " ".join(drawn.text for drawn in drawing.texts)
    assert "{" not in text
    assert "What helps" in text
    assert (pedal in text) or reason not in (Reason.STALLED, Reason.JUMPED)
    assert screen.details()["reason"] == reason.value


@pytest.mark.parametrize("can_check", [False, True])
def test_a_check_is_no_choice_where_there_is_none(can_check: bool) -> None:
    screen = PedalTrouble(Reason.JUMPED, "brake", can_check=can_check)

    screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)

    assert screen.outcome is (Remedy.CHECK if can_check else Remedy.LEAVE)
