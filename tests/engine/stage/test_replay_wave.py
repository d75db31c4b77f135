"""A brake as sound: what was held and what was pressed as pitches, the throttle as noise."""

import numpy as np
import pytest

from engine.stage.replay_wave import EAR, ear_wave, replay_wave
from engine.stage.waves import RATE, Wave
from tests.engine.stage.hearing import bands

TIME = np.arange(0, 2, 0.001) - 0.5
STILL = np.zeros(TIME.size)


def loud(wave: Wave, pitch: float) -> float:
    """Amplitude of a wave at a pitch in Hz."""
    turn = 2 * np.pi * pitch * np.arange(wave.size) / RATE
    return float(2 * np.hypot(np.mean(wave * np.cos(turn)), np.mean(wave * np.sin(turn))))


@pytest.mark.parametrize(("speed", "seconds"), [(0.25, 8.0), (1.0, 2.0), (4.0, 0.5)])
def test_a_replay_lasts_as_long_as_its_speed_says(speed: float, seconds: float) -> None:
    wave = replay_wave(TIME, STILL, None, speed)

    assert wave.shape == (pytest.approx(seconds * RATE, abs=RATE * 0.001 / speed + 1), 2)


@pytest.mark.parametrize(("points", "pitch"), [(-24.0, 220.0), (12.0, 440 * 2**0.5), (24.0, 880.0)])
def test_the_own_brake_is_an_octave_off_for_24_points_and_sounds_on_the_right(
    points: float, pitch: float
) -> None:
    left, right = replay_wave(TIME, STILL + points, None, 1.0)[RATE // 2 :].T

    # Panned by 60 %: a right angle times 0.8 between the sides.
    assert loud(right, pitch) / loud(left, pitch) == pytest.approx(np.tan(0.4 * np.pi), rel=0.03)
    for side in (left, right):
        assert loud(side, 440.0) == pytest.approx(10 ** (-12 / 20), abs=0.01)


def test_the_pitch_follows_the_deviation_in_time() -> None:
    wave = replay_wave(TIME, np.where(TIME < 0.5, 0.0, -24.0), None, 0.5)[:, 1]
    before, after = wave[: round(1.9 * RATE)], wave[round(2.1 * RATE) :]

    assert loud(before, 220.0) < 0.02
    assert loud(after, 220.0) > 0.2


def test_the_throttle_is_noise_of_two_to_four_kilohertz_as_loud_as_it_is_pressed() -> None:
    throttle = np.where(TIME < 0.5, 25.0, 100.0)
    with_noise = replay_wave(TIME, STILL, throttle, 1.0)
    noise = (with_noise - replay_wave(TIME, STILL, None, 1.0))[:, 0]

    inside, outside = (
        sum(bands(noise, np.array(edges))) for edges in ([1990.0, 4010.0], [20.0, 1990.0])
    )
    soft, hard = (np.std(noise[round(at * RATE) :][: RATE // 2]) for at in (0.3, 1.3))
    assert inside > 50 * outside
    assert hard / soft == pytest.approx(4, rel=0.15)
    assert noise == pytest.approx(
        (replay_wave(TIME, STILL, throttle, 1.0) - replay_wave(TIME, STILL, None, 1.0))[:, 0]
    )


@pytest.mark.parametrize("throttle", [None, STILL + 100.0])
def test_a_replay_begins_and_ends_in_silence_and_does_not_clip(throttle: Wave | None) -> None:
    wild = 60 * np.sin(40 * TIME)

    wave = replay_wave(TIME, wild, throttle, 0.25)

    assert np.abs(wave[[0, -1]]).max() < 0.001
    assert np.abs(wave).max() <= 1
    assert np.abs(np.diff(wave, axis=0)).max() < 0.25


def test_by_ear_a_repetition_is_heard_in_half_a_second() -> None:
    wave = ear_wave(TIME, STILL - 24.0)

    heard = wave[: round(EAR * RATE)]
    assert EAR == 0.5
    assert loud(heard[:, 1], 220.0) > 0.3
    assert np.abs(wave[round(EAR * RATE) :]).max() < 0.001
    assert wave.shape[0] < 0.6 * RATE
    assert np.abs(wave).max() < 0.75
