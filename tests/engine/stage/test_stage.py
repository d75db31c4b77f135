"""The stage: light, sound and events for each phase transition and verdict."""

import json
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from drills.phases import FINDING, Event, Phase, Transition
from drills.task import Signal
from engine.stage.brake_tone import BrakeTone
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.signals import Signals, Volume
from engine.stage.stage import Stage
from tests.fakes import Audience, Lamp
from tests.loudspeaker import Loudspeaker
from tests.made import BLIP_TASK, HOLD_TASK, record


class RecordingStage:
    """Stage with fakes that record its light, sound, events and calls to listeners."""

    def __init__(self, folder: Path) -> None:
        self.lamp, self.speaker, self.audience = Lamp(), Loudspeaker(), Audience()
        self._path = folder / "events.jsonl"
        self._events = Events(self._path, ManualClock())
        self.stage = Stage(self.lamp, self.speaker, self._events, (self.audience,))

    @property
    def lines(self) -> list[dict[str, Any]]:
        """Events in the events file."""
        return [json.loads(line) for line in self._path.read_text("utf-8").splitlines()]

    def close(self) -> None:
        """Close the events file."""
        self._events.close()


@pytest.fixture
def recording(tmp_path: Path) -> Iterator[RecordingStage]:
    """Stage with fakes that record what it does."""
    with closing(RecordingStage(tmp_path)) as stage:
        yield stage


def test_the_cue_flashes_clicks_and_is_logged_with_its_time(recording: RecordingStage) -> None:
    recording.stage.follow(Transition(Event.CUE, Phase.ACT, 2_500_000_000, 0, Signal.CUE))

    assert recording.lamp.shown == ["cue"]
    assert recording.speaker.heard == ["tone silent", "click"]
    assert recording.lines == [
        {"t": 2.5, "event": "cue", "signal": "cue"},
        {"t": 2.5, "event": "phase", "phase": "act", "by": "cue"},
    ]


@pytest.mark.parametrize("event", [event for event in Event if event is not Event.CUE])
def test_only_a_cue_flashes_or_clicks(event: Event, recording: RecordingStage) -> None:
    recording.stage.follow(Transition(event, Phase.ACT, 0))

    assert recording.lamp.shown == []
    assert recording.speaker.heard == ["tone silent"]


@pytest.mark.parametrize("phase", list(Phase))
def test_the_brake_tone_stops_once_the_target_is_found_or_the_repetition_is_over(
    phase: Phase, recording: RecordingStage
) -> None:
    recording.stage.speaker.play_tone(BrakeTone.ON)

    recording.stage.follow(Transition(Event.MOVED, phase, 0))

    assert ("tone silent" in recording.speaker.heard) == (phase not in FINDING)


@pytest.mark.parametrize("phase", list(Phase))
def test_feedback_on_the_repetition_before_ends_as_the_wait_begins(
    phase: Phase, recording: RecordingStage
) -> None:
    recording.stage.follow(Transition(Event.MOVED, phase, 0))

    assert recording.speaker.ended == (phase is Phase.WAIT)


CUE = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.CUE)
BEAT = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.COUNT)
EASE = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.FALL)
BE_OFF = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.OFF)
HIGH_KNOCK = Transition(Event.KNOCK, Phase.WAIT, 1_500_000_000, signal=Signal.HIGH)


@pytest.mark.parametrize(
    ("signals", "seen", "heard"),
    [
        (Signals(), True, True),
        (Signals(flash=False), False, True),
        (Signals(click=False), True, False),
        (Signals(Volume.OFF), True, False),
    ],
)
def test_the_cue_follows_the_settings_for_sound_and_light(
    signals: Signals, seen: bool, heard: bool, recording: RecordingStage
) -> None:
    recording.stage.tune(signals)

    recording.stage.follow(CUE)

    assert (recording.lamp.shown == ["cue"], "click" in recording.speaker.heard) == (seen, heard)


@pytest.mark.parametrize("flash", [True, False])
def test_a_beat_that_cannot_be_heard_flashes_dimly_though_the_flash_is_off(
    recording: RecordingStage, flash: bool
) -> None:
    recording.speaker.trouble = "no audio device"
    recording.stage.tune(Signals(flash=flash))

    recording.stage.follow(BEAT)

    assert recording.lamp.shown == ["beat"]


def test_a_cue_that_cannot_be_heard_flashes_though_the_flash_is_off(
    recording: RecordingStage,
) -> None:
    recording.speaker.trouble = "no audio device"
    recording.stage.tune(Signals(flash=False))

    recording.stage.follow(CUE)

    assert recording.lamp.shown == ["cue"]


def test_a_beat_of_the_count_in_flashes_only_if_it_cannot_be_heard(
    recording: RecordingStage,
) -> None:
    recording.stage.follow(BEAT)
    recording.speaker.trouble = "no audio device"
    recording.stage.follow(BEAT)

    assert recording.speaker.heard == ["tone silent", "count"]
    assert recording.lamp.shown == ["beat"]


def test_the_cue_to_be_off_is_the_knock_of_the_count_in(recording: RecordingStage) -> None:
    recording.stage.follow(BE_OFF)

    assert recording.speaker.heard == ["tone silent", "count"]
    assert recording.lamp.shown == []
    assert recording.lines[0] == {"t": 0.0, "event": "cue", "signal": "off"}


@pytest.mark.parametrize(
    ("signal", "said"), [(Signal.LOW, "low knock"), (Signal.HIGH, "high knock")]
)
def test_a_knock_of_the_second_task_is_heard_and_logged_as_no_cue(
    signal: Signal, said: str, recording: RecordingStage
) -> None:
    recording.stage.follow(replace(HIGH_KNOCK, signal=signal))

    assert recording.speaker.heard == ["tone silent", said]
    assert recording.lines[0] == {
        "t": 1.5,
        "event": "knock",
        "signal": signal.value,
        "heard": True,
    }


def test_a_knock_of_the_second_task_is_never_flashed(recording: RecordingStage) -> None:
    recording.speaker.trouble = "no audio device"

    recording.stage.follow(HIGH_KNOCK)

    assert recording.lamp.shown == []
    assert recording.lines[0]["heard"] is False


def test_the_tone_follows_the_brake_line_of_a_zone(recording: RecordingStage) -> None:
    line = ((0.0, 70.0), (1.2, 60.0), (2.5, 0.0))
    recording.stage.begin(replace(BLIP_TASK, signals=(Signal.FALL,), line=line), 0)

    recording.stage.follow(EASE)

    assert recording.speaker.heard == ["tone silent", "fall 2.5"]


def test_the_cue_to_ease_off_sounds_for_as_long_as_the_release_should_take(
    recording: RecordingStage,
) -> None:
    recording.stage.begin(replace(BLIP_TASK, signals=(Signal.FALL,), falls=1.5), 0)

    recording.stage.follow(EASE)

    assert recording.speaker.heard == ["tone silent", "fall 1.8"]
    assert recording.lamp.shown == ["cue"]


@pytest.mark.parametrize(("event", "phase"), [(Event.LEFT, Phase.DONE), (Event.FAULT, Phase.VOID)])
def test_the_falling_tone_ends_with_the_repetition(
    event: Event, phase: Phase, recording: RecordingStage
) -> None:
    recording.stage.begin(replace(BLIP_TASK, signals=(Signal.FALL,), falls=1.5), 0)
    recording.stage.follow(EASE)

    recording.stage.follow(Transition(event, phase, 0))

    assert recording.speaker.heard[-1] == "fall ends"


@pytest.mark.parametrize(
    ("cue", "shown"), [(CUE, "cue"), (BEAT, "beat"), (EASE, "cue"), (BE_OFF, "beat")]
)
def test_every_cue_flashes_after_the_sound_is_lost_until_it_is_back(
    cue: Transition, shown: str, recording: RecordingStage
) -> None:
    task = replace(BLIP_TASK, falls=1.5)
    recording.stage.tune(Signals(flash=False))
    recording.stage.begin(task, 0)

    recording.stage.follow(cue)
    heard = recording.lamp.shown.copy()
    recording.stage.lose_sound()
    recording.stage.follow(cue)
    recording.stage.begin(task, 0)
    recording.stage.follow(cue)
    lost = recording.lamp.shown.copy()
    recording.speaker.back = True
    recording.stage.begin(task, 0)
    recording.stage.follow(cue)

    assert heard == []
    assert lost == [shown, shown]
    assert recording.lamp.shown == lost


def test_a_lost_sound_and_its_return_are_logged_once(recording: RecordingStage) -> None:
    recording.stage.lose_sound()
    recording.stage.lose_sound()
    recording.stage.begin(HOLD_TASK, 1_000_000)
    recording.speaker.back = True
    recording.stage.begin(HOLD_TASK, 2_000_000)
    recording.stage.begin(HOLD_TASK, 3_000_000)

    assert [line for line in recording.lines if line["event"].startswith("sound")] == [
        {"t": 0.0, "event": "sound lost", "reason": "the audio device is gone"},
        {"t": 0.002, "event": "sound back"},
    ]


def test_listeners_are_called_with_tasks_transitions_menus_and_records(
    recording: RecordingStage,
) -> None:
    transition = Transition(Event.STEADY, Phase.WAIT, 5)

    recording.stage.begin(HOLD_TASK, 1_000_000)
    recording.stage.follow(transition)
    recording.stage.open_menu()
    recording.stage.conclude(3, 41, record())

    assert recording.audience.tasks == [HOLD_TASK]
    assert recording.audience.transitions == [transition]
    assert recording.audience.menus == 1
    assert [place for place, _ in recording.audience.records] == [3]
    assert recording.lines[0] == {"t": 0.001, "event": "phase", "phase": "release"}


def test_a_verdict_is_logged_with_its_id_and_measures(recording: RecordingStage) -> None:
    recording.stage.conclude(3, 41, record())

    assert recording.lines == [
        {
            "t": 0.0,
            "event": "verdict",
            "id": 41,
            "level": "a-blip",
            "target": 60.0,
            "score": 41.25,
            "clean": False,
            "reason": "over limit",
            "over": ["dip"],
            "measures": {"dip": 19.5, "settle": None},
        }
    ]
