"""Sounds as waves: no seams, no cracks, and pitches that are easy to tell apart."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from drills.braking_zone import BrakingZone, Line
from engine.stage import waves
from engine.stage.brake_tone import BrakeTone
from engine.stage.waves import AIM_TONES, RATE, TONE_LENGTH, Wave
from tests.drills.test_tasks import EASE
from tests.engine.stage.hearing import level, loss_on_small_speaker, loudest_pitch, spectrum


def evenly(seconds: float) -> Line:
    """Course of a tone that holds for 0.3 s and then falls evenly for so long."""
    return replace(EASE, falls=seconds).guide


SOUNDS: dict[str, Callable[[], Wave]] = {
    "click": waves.click,
    "click over the fall": waves.click_over_fall,
    "beat": waves.beat,
    "fall": lambda: waves.fall(evenly(2.0)),
    "low knock": lambda: waves.knock(high=False),
    "high knock": lambda: waves.knock(high=True),
}
each_sound = pytest.mark.parametrize("name", SOUNDS)
each_tone = pytest.mark.parametrize("tone", AIM_TONES)


def loudness(wave: Wave) -> float:
    """Root mean square of a wave."""
    return float(np.sqrt(np.mean(wave**2)))


@each_tone
def test_a_brake_tone_loops_without_a_seam(tone: BrakeTone) -> None:
    wave = waves.brake_tone(tone)

    steps = np.abs(np.diff(wave))
    assert abs(wave[0] - wave[-1]) <= steps.max() * 1.001


@each_tone
def test_a_brake_tone_holds_whole_periods_and_whole_pulses(tone: BrakeTone) -> None:
    sound, wave = AIM_TONES[tone], waves.brake_tone(tone)
    power = np.abs(np.fft.rfft(wave)) ** 2
    at = np.arange(power.size) / TONE_LENGTH
    # A tone of whole periods and pulses has nothing between its partials and their sidebands.
    partials = [number * sound.pitch for number in range(1, len(sound.partials) + 1)]
    near = np.min([np.abs(at - partial) for partial in partials], axis=0) <= sound.pulses + 0.1

    assert (sound.pulses * TONE_LENGTH).is_integer()
    assert power[~near].sum() < 1e-9 * power.sum()


@pytest.mark.parametrize(
    ("tone", "pitch", "partials", "peak", "pulses"),
    [
        (BrakeTone.LIGHT, 220, [n**-0.5 for n in range(1, 9)], 0.11, 4),
        (BrakeTone.ON, 440, [1.0, 0.5, 0.2], 0.105, 0),
        (BrakeTone.HEAVY, 880, [1.0, 0.3], 0.05, 8),
    ],
)
def test_a_brake_tone_has_its_pitch_partials_peak_and_pulses(
    tone: BrakeTone, pitch: float, partials: list[float], peak: float, pulses: float
) -> None:
    wave = waves.brake_tone(tone)
    loud = np.abs(np.fft.rfft(wave))

    found = [loud[round(number * pitch * TONE_LENGTH)] for number in range(1, len(partials) + 2)]

    ratios = [*partials, 0.0]
    assert [one / found[0] for one in found] == pytest.approx(ratios, abs=0.01)
    assert loudest_pitch(wave) == pytest.approx(pitch)
    assert np.abs(wave).max() == pytest.approx(peak, rel=0.01)
    # Between pulses the first partial is weaker: its sidebands are as far away as pulses are fast.
    beside = loud[round((pitch + pulses) * TONE_LENGTH)] / found[0]
    assert beside == pytest.approx(0.85 / 4 / 0.575 if pulses else 1.0, abs=0.01)


def test_tones_rise_from_light_to_heavy_and_the_steady_one_is_the_fullest() -> None:
    light, on, heavy = (
        waves.brake_tone(tone) for tone in (BrakeTone.LIGHT, BrakeTone.ON, BrakeTone.HEAVY)
    )

    # Under a third apart two pitches are easily taken for each other (common practice).
    assert loudest_pitch(on) >= 1.25 * loudest_pitch(light)
    assert loudest_pitch(heavy) >= 1.25 * loudest_pitch(on)
    assert loudness(on) > max(loudness(light), loudness(heavy))
    assert max(loudness(tone) for tone in (light, on, heavy)) < 0.5 * loudness(waves.click())


@each_tone
def test_a_small_speaker_plays_every_brake_tone(tone: BrakeTone) -> None:
    assert loss_on_small_speaker(waves.brake_tone(tone)) < 5


def test_no_sounds_that_can_play_together_clip() -> None:
    fall = waves.fall(evenly(2.0))
    over = fall[RATE // 10 :].max() + np.abs(waves.click_over_fall()).max()
    tones = max(np.abs(waves.brake_tone(tone)).max() for tone in AIM_TONES)

    assert over <= 0.96
    assert np.abs(fall).max() + tones <= 1
    # A tone fades out as the dark begins, and the click comes long after its fade.
    assert 2 * tones + np.abs(waves.beat()).max() <= 1
    # The knock at turn-in comes as the tone ends, and one to be counted may come beside any cue.
    assert 0.35 + np.abs(waves.beat()).max() <= 1
    knocks = max(np.abs(waves.knock(high=high)).max() for high in (False, True))
    assert knocks + np.abs(waves.beat()).max() <= 1


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
    wave = waves.fall(evenly(seconds))
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


@pytest.mark.parametrize("seconds", [1.0, 2.0, 3.7])
def test_an_even_fall_is_the_tone_of_the_closed_form_sample_for_sample(seconds: float) -> None:
    wave = waves.fall(evenly(seconds))[: -round(0.1 * RATE)]

    # The integral of 1320 * 4 ** (-share) over time, by hand.
    time = np.arange(wave.size) / RATE
    falling = np.maximum(time - 0.3, 0)
    fallen = seconds / np.log(4) * (1 - 4.0 ** (-falling / seconds))
    turned = 2 * np.pi * 1320 * (np.minimum(time, 0.3) + fallen)
    tone = sum(loud * np.sin(n * turned) for n, loud in enumerate((1, 0.5, 0.33, 0.25), start=1))
    after = time > 0.06
    scale = 0.35 / np.abs(tone).max()
    assert wave[after] == pytest.approx(scale * tone[after], abs=1e-3)


@given(
    st.floats(0.2, 1.5), st.floats(0.3, 1.5), st.floats(0.4, 1.0), st.sampled_from([0.3, 0.5, 0.7])
)
def test_the_tone_of_any_line_has_turned_as_often_as_its_pitch_says(
    first: float, second: float, middle: float, part: float
) -> None:
    guide = ((0.0, 1.0), (first, middle), (first + second, 0.0))
    at = round(part * (first + second) * RATE)
    size = round(0.02 * RATE)
    times, shares = zip(*guide, strict=True)

    heard = waves.fall(guide)[at : at + size]

    # The phase by quadrature, where the tone alone sounds: the click ends after 0.06 s.
    def pitch(time: float) -> float:
        return float(330 * 4 ** np.interp(time, times, shares))

    begun = integrate.quad(pitch, 0, at / RATE, points=[first], limit=200)[0]
    step = np.array([pitch((at + k) / RATE) for k in range(size)])
    turned = 2 * np.pi * (begun + np.concatenate([[0.0], np.cumsum(step)[:-1] / RATE]))
    tone = sum(loud * np.sin(n * turned) for n, loud in enumerate((1, 0.5, 0.33, 0.25), start=1))
    alike = float(heard @ tone / np.sqrt((heard @ heard) * (tone @ tone)))
    assert alike > 0.999


def test_the_tone_of_a_zone_lasts_to_turn_in_and_holds_while_all_of_the_brake_is_asked() -> None:
    zone = BrakingZone(fast=64.0, slow=25.0, grip=14.0, downforce=0.0, ease=1.2)
    guide = replace(EASE, line=zone.line(70.0)).guide
    tenth = round(0.1 * RATE)

    wave = waves.fall(guide)

    assert wave.size == round(zone.seconds * RATE)
    for at in (0.1, zone.eased_from - 0.15):
        held = wave[round(at * RATE) :][:tenth]
        assert loudest_pitch(held) == pytest.approx(1320, abs=RATE / tenth)
    half = wave[round((zone.eased_from + 0.55) * RATE) :][:tenth]
    assert loudest_pitch(half) == pytest.approx(660, rel=0.04)


def test_a_high_knock_is_an_octave_over_a_low_one_and_as_loud() -> None:
    low, high = waves.knock(high=False), waves.knock(high=True)

    for knock in (low, high):
        assert knock.size == 0.040 * RATE
        assert level(waves.click()) - level(knock) == pytest.approx(12, abs=0.1)
    assert peak_pitch(low) == pytest.approx(400, rel=0.05)
    assert peak_pitch(high) == pytest.approx(800, rel=0.05)
    assert float(spectrum(low) @ spectrum(high)) < 0.5


def peak_pitch(wave: Wave) -> float:
    """Pitch of a short wave in Hz, with zeros behind it, as it has few periods."""
    return loudest_pitch(np.pad(wave, (0, RATE)))


def test_the_falling_tone_has_four_partials_that_grow_softer() -> None:
    held = waves.fall(evenly(2.0))[round(0.1 * RATE) : round(0.3 * RATE)]
    loud = np.abs(np.fft.rfft(held))

    first, *others = (loud[round(k * 1320 * held.size / RATE)] for k in (1, 2, 3, 4, 5))

    assert [other / first for other in others] == pytest.approx([0.5, 0.33, 0.25, 0.0], abs=0.02)


def test_the_falling_tone_begins_with_a_click_that_stands_out_and_is_softer_than_the_cue() -> None:
    wave = np.abs(waves.fall(evenly(2.0)))

    struck, tone = wave[: round(0.01 * RATE)].max(), wave[round(0.1 * RATE) :].max()

    assert tone == pytest.approx(0.35, abs=0.001)
    assert struck == pytest.approx(0.60, abs=0.03)
    assert wave.max() == struck


def test_a_small_speaker_takes_little_from_the_falling_tone_even_at_its_end() -> None:
    assert loss_on_small_speaker(waves.fall(evenly(2.0))[-round(0.2 * RATE) :]) < 5


@pytest.mark.parametrize("rate", [22_050, 44_100, 96_000])
def test_a_sound_for_a_device_at_another_rate_keeps_its_length_and_pitch(rate: int) -> None:
    wave = waves.brake_tone(BrakeTone.ON)

    other = waves.at_rate(wave, rate)

    assert other.size / rate == pytest.approx(wave.size / RATE, abs=1 / rate)
    heard = loudest_pitch(other) * rate / RATE
    assert heard == pytest.approx(440, abs=2 * rate / other.size)


@each_tone
@pytest.mark.parametrize("rate", [22_050, 44_100])
def test_a_brake_tone_at_another_rate_still_loops_without_a_seam(
    tone: BrakeTone, rate: int
) -> None:
    other = waves.at_rate(waves.brake_tone(tone), rate)

    steps = np.abs(np.diff(other))
    assert abs(other[0] - other[-1]) <= steps.max()
