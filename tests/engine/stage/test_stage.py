"""The stage: what is lit, sounded and told of what happens."""

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
from tests.fakes import Audience, Lamp, Loudspeaker
from tests.made import BLIP_TASK, HOLD_TASK, record


class Told:
    """A stage whose every effect is remembered."""

    def __init__(self, folder: Path) -> None:
        self.lamp, self.speaker, self.audience = Lamp(), Loudspeaker(), Audience()
        self._path = folder / "events.jsonl"
        self._events = Events(self._path, ManualClock())
        self.stage = Stage(self.lamp, self.speaker, self._events, (self.audience,))

    @property
    def lines(self) -> list[dict[str, Any]]:
        """What the events file says."""
        return [json.loads(line) for line in self._path.read_text("utf-8").splitlines()]

    def close(self) -> None:
        """Close the events file."""
        self._events.close()


@pytest.fixture
def told(tmp_path: Path) -> Iterator[Told]:
    """A stage that remembers."""
    with closing(Told(tmp_path)) as stage:
        yield stage


def test_the_cue_is_seen_heard_and_told_at_its_time(told: Told) -> None:
    told.stage.follow(Transition(Event.CUE, Phase.ACT, 2_500_000_000, 0, Signal.CUE))

    assert told.lamp.shown == ["cue"]
    assert told.speaker.heard == ["tone silent", "click"]
    assert told.lines == [
        {"t": 2.5, "event": "cue", "signal": "cue"},
        {"t": 2.5, "event": "phase", "phase": "act", "by": "cue"},
    ]


@pytest.mark.parametrize("event", [event for event in Event if event is not Event.CUE])
def test_nothing_but_a_cue_is_lit_or_clicks(event: Event, told: Told) -> None:
    told.stage.follow(Transition(event, Phase.ACT, 0))

    assert told.lamp.shown == []
    assert told.speaker.heard == ["tone silent"]


@pytest.mark.parametrize("phase", list(Phase))
def test_the_aim_falls_silent_once_the_target_is_found_or_the_repetition_is_over(
    phase: Phase, told: Told
) -> None:
    told.stage.speaker.play_tone(BrakeTone.ON)

    told.stage.follow(Transition(Event.MOVED, phase, 0))

    assert ("tone silent" in told.speaker.heard) == (phase not in FINDING)


CUE = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.CUE)
BEAT = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.COUNT)
EASE = Transition(Event.CUE, Phase.ACT, 0, 0, Signal.FALL)


@pytest.mark.parametrize(
    ("signals", "seen", "heard"),
    [
        (Signals(), True, True),
        (Signals(flash=False), False, True),
        (Signals(click=False), True, False),
        (Signals(Volume.OFF), True, False),
    ],
)
def test_the_cue_is_given_as_it_is_wanted(
    signals: Signals, seen: bool, heard: bool, told: Told
) -> None:
    told.stage.tune(signals)

    told.stage.follow(CUE)

    assert (told.lamp.shown == ["cue"], "click" in told.speaker.heard) == (seen, heard)


def test_a_cue_that_cannot_be_heard_is_seen_though_the_flash_is_off(told: Told) -> None:
    told.speaker.trouble = "no audio device"
    told.stage.tune(Signals(flash=False))

    told.stage.follow(CUE)

    assert told.lamp.shown == ["cue"]


def test_a_beat_of_the_count_in_is_heard_and_only_seen_where_it_is_not(told: Told) -> None:
    told.stage.follow(BEAT)
    told.speaker.trouble = "no audio device"
    told.stage.follow(BEAT)

    assert told.speaker.heard == ["tone silent", "count"]
    assert told.lamp.shown == ["beat"]


def test_the_cue_to_ease_off_sounds_for_as_long_as_it_should_take(told: Told) -> None:
    told.stage.begin(replace(BLIP_TASK, signals=(Signal.FALL,), falls=1.5), 0)

    told.stage.follow(EASE)

    assert told.speaker.heard == ["tone silent", "fall 1.5"]
    assert told.lamp.shown == ["cue"]


@pytest.mark.parametrize(("event", "phase"), [(Event.LEFT, Phase.DONE), (Event.FAULT, Phase.VOID)])
def test_the_tone_ends_with_the_repetition(event: Event, phase: Phase, told: Told) -> None:
    told.stage.begin(replace(BLIP_TASK, signals=(Signal.FALL,), falls=1.5), 0)
    told.stage.follow(EASE)

    told.stage.follow(Transition(event, phase, 0))

    assert told.speaker.heard[-1] == "fall ends"


def test_listeners_are_told_of_tasks_transitions_menus_and_records(told: Told) -> None:
    transition = Transition(Event.STEADY, Phase.WAIT, 5)

    told.stage.begin(HOLD_TASK, 1_000_000)
    told.stage.follow(transition)
    told.stage.open_menu()
    told.stage.conclude(3, 41, record())

    assert told.audience.tasks == [HOLD_TASK]
    assert told.audience.transitions == [transition]
    assert told.audience.menus == 1
    assert [place for place, _ in told.audience.records] == [3]
    assert told.lines[0] == {"t": 0.001, "event": "phase", "phase": "release"}


def test_a_verdict_is_told_with_its_number_and_measures(told: Told) -> None:
    told.stage.conclude(3, 41, record())

    assert told.lines == [
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
