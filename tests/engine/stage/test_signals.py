"""Settings for sound and light: each can be changed, and a cue is always seen or heard."""

from itertools import product

import pytest

from engine.stage.signals import (
    CLICK_ON,
    FLASH_ON,
    FLASH_STAYS_ON,
    MOTION_STAYS_OFF,
    VOLUME_AND_CLICK_ON,
    VOLUME_SHARES,
    SignalChange,
    Signals,
    SignalsError,
    Volume,
    next_volume,
    switch_click,
    switch_ear,
    switch_flash,
    switch_motion,
    with_flash,
)

ALL = [Signals(*values) for values in product(Volume, (True, False), (True, False))]
NOTICEABLE = [signals for signals in ALL if signals.clicks or signals.flash]


def all_changes(signals: Signals) -> list[SignalChange]:
    """Every change that a player with a working speaker can make."""
    return [
        next_volume(signals),
        switch_click(signals),
        switch_flash(signals, speaker=True),
        switch_ear(signals),
        switch_motion(signals, less_motion=False),
    ]


@pytest.mark.parametrize("signals", NOTICEABLE)
def test_no_change_leads_to_a_cue_that_is_neither_seen_nor_heard(signals: Signals) -> None:
    changes = all_changes(signals)

    assert all(change.signals.clicks or change.signals.flash for change in changes)


@pytest.mark.parametrize("signals", NOTICEABLE)
def test_a_change_of_more_than_the_player_asked_for_comes_with_a_notice(signals: Signals) -> None:
    changes = all_changes(signals)

    for change in changes:
        before, now = signals.as_data(), change.signals.as_data()
        assert (sum(before[key] != now[key] for key in now) > 1) == bool(change.notice)


@pytest.mark.parametrize("signals", NOTICEABLE)
def test_without_a_speaker_the_setting_of_the_flash_stays(signals: Signals) -> None:
    assert switch_flash(signals, speaker=False) == SignalChange(signals, FLASH_STAYS_ON)


def test_hearing_the_brake_and_motion_change_by_themselves() -> None:
    assert switch_ear(Signals()) == SignalChange(Signals(ear=True))
    assert switch_motion(Signals(), less_motion=False) == SignalChange(Signals(motion=False))
    assert switch_motion(Signals(), less_motion=True) == SignalChange(Signals(), MOTION_STAYS_OFF)


def test_turning_the_last_of_click_and_flash_off_turns_the_other_on() -> None:
    seen, heard = Signals(click=False), Signals(flash=False)

    assert switch_flash(seen, speaker=True) == SignalChange(heard, CLICK_ON)
    assert switch_click(heard) == SignalChange(seen, FLASH_ON)


def test_turning_the_volume_off_turns_the_flash_on() -> None:
    loudest = Signals(Volume.LOUD, click=True, flash=False)

    changed = next_volume(loudest)

    assert changed == SignalChange(Signals(Volume.OFF, click=True, flash=True), FLASH_ON)


@pytest.mark.parametrize("click", [True, False])
def test_turning_the_flash_off_while_silent_turns_the_volume_on(click: bool) -> None:
    changed = switch_flash(Signals(Volume.OFF, click=click), speaker=True)

    assert changed == SignalChange(
        Signals(Volume.MEDIUM, click=True, flash=False), VOLUME_AND_CLICK_ON
    )


def test_a_speaker_that_turns_out_to_be_missing_brings_the_flash_back() -> None:
    with_click = switch_flash(Signals(Volume.OFF), speaker=True)

    corrected = with_flash(with_click)

    assert corrected == SignalChange(Signals(Volume.MEDIUM), FLASH_STAYS_ON)
    assert with_flash(SignalChange(Signals(), "notice")) == SignalChange(Signals(), "notice")


def test_the_volume_gets_louder_step_by_step_and_then_starts_over_at_off() -> None:
    steps = [Signals(Volume.OFF)]
    for _ in Volume:
        steps.append(next_volume(steps[-1]).signals)

    shares = [VOLUME_SHARES[signals.volume] for signals in steps]
    assert shares[:-1] == sorted(set(shares))
    assert (shares[0], shares[-2], shares[-1]) == (0.0, 1.0, 0.0)


@pytest.mark.parametrize("signals", ALL)
def test_saved_signals_are_read_back(signals: Signals) -> None:
    assert Signals.from_data(signals.as_data()) == signals


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (3, "expected an object of volume, click and flash, found 3"),
        ({"volume": "loud"}, "expected an object of volume, click and flash, found {'volume': "),
        (
            {"volume": "loud", "click": 1, "flash": True},
            "click: expected true or false, found 1",
        ),
        (
            {"volume": "deafening", "click": True, "flash": True},
            "volume: expected one of off, quiet, medium, loud, found 'deafening'",
        ),
        (
            {"volume": [], "click": True, "flash": True},
            "volume: expected one of off, quiet, medium, loud, found []",
        ),
    ],
)
def test_invalid_signals_are_refused_with_one_line(data: object, message: str) -> None:
    with pytest.raises(SignalsError) as refused:
        Signals.from_data(data)

    assert str(refused.value).startswith(message)


def test_each_volume_is_ten_decibels_louder_than_the_one_before() -> None:
    shares = [VOLUME_SHARES[volume] for volume in Volume]

    assert shares == pytest.approx([0.0, 0.1, 0.1 * 10**0.5, 1.0])
