"""Volume, click and flash: each can be changed, and a cue is always seen or heard."""

from itertools import product

import pytest

from engine.stage.signals import (
    HEARD_AGAIN,
    HEARD_NOT_SEEN,
    NOTHING_ELSE,
    SEEN_NOT_HEARD,
    SHARE,
    SignalChange,
    Signals,
    SignalsError,
    Volume,
    next_volume,
    seen_at_least,
    switch_click,
    switch_flash,
)

ALL = [Signals(*values) for values in product(Volume, (True, False), (True, False))]
NOTICED = [signals for signals in ALL if signals.clicks or signals.flash]


@pytest.mark.parametrize("signals", NOTICED)
def test_no_change_leads_to_a_cue_that_is_neither_seen_nor_heard(signals: Signals) -> None:
    changes = [next_volume(signals), switch_click(signals), switch_flash(signals, speaker=True)]

    assert all(change.signals.clicks or change.signals.flash for change in changes)


@pytest.mark.parametrize("signals", NOTICED)
def test_a_change_of_more_than_was_asked_for_is_told(signals: Signals) -> None:
    changes = [next_volume(signals), switch_click(signals), switch_flash(signals, speaker=True)]

    for change in changes:
        before, now = signals.as_data(), change.signals.as_data()
        assert (sum(before[key] != now[key] for key in now) > 1) == bool(change.said)


@pytest.mark.parametrize("signals", [signals for signals in ALL if signals.flash])
def test_without_a_speaker_the_flash_cannot_be_turned_off(signals: Signals) -> None:
    assert switch_flash(signals, speaker=False) == SignalChange(signals, NOTHING_ELSE)


def test_turning_the_last_of_click_and_flash_off_turns_the_other_on() -> None:
    seen, heard = Signals(click=False), Signals(flash=False)

    assert switch_flash(seen, speaker=True) == SignalChange(heard, HEARD_NOT_SEEN)
    assert switch_click(heard) == SignalChange(seen, SEEN_NOT_HEARD)


def test_turning_the_volume_off_turns_the_flash_on() -> None:
    loudest = Signals(Volume.LOUD, click=True, flash=False)

    changed = next_volume(loudest)

    assert changed == SignalChange(Signals(Volume.OFF, click=True, flash=True), SEEN_NOT_HEARD)


@pytest.mark.parametrize("click", [True, False])
def test_turning_the_flash_off_while_silent_turns_the_volume_on(click: bool) -> None:
    changed = switch_flash(Signals(Volume.OFF, click=click), speaker=True)

    assert changed == SignalChange(Signals(Volume.MEDIUM, click=True, flash=False), HEARD_AGAIN)


def test_a_speaker_that_turns_out_to_be_missing_brings_the_flash_back() -> None:
    hoped = switch_flash(Signals(Volume.OFF), speaker=True)

    found = seen_at_least(hoped)

    assert found == SignalChange(Signals(Volume.MEDIUM), NOTHING_ELSE)
    assert seen_at_least(SignalChange(Signals(), "said")) == SignalChange(Signals(), "said")


def test_the_volume_goes_through_its_steps_each_louder_and_begins_again() -> None:
    steps = [Signals(Volume.OFF)]
    for _ in Volume:
        steps.append(next_volume(steps[-1]).signals)

    shares = [SHARE[signals.volume] for signals in steps]
    assert shares[:-1] == sorted(set(shares))
    assert (shares[0], shares[-2], shares[-1]) == (0.0, 1.0, 0.0)


@pytest.mark.parametrize("signals", ALL)
def test_what_is_saved_is_read_back(signals: Signals) -> None:
    assert Signals.from_data(signals.as_data()) == signals


@pytest.mark.parametrize(
    ("data", "said"),
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
def test_what_makes_no_sense_is_refused_in_a_line(data: object, said: str) -> None:
    with pytest.raises(SignalsError) as refused:
        Signals.from_data(data)

    assert str(refused.value).startswith(said)
