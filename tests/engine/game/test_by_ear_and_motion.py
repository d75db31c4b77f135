"""Hearing the brake and motion: chosen like the rest, and told as they stand."""

import pytest

from engine.game.signal_words import CALM_DOES, EAR_DOES, FLASH_DOES, MOTION_DOES, VOLUME_DOES
from engine.game.signal_words import EAR as EAR_LABEL
from engine.stage.actions import Action
from engine.stage.signals import MOTION_STAYS_OFF, Signals, Volume
from tests.engine.game.tuned import EAR, FLASH, MOTION, VOLUME, Tuned


def test_the_selected_choice_says_what_it_does() -> None:
    tuned = Tuned(Signals())
    shown = []

    for _ in range(5):
        shown.append(tuned.said())
        tuned.screen.on_action(Action.NEXT)

    for place, lines in {
        VOLUME: VOLUME_DOES,
        FLASH: FLASH_DOES,
        EAR: EAR_DOES,
        MOTION: MOTION_DOES,
    }.items():
        assert [set(lines) <= set(said) for said in shown] == [place == at for at in range(5)]


def test_hearing_the_brake_is_off_at_first_and_chosen_like_the_rest() -> None:
    tuned = Tuned(Signals())
    before = tuned.note(EAR_LABEL)

    tuned.choose(EAR)

    assert (before, tuned.note(EAR_LABEL)) == ("off", "on")
    assert tuned.saved == [Signals(ear=True)]


@pytest.mark.parametrize(
    ("signals", "trouble", "note"),
    [
        (Signals(ear=True), "no audio device", "on, but silent: no speaker"),
        (Signals(Volume.OFF, ear=True), "", "on, but silent: the volume is off"),
        (Signals(), "no audio device", "off"),
    ],
)
def test_hearing_the_brake_says_why_nothing_is_heard(
    signals: Signals, trouble: str, note: str
) -> None:
    assert Tuned(signals, trouble).note(EAR_LABEL) == note


def test_motion_is_switched_off_and_on_at_once() -> None:
    tuned = Tuned(Signals())
    moves = [tuned.lamp.moves]

    tuned.choose(MOTION)
    moves.append(tuned.lamp.moves)
    note = tuned.note("Motion")
    tuned.screen.on_action(Action.GO)
    moves.append(tuned.lamp.moves)

    assert moves == [True, False, True]
    assert (note, tuned.note("Motion")) == ("off", "on")
    assert tuned.saved == [Signals(motion=False), Signals()]


def test_motion_stays_off_where_the_system_asks_for_less_and_the_setting_stays() -> None:
    tuned = Tuned(Signals())
    before = tuned.screen.appearance()
    tuned.lamp.wants_calm = True

    answered = tuned.screen.appearance()
    tuned.choose(MOTION)

    assert before != answered
    assert tuned.note("Motion") == "off"
    assert {MOTION_STAYS_OFF, *CALM_DOES} <= set(tuned.said())
    assert not set(MOTION_DOES) & set(tuned.said())
    assert tuned.saved == [Signals()]


def test_turning_the_flash_off_leaves_what_else_the_player_has_chosen() -> None:
    tuned = Tuned(Signals(Volume.OFF, ear=True, motion=False))

    tuned.choose(FLASH)

    assert tuned.saved == [Signals(flash=False, ear=True, motion=False)]
