"""Earcons as waves: short, told apart in a fifth of a second, and at the pitches asked for."""

from itertools import combinations, pairwise

import numpy as np
import pytest

from engine.stage import waves
from engine.stage.earcon import Earcon
from engine.stage.earcon_waves import HIGHEST_STEP, VERDICTS, clean, earcon
from engine.stage.waves import AIM_TONES, RATE, Wave
from tests.engine.stage.hearing import loss_on_small_speaker, loudest_pitch, unlike

SOUNDS: dict[str, Wave] = {what.value: earcon(what) for what in Earcon} | {
    "clean": clean(1),
    "clean again": clean(2),
    "clean at last": clean(HIGHEST_STEP),
}
STEPS = ("clean", "clean again", "clean at last")
MOMENTS = [what for what in Earcon if what not in VERDICTS]

each_sound = pytest.mark.parametrize("name", SOUNDS)


def heard(what: Earcon, begin: float, end: float) -> float:
    """Loudest pitch in Hz of an earcon between two times in s."""
    return loudest_pitch(earcon(what)[round(begin * RATE) : round(end * RATE)])


@each_sound
def test_a_sound_begins_and_ends_in_silence_and_is_softer_than_the_cue(name: str) -> None:
    wave = SOUNDS[name]

    assert abs(wave[0]) < 0.01
    assert abs(wave[-1]) < 0.01
    assert np.abs(wave).max() <= 0.5 < 0.6 * np.abs(waves.click()).max()


@each_sound
def test_a_small_speaker_leaves_enough_of_a_sound(name: str) -> None:
    assert loss_on_small_speaker(SOUNDS[name]) < 9


@each_sound
def test_a_sound_is_short(name: str) -> None:
    longest = 0.35 if name in STEPS or Earcon(name) in VERDICTS else 1.3

    assert 0.15 <= SOUNDS[name].size / RATE <= longest


def test_any_two_sounds_are_told_apart_in_a_fifth_of_a_second() -> None:
    apart = {
        pair: unlike(SOUNDS[pair[0]], SOUNDS[pair[1]])
        for pair in combinations(SOUNDS, 2)
        if not set(pair) <= set(STEPS)
    }

    nearest = min(apart, key=lambda pair: apart[pair])
    assert apart[nearest] > 0.3, nearest


def test_a_clean_repetition_is_two_notes_a_fifth_apart() -> None:
    wave, note = clean(1), round(0.09 * RATE)

    assert loudest_pitch(wave[:note]) == pytest.approx(784, abs=RATE / note)
    assert loudest_pitch(wave[note : 2 * note]) == pytest.approx(1175, abs=RATE / note)


def test_each_clean_repetition_of_a_streak_sounds_higher_up_to_the_last_step() -> None:
    second = round(0.09 * RATE)
    climb = [loudest_pitch(clean(step)[second:]) for step in range(1, HIGHEST_STEP + 1)]

    assert all(high >= 1.1 * low for low, high in pairwise(climb))
    # Five steps of a pentatonic scale make an octave; an octave is a ratio of 2 (common practice).
    assert climb[5] == pytest.approx(2 * climb[0], rel=0.01)
    assert clean(HIGHEST_STEP + 1) == pytest.approx(clean(HIGHEST_STEP))


@pytest.mark.parametrize(("what", "semitones"), [(Earcon.DIP, -5), (Earcon.SURGE, 5)])
def test_a_dip_glides_down_and_a_surge_up_in_a_fifth_of_a_second(
    what: Earcon, semitones: int
) -> None:
    arrived = 523 * 2 ** (semitones / 12)

    assert heard(what, 0.0, 0.03) == pytest.approx(523, abs=RATE / 1440)
    assert heard(what, 0.20, 0.26) == pytest.approx(arrived, abs=RATE / 2880)


def test_late_is_the_same_note_twice_and_void_two_knocks() -> None:
    late, void = earcon(Earcon.LATE), earcon(Earcon.VOID)
    gap = slice(round(0.10 * RATE), round(0.13 * RATE))

    assert heard(Earcon.LATE, 0.0, 0.09) == pytest.approx(523, abs=RATE / 4320)
    again = late[round(0.15 * RATE) : round(0.17 * RATE)]
    assert late[round(0.01 * RATE) : round(0.03 * RATE)] == pytest.approx(again, abs=0.001)
    assert np.abs(late[gap]).max() == 0
    assert heard(Earcon.VOID, 0.0, 0.1) == pytest.approx(300, abs=RATE / 4800)
    struck, between, second = (
        np.abs(void[round(at * RATE) :][:480]).max() for at in (0, 0.09, 0.11)
    )
    assert min(struck, second) > 10 * between


def test_a_passed_level_strikes_at_once_and_has_a_glint() -> None:
    wave = np.abs(earcon(Earcon.PASSED))
    loud = np.abs(np.fft.rfft(earcon(Earcon.PASSED)[: RATE // 2]))

    root, glint = loud[[196 // 2, 1176 // 2]]
    assert wave[: round(0.006 * RATE)].max() > 0.5 * wave.max()
    assert 20 * np.log10(glint / root) == pytest.approx(-12, abs=0.5)


def test_a_day_that_is_done_goes_down_in_two_long_notes() -> None:
    assert heard(Earcon.DAY_DONE, 0.0, 0.25) == pytest.approx(587, abs=4)
    assert heard(Earcon.DAY_DONE, 0.27, 0.5) == pytest.approx(392, abs=5)


def test_the_bells_of_a_best_run_upward_within_two_octaves() -> None:
    wave, between = earcon(Earcon.BEST), round(0.065 * RATE)

    run = [loudest_pitch(wave[k * between : (k + 1) * between]) for k in range(5)]

    assert run == sorted(set(run))
    assert run[-1] < 4 * run[0]


def test_a_moment_beside_a_verdict_and_a_tone_that_fades_does_not_clip() -> None:
    tones = max(float(np.abs(waves.brake_tone(tone)).max()) for tone in AIM_TONES)
    verdicts = max(float(np.abs(earcon(what)).max()) for what in VERDICTS)
    moments = max(float(np.abs(earcon(what)).max()) for what in MOMENTS)

    assert verdicts + tones <= 1
    assert moments + verdicts <= 1
    assert moments + float(np.abs(clean(1)).max()) <= 1
