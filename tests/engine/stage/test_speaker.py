"""The speaker: what it sends to the audio device, and its silence when there is none."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from engine.stage.waves import RATE
from tests.needs import shell

ROOT = Path(__file__).resolve().parents[3]
QUIET = {"PYGAME_HIDE_SUPPORT_PROMPT": "1"}


def ran(script: str, **environment: str) -> tuple[int, str, str]:
    """Exit code, output and errors of a script that runs in its own process."""
    begin = (
        "import pygame; from engine.stage.mixer import Mixer; "
        "from engine.stage.brake_tone import BrakeTone;"
        "from engine.stage.earcon import Earcon;"
        "from engine.stage.signals import Volume; from tests.waiting import wait_for;"
        "speaker = Mixer();"
    )
    ended = subprocess.run(
        [sys.executable, "-c", begin + script],
        cwd=ROOT,
        env=os.environ | QUIET | environment,
        capture_output=True,
        text=True,
        check=False,
    )
    return ended.returncode, ended.stdout, ended.stderr


def test_without_an_audio_device_the_game_is_silent_and_gives_the_reason() -> None:
    ended = ran(
        "speaker.prepare(); assert pygame.mixer.get_init() is None; assert speaker.trouble;"
        "speaker.play_tone(BrakeTone.ON); assert not speaker.click(); speaker.step(3);"
        "speaker.play(Earcon.PASSED); speaker.play(Earcon.BEST);"
        "speaker.tune(Volume.LOUD, click=True);"
        "speaker.prepare()",
        SDL_AUDIODRIVER="none of these",
    )

    assert ended == (0, "", "")


@shell
def test_quiet_stderr_works_when_standard_error_is_closed() -> None:
    script = "from engine.stage.sdl_setup import quiet_stderr\nwith quiet_stderr(): print('heard')"
    command = f'exec "{sys.executable}" -c "$1" 2>&-'

    ended = subprocess.run(
        ["sh", "-c", command, "sh", script], stdout=subprocess.PIPE, text=True, check=False
    )

    assert (ended.returncode, ended.stdout) == (0, "heard\n")


def test_the_audio_device_is_opened_only_when_the_volume_is_on() -> None:
    ended = ran(
        "speaker.tune(Volume.OFF, click=True); speaker.prepare();"
        "assert pygame.mixer.get_init() is None; assert not speaker.click();"
        "speaker.tune(Volume.QUIET, click=True); speaker.prepare();"
        "assert pygame.mixer.get_init() is not None; assert not speaker.trouble;"
        "assert speaker.click(); speaker.tune(Volume.QUIET, click=False);"
        "assert not speaker.click()",
        SDL_AUDIODRIVER="dummy",
    )

    assert ended == (0, "", "")


def test_the_falling_tone_is_computed_once_for_each_course() -> None:
    ended = ran(
        "from engine.stage import waves; made = []; fall = waves.fall;"
        "waves.fall = lambda guide: made.append(guide) or fall(guide);"
        "one, other = ((0.0, 1.0), (1.0, 0.0)), ((0.0, 1.0), (1.0, 0.5), (1.5, 0.0));"
        "speaker.prepare(); assert not speaker.fall();"
        "[speaker.make_fall(guide) for guide in ((), one, one, other, (), other)];"
        "assert speaker.fall(); assert made == [one, other], made",
        SDL_AUDIODRIVER="dummy",
    )

    assert ended == (0, "", "")


def test_the_click_is_played_however_many_other_sounds_play() -> None:
    ended = ran(
        "speaker.prepare();"
        "[speaker.step(number) for number in range(1, 60)];"
        "busy = [pygame.mixer.Channel(number).get_busy() for number in range(16)];"
        "assert busy == 2 * [False] + 14 * [True], busy;"
        "speaker.click(); assert pygame.mixer.Channel(0).get_busy()",
        SDL_AUDIODRIVER="dummy",
    )

    assert ended == (0, "", "")


def test_turning_the_volume_off_stops_the_brake_tone_for_good() -> None:
    ended = ran(
        "speaker.prepare(); speaker.play_tone(BrakeTone.ON); speaker.tune(Volume.OFF, click=True);"
        "wait_for(lambda: not pygame.mixer.get_busy(), 20);"
        "speaker.tune(Volume.LOUD, click=True); assert not pygame.mixer.get_busy()",
        SDL_AUDIODRIVER="dummy",
    )

    assert ended == (0, "", "")


def test_a_brake_tone_that_has_no_volume_yet_stops_too() -> None:
    ended = ran(
        "speaker.prepare(); speaker.play_tone(BrakeTone.ON);"
        "channels = [pygame.mixer.Channel(number) for number in range(16)];"
        "[channel] = [channel for channel in channels if channel.get_busy()];"
        "channel.set_volume(0); speaker.play_tone(BrakeTone.SILENT);"
        "wait_for(lambda: not pygame.mixer.get_busy(), 20)",
        SDL_AUDIODRIVER="dummy",
    )

    assert ended == (0, "", "")


TONE_BYTES = 4 * RATE // 5  # bytes of 0.2 s of sound in two channels of two bytes


RUNS = 6
"""Most runs that record the tones: fades go by the clock, so one in which the machine stood still
is repeated."""


def written_tones(file: Path) -> np.ndarray[tuple[int], np.dtype[np.float64]] | None:
    """One channel of the tones, each 0.2 s long, within -1 and 1; None if SDL writes no file."""
    path = repr(str(file))
    code, output, _ = ran(
        "import os; speaker.tune(Volume.LOUD, click=True); speaker.prepare()\n"
        "for tone in () if speaker.trouble else "
        "(BrakeTone.LIGHT, BrakeTone.ON, BrakeTone.HEAVY, BrakeTone.ON, BrakeTone.SILENT):\n"
        f"    speaker.play_tone(tone); end = os.path.getsize({path}) + {TONE_BYTES}\n"
        f"    wait_for(lambda: os.path.getsize({path}) >= end, 20)\n"
        "pygame.mixer.quit(); print(speaker.trouble)",
        SDL_AUDIODRIVER="disk",
        SDL_DISKAUDIOFILE=str(file),
    )
    assert code == 0
    return np.frombuffer(file.read_bytes(), np.int16)[::2] / 32768 if output == "\n" else None


def test_brake_tones_change_into_each_other_without_a_crack(tmp_path: Path) -> None:
    # By itself the steepest of the tones climbs 0.017 from one sample to the next; one that is
    # cut off or begins at full strength jumps by up to 0.11, in every run.
    for number in range(RUNS):
        wave = written_tones(tmp_path / f"sound {number}.raw")
        if wave is None:
            pytest.skip("this build of SDL writes no sound to disk")
        loudest, steepest = float(np.abs(wave).max()), float(np.abs(np.diff(wave)).max())
        if steepest < 0.020:
            break

    assert loudest > 0.1
    assert steepest < 0.020
