"""What the mixer plays when: clicks over the falling tone, verdicts after curves, volumes."""

from tests.engine.stage.test_mixer import MIXER
from tests.scripted import printed

EAR = """
for volume, ear in ((Volume.LOUD, True), (Volume.OFF, True), (Volume.LOUD, False)):
    speaker.tune(volume, click=True, ear=ear)
    print(speaker.ear)
"""


def test_a_brake_is_heard_before_its_verdict_only_where_asked_for_and_audible() -> None:
    assert printed(MIXER + EAR) == ["True", "False", "False"]


SHOWN = """
speaker.tune(Volume.QUIET, click=True)
speaker.play_curve(np.full((48_000, 2), 0.1))
speaker.tune(Volume.LOUD, click=True)
print([sound.get_volume() for sound in playing()])
"""
PLAYING = """
def playing():
    channels = (pygame.mixer.Channel(number) for number in range(2, CHANNELS))
    return [channel.get_sound() for channel in channels if channel.get_busy()]
"""


def test_a_curve_changes_its_volume_with_the_setting_while_it_plays() -> None:
    assert printed(MIXER + "import numpy as np\n" + PLAYING + SHOWN) == ["[1.0]"]


OVER_FALL = """
cue = pygame.mixer.Channel(CUE_CHANNEL)
def peak():
    speaker.click()
    samples = np.frombuffer(cue.get_sound().get_raw(), np.int16)
    return round(float(np.abs(samples).max()) / 32767, 2)

speaker.tune(Volume.LOUD, click=True)
before = peak()
speaker.fall()
over = peak()
speaker.end_fall()
wait_for(lambda: not any(pygame.mixer.Channel(k).get_busy() for k in range(2, CHANNELS)), 20)
print(before, over, peak())
"""


def test_the_click_is_softer_while_the_falling_tone_plays_so_that_nothing_clips() -> None:
    assert printed(MIXER + "import numpy as np\n" + OVER_FALL) == ["0.95 0.6 0.95"]


IN_TURN = """
from engine.stage.earcon import Earcon
first = np.full((480, 2), 0.25)
for sound in (lambda: speaker.play(Earcon.DIP, first), lambda: speaker.play(Earcon.DIP)):
    sound()
    samples = np.frombuffer(playing()[-1].get_raw(), np.int16)
    print(len(playing()), round(samples.size / 2 / RATE, 2), round(samples[0] / 32767, 2))
"""


def test_a_verdict_waits_for_the_curve_that_is_heard_before_it() -> None:
    heard = printed(MIXER + "import numpy as np\n" + PLAYING + IN_TURN)

    assert heard == ["1 0.27 0.25", "2 0.26 0.0"]


ENDED = """
from engine.stage.earcon import Earcon
wave = np.full((20 * RATE, 2), 0.1)
for sound in (
    lambda: speaker.step(3),
    lambda: speaker.play(Earcon.RETAINED),
    lambda: speaker.play(Earcon.DIP, wave),
    lambda: speaker.step(1, wave),
    lambda: speaker.play_curve(wave),
):
    sound()
    began = len(playing())
    speaker.end_feedback()
    asked = time.monotonic()
    wait_for(lambda: not playing(), 20)
    print(began, time.monotonic() - asked < 10)
speaker.fall()
speaker.play_tone(BrakeTone.ON)
speaker.end_feedback()
print(*(round(sound.get_length(), 2) for sound in playing()))
speaker.step(3)
wait_for(lambda: len(playing()) == 3, 20)
"""


def test_all_feedback_ends_before_a_measured_window_and_cues_and_tones_sound_on() -> None:
    heard = printed(MIXER + "import time\nimport numpy as np\n" + PLAYING + ENDED)

    assert heard == [*["1 True"] * 5, "1.8 0.5"]
