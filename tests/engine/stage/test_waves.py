"""Sounds as waves: no seams, no cracks, and pitches that are easy to tell apart."""

from collections.abc import Callable
from itertools import combinations

import numpy as np
import pytest

from engine.stage import waves
from engine.stage.brake_tone import BrakeTone
from engine.stage.waves import HIGHEST_STEP, PITCHES, RATE, Wave, pitch

SOUNDS: dict[str, Callable[[], Wave]] = {
    "click": waves.click,
    "beat": waves.beat,
    "fall": lambda: waves.fall(2.0),
    "passed": waves.passed_wave,
    "best": waves.best,
    "first step": lambda: waves.chime(pitch(1)),
    "last step": lambda: waves.chime(pitch(HIGHEST_STEP)),
}
each_sound = pytest.mark.parametrize("name", SOUNDS)
each_tone = pytest.mark.parametrize("tone", PITCHES)


def loudest_pitch(wave: Wave) -> float:
    """Frequency of the largest component of a wave, in Hz."""
    return float(np.argmax(np.abs(np.fft.rfft(wave))) * RATE / wave.size)


def loudness(wave: Wave) -> float:
    """Root mean square of a wave."""
    return float(np.sqrt(np.mean(wave**2)))


def spectrum(wave: Wave) -> Wave:
    """Power of a wave in each quarter of an octave from 100 Hz up, shape (28,), of norm 1."""
    power = np.abs(np.fft.rfft(wave)) ** 2
    pitches = np.arange(power.size) * RATE / wave.size
    edges = 100 * 2 ** (np.arange(29) / 4)
    binned: Wave = np.histogram(pitches, edges, weights=power)[0]
    normed: Wave = binned / np.linalg.norm(binned)
    return normed


@each_tone
def test_a_brake_tone_loops_without_a_seam(tone: BrakeTone) -> None:
    wave = waves.brake_tone(tone)

    steps = np.abs(np.diff(wave))
    assert abs(wave[0] - wave[-1]) <= steps.max() * 1.001


@each_tone
def test_a_brake_tone_sounds_at_its_pitch_and_is_softer_than_the_click(tone: BrakeTone) -> None:
    wave = waves.brake_tone(tone)

    assert loudest_pitch(wave) == pytest.approx(PITCHES[tone])
    assert loudness(wave) < 0.5 * loudness(waves.click())


def test_brake_tones_rise_from_light_to_heavy_and_the_one_on_target_is_the_fullest() -> None:
    light, on, heavy = (
        waves.brake_tone(tone) for tone in (BrakeTone.LIGHT, BrakeTone.ON, BrakeTone.HEAVY)
    )

    # Under a third apart two pitches are easily taken for each other (common practice).
    assert loudest_pitch(on) >= 1.25 * loudest_pitch(light)
    assert loudest_pitch(heavy) >= 1.25 * loudest_pitch(on)
    assert loudness(on) > max(loudness(light), loudness(heavy))


@each_sound
def test_a_sound_begins_and_ends_in_silence_and_does_not_clip(name: str) -> None:
    wave = SOUNDS[name]()

    assert abs(wave[0]) < 0.01
    assert abs(wave[-1]) < 0.01
    assert np.abs(wave).max() <= 1


def test_the_click_is_loudest_at_once_and_rings_for_its_whole_length() -> None:
    wave = np.abs(waves.click())
    energy = np.cumsum(wave**2) / np.sum(wave**2)

    assert np.argmax(wave) < 0.001 * RATE
    assert np.searchsorted(energy, 0.5) < 0.006 * RATE
    assert wave.size == pytest.approx(0.060 * RATE)
    assert wave[round(0.040 * RATE) : round(0.045 * RATE)].max() > 0.02


def test_the_click_is_the_loudest_sound() -> None:
    others = [np.abs(SOUNDS[name]()).max() for name in SOUNDS if name != "click"]

    assert np.abs(waves.click()).max() > 1.5 * max(others)


def test_a_beat_of_the_count_in_is_softer_and_lower_than_the_cue() -> None:
    assert loudness(waves.beat()) < 0.8 * loudness(waves.click())
    assert loudest_pitch(waves.beat()) < 0.5 * loudest_pitch(waves.click())
    assert float(spectrum(waves.beat()) @ spectrum(waves.click())) < 0.5


@pytest.mark.parametrize("seconds", [1.0, 1.5, 2.6, 5.0])
def test_the_falling_tone_holds_its_first_pitch_then_falls_two_octaves_in_exactly_its_time(
    seconds: float,
) -> None:
    wave = waves.fall(seconds)
    tenth = round(0.1 * RATE)

    assert wave.size == round((0.30 + seconds) * RATE)
    for at in (0.1, 0.2):
        held = wave[round(at * RATE) :][:tenth]
        assert loudest_pitch(held) == pytest.approx(1320, abs=RATE / tenth)
    # A pitch that falls evenly by octaves: 2 ** (-2 share) of where it began.
    for at in (0.05, seconds / 2, seconds - 0.15):
        middle = (at + 0.05) / seconds
        heard = loudest_pitch(wave[round((0.30 + at) * RATE) :][:tenth])
        assert heard == pytest.approx(1320 * 4**-middle, rel=0.12)


def test_the_falling_tone_has_four_partials_that_grow_softer() -> None:
    held = waves.fall(2.0)[round(0.1 * RATE) : round(0.3 * RATE)]
    loud = np.abs(np.fft.rfft(held))

    first, *others = (loud[round(k * 1320 * held.size / RATE)] for k in (1, 2, 3, 4, 5))

    assert [other / first for other in others] == pytest.approx([0.5, 0.33, 0.25, 0.0], abs=0.02)


def test_the_falling_tone_begins_with_a_click_that_stands_out_and_is_softer_than_the_cue() -> None:
    wave = np.abs(waves.fall(2.0))

    struck, tone = wave[: round(0.01 * RATE)].max(), wave[round(0.1 * RATE) :].max()

    assert tone == pytest.approx(0.35, abs=0.001)
    assert struck == pytest.approx(0.60, abs=0.03)
    assert wave.max() == struck


def test_a_small_speaker_takes_little_from_the_falling_tone_even_at_its_end() -> None:
    # A small speaker as a second-order high-pass at 400 Hz (Butterworth): its gain at f is
    # (f / 400)^2 / sqrt(1 + (f / 400)^4).
    end = waves.fall(2.0)[-round(0.2 * RATE) :]
    ratio = np.arange(end.size // 2 + 1) * RATE / end.size / 400
    power = np.abs(np.fft.rfft(end)) ** 2

    left = np.sum(power * ratio**4 / (1 + ratio**4)) / np.sum(power)

    assert -10 * np.log10(left) < 5


def test_each_clean_repetition_of_a_streak_sounds_higher() -> None:
    pitches = [pitch(number) for number in range(1, HIGHEST_STEP + 1)]

    assert pitches == sorted(set(pitches))


def test_an_octave_doubles_the_pitch() -> None:
    # Five steps of a pentatonic scale make an octave; an octave is a ratio of 2 (common practice).
    assert pitch(6) == pytest.approx(2 * pitch(1))
    assert pitch(11) == pytest.approx(4 * pitch(1))


def test_no_two_steps_of_a_streak_are_a_semitone_or_a_tritone_apart() -> None:
    pitches = [pitch(number) for number in range(1, HIGHEST_STEP + 1)]

    apart = {round(12 * np.log2(high / low)) % 12 for low, high in combinations(pitches, 2)}

    # The two intervals that a pentatonic scale has none of (common practice).
    assert apart.isdisjoint({1, 6, 11})


def test_the_bells_of_a_best_run_upward_within_two_octaves() -> None:
    wave, between = waves.best(), round(0.065 * RATE)

    heard = [loudest_pitch(wave[k * between : (k + 1) * between]) for k in range(5)]

    assert heard == sorted(set(heard))
    assert heard[-1] < 4 * heard[0]


def test_a_chime_sounds_at_its_pitch() -> None:
    wave = waves.chime(pitch(3))

    assert loudest_pitch(wave) == pytest.approx(pitch(3), abs=2 * RATE / wave.size)


def test_a_chime_has_a_quiet_overtone_three_times_as_high() -> None:
    wave = waves.chime(pitch(3))
    loud = np.abs(np.fft.rfft(wave))

    first, third = (round(times * pitch(3) * wave.size / RATE) for times in (1, 3))

    heard = loud[third - 2 : third + 3].max() / loud[first - 2 : first + 3].max()
    assert heard == pytest.approx(0.2, abs=0.05)


def test_passed_and_best_sound_unlike_each_other_and_unlike_every_chime() -> None:
    steps = [spectrum(waves.chime(pitch(number))) for number in range(1, HIGHEST_STEP + 1)]
    rewards = [spectrum(waves.passed_wave()), spectrum(waves.best())]

    alike = [float(reward @ step) for reward in rewards for step in steps]
    alike += [float(one @ other) for one, other in combinations(rewards, 2)]

    assert max(alike) < 0.8


@pytest.mark.parametrize("name", ["passed", "best"])
def test_a_reward_is_short(name: str) -> None:
    assert 0.5 <= SOUNDS[name]().size / RATE <= 1.2


@pytest.mark.parametrize("rate", [22_050, 44_100, 96_000])
def test_a_sound_for_a_device_at_another_rate_keeps_its_length_and_pitch(rate: int) -> None:
    wave = waves.chime(pitch(6))

    other = waves.at_rate(wave, rate)

    assert other.size / rate == pytest.approx(wave.size / RATE, abs=1 / rate)
    heard = loudest_pitch(other) * rate / RATE
    assert heard == pytest.approx(pitch(6), abs=2 * rate / other.size)


@pytest.mark.parametrize("tone", list(waves.PITCHES))
def test_a_brake_tone_at_another_rate_still_loops_without_a_seam(tone: BrakeTone) -> None:
    other = waves.at_rate(waves.brake_tone(tone), 44_100)

    steps = np.abs(np.diff(other))
    assert abs(other[0] - other[-1]) <= steps.max()
