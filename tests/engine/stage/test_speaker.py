"""The sounds as waves, and silence where there is no audio device."""

import os
import subprocess
import sys

import numpy as np
import pytest

from engine.stage.speaker import HIGHEST, RATE, chime, hum, pitch, tick


def test_the_tone_loops_without_a_seam() -> None:
    wave = hum()

    steps = np.abs(np.diff(wave))
    assert abs(wave[0] - wave[-1]) <= steps.max()


def test_each_clean_repetition_in_a_row_sounds_higher() -> None:
    pitches = [pitch(number) for number in range(1, HIGHEST + 1)]

    assert pitches == sorted(set(pitches))


def test_an_octave_doubles_the_pitch() -> None:
    # Five steps of a pentatonic scale make an octave; an octave is a ratio of 2 (common practice).
    assert pitch(6) == pytest.approx(2 * pitch(1))
    assert pitch(11) == pytest.approx(4 * pitch(1))


def test_a_step_sounds_at_its_pitch() -> None:
    wave = chime(pitch(3))

    loudest = np.argmax(np.abs(np.fft.rfft(wave))) * RATE / wave.size
    assert loudest == pytest.approx(pitch(3), abs=2 * RATE / wave.size)


def test_the_click_is_loudest_at_once() -> None:
    wave = np.abs(tick())

    assert np.argmax(wave) < RATE / 1000
    assert wave[-1] < 0.02 * wave.max()


def test_without_an_audio_device_the_game_is_silent_and_says_nothing() -> None:
    script = (
        "import pygame; from engine.stage.speaker import Mixer;"
        "speaker = Mixer(); speaker.prepare(); assert pygame.mixer.get_init() is None;"
        "speaker.tone(True); speaker.click(); speaker.step(3); speaker.switch(False)"
    )

    ended = subprocess.run(
        [sys.executable, "-c", script],
        env=os.environ | {"SDL_AUDIODRIVER": "none of these", "PYGAME_HIDE_SUPPORT_PROMPT": "1"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (ended.returncode, ended.stdout, ended.stderr) == (0, "", "")


@pytest.mark.skipif(os.name != "posix", reason="a shell closes the stream")
def test_without_standard_error_there_is_nothing_to_hush() -> None:
    script = "from engine.stage.hush import hushed\nwith hushed(): print('heard')"
    command = f'exec "{sys.executable}" -c "$1" 2>&-'

    ended = subprocess.run(
        ["sh", "-c", command, "sh", script], stdout=subprocess.PIPE, text=True, check=False
    )

    assert (ended.returncode, ended.stdout) == (0, "heard\n")


def test_a_speaker_that_is_off_opens_nothing() -> None:
    script = (
        "import pygame; from engine.stage.speaker import Mixer;"
        "speaker = Mixer(); speaker.switch(False); speaker.prepare();"
        "assert pygame.mixer.get_init() is None; speaker.switch(True); speaker.prepare();"
        "assert pygame.mixer.get_init() is not None"
    )

    ended = subprocess.run(
        [sys.executable, "-c", script],
        env=os.environ | {"SDL_AUDIODRIVER": "dummy", "PYGAME_HIDE_SUPPORT_PROMPT": "1"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (ended.returncode, ended.stdout, ended.stderr) == (0, "", "")
