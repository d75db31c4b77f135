"""The mixer on an audio device that is lost, comes back, stands still or runs at another rate."""

from tests.scripted import printed

MIXER = """
import os
os.environ["SDL_AUDIODRIVER"] = "dummy"
import pygame
from engine.stage.brake_tone import BrakeTone
from engine.stage.mixer import RETRY, Mixer
from engine.stage.signals import Volume
from engine.stage.sounds import CHANNELS, CUE_CHANNEL, PATIENCE, PROBE_CHANNEL
from engine.stage.waves import RATE
from tests.waiting import wait_for

class Device:
    \"\"\"Opens the mixer, unless it is unplugged.\"\"\"
    def __init__(self):
        self.plugged, self.attempts = True, 0
    def __call__(self, *asked, allowedchanges):
        self.attempts += 1
        if not self.plugged:
            raise pygame.error("nothing is plugged in")
        pygame.mixer.init(*asked, allowedchanges=allowedchanges)

device = Device()
speaker = Mixer(device)
speaker.prepare()
speaker.make_fall(((0.0, 1.0), (0.3, 1.0), (1.8, 0.0)))

def cues():
    return speaker.click(), speaker.count(), speaker.fall()
"""
"""Beginning of every script: a mixer on SDL's dummy audio driver, opened by a device."""

LOST = """
print(cues())
speaker.lose()
print(cues(), speaker.trouble)
device.plugged = False
for now in (0, RETRY - 1, RETRY, RETRY + 1, 2 * RETRY):
    speaker.recover(now)
    print(device.attempts, speaker.trouble)
print(cues())
device.plugged = True
speaker.recover(3 * RETRY)
speaker.make_fall(((0.0, 1.0), (0.3, 1.0), (1.8, 0.0)))
print(device.attempts, cues(), speaker.trouble == "")
"""


def test_a_lost_device_makes_cues_inaudible_and_is_tried_again_at_intervals() -> None:
    assert printed(MIXER + LOST) == [
        "(True, True, True)",
        "(False, False, False) the audio device is gone",
        *["2 nothing is plugged in"] * 2,
        *["3 nothing is plugged in"] * 2,
        "4 nothing is plugged in",
        "(False, False, False)",
        "5 (True, True, True) True",
    ]


BACK = """
speaker.tune(Volume.QUIET, click=False)
speaker.lose()
speaker.recover(0)
print(speaker.click(), speaker.count())
speaker.tune(Volume.QUIET, click=True)
print(speaker.click(), pygame.mixer.Channel(CUE_CHANNEL).get_sound().get_volume())
speaker.play_tone(BrakeTone.ON)
speaker.lose()
speaker.play_tone(BrakeTone.SILENT)
speaker.recover(0)
print([number for number in range(CHANNELS) if pygame.mixer.Channel(number).get_busy()])
"""


# SDL knows 128 volumes: a tenth of full scale is 12 of them.
def test_a_device_that_is_back_has_the_settings_of_the_player_and_no_old_tone() -> None:
    assert printed(MIXER + BACK) == ["False False", "True 0.09375", "[]"]


OFF = """
speaker.tune(Volume.OFF, click=True)
speaker.lose()
speaker.recover(RETRY)
print(device.attempts, repr(speaker.trouble))
speaker.tune(Volume.LOUD, click=True)
print(speaker.trouble)
speaker.prepare()
print(device.attempts, speaker.click(), repr(speaker.trouble))
"""


def test_a_device_lost_while_the_volume_is_off_is_opened_once_the_volume_is_on() -> None:
    assert printed(MIXER + OFF) == ["1 ''", "the audio device is gone", "2 True ''"]


NEVER = """
device.plugged, device.attempts = False, 0
speaker = Mixer(device)
speaker.lose()
speaker.recover(RETRY)
print(device.attempts, repr(speaker.trouble))
speaker.prepare()
speaker.recover(RETRY)
print(device.attempts, speaker.trouble)
"""


def test_a_device_that_was_never_open_is_not_lost_nor_tried_twice_in_a_row() -> None:
    assert printed(MIXER + NEVER) == ["0 ''", "1 nothing is plugged in"]


STILL = """
probe = pygame.mixer.Channel(PROBE_CHANNEL)
speaker.check(0)
probe.pause()
speaker.check(PATIENCE - 1)
print(cues(), repr(speaker.trouble))
pygame.mixer.Channel(CUE_CHANNEL).stop()
speaker.check(PATIENCE)
print(cues(), speaker.trouble, pygame.mixer.Channel(CUE_CHANNEL).get_busy())
speaker.recover(10 * RETRY)
print(device.attempts)
probe.unpause()
wait_for(lambda: not probe.get_busy(), 20)
speaker.check(PATIENCE + 1)
print(cues(), repr(speaker.trouble), probe.get_busy())
"""


def test_a_device_that_stands_still_is_noticed_left_open_and_heard_once_it_plays_on() -> None:
    assert printed(MIXER + STILL) == [
        "(True, True, True) ''",
        # What would be played now would sound as a second cue later.
        "(False, False, False) the audio device stands still False",
        "1",
        "(True, True, True) '' True",
    ]


CROWDED = """
for number in range(1, 60):
    speaker.step(number)
print(speaker.fall(), speaker.click())
"""


def test_a_falling_tone_that_no_channel_is_free_for_is_not_taken_as_heard() -> None:
    assert printed(MIXER + CROWDED) == ["False True"]


ASLEEP = """
speaker.check(0)
wait_for(lambda: not pygame.mixer.Channel(PROBE_CHANNEL).get_busy(), 20)
speaker.check(3_600_000_000_000)
print(cues(), repr(speaker.trouble))
"""


def test_an_hour_asleep_is_not_taken_for_a_device_that_stands_still() -> None:
    assert printed(MIXER + ASLEEP) == ["(True, True, True) ''"]


RATES = """
def length(opens):
    pygame.mixer.quit()
    speaker = Mixer(opens)
    speaker.prepare()
    speaker.make_fall(((0.0, 1.0), (0.3, 1.0), (1.8, 0.0)))
    speaker.fall()
    playing = [pygame.mixer.Channel(number).get_sound() for number in range(CHANNELS)]
    [fall] = [sound for sound in playing if sound is not None]
    return pygame.mixer.get_init()[::2], fall.get_length()

def changing(rate, size, channels, buffer, *, allowedchanges=-1):
    slower = allowedchanges != 0
    pygame.mixer.init(22050 if slower else rate, size, 1 if slower else channels, buffer)

def insisting(rate, size, channels, buffer, *, allowedchanges=-1):
    pygame.mixer.init(22050, size, 1, buffer)

for opens in (changing, insisting):
    got, seconds = length(opens)
    print(got, round(seconds, 3))
"""


def test_the_falling_tone_lasts_as_long_on_a_device_at_another_rate() -> None:
    # The first device leaves the change of rate to SDL, where it is told to; the second does not.
    assert printed(MIXER + RATES) == ["(48000, 2) 1.8", "(22050, 1) 1.8"]


PLUGGED = """
import struct, time
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.scene import Pace, Scene
from engine.stage.signals import Signals
from engine.stage.stage import Stage
from engine.stage.window import Window
from engine.stage.window_shape import Shape
from drills.phases import Event, Phase, Transition
from drills.task import Signal
from tests.rig import sdl

REMOVED = 0x1101  # SDL_AUDIODEVICEREMOVED
clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
class Noting(Events):
    def note(self, event, fields=None, at=None):
        if event.startswith("sound"):
            print(event, (fields or {}).get("reason"))
events = Noting(None, clock)
stage = Stage(window, speaker, events)
stage.tune(Signals(flash=False))

class Cued(Screen[bool]):
    name, pace = "cued", Pace.DARK
    def __init__(self, number, capture):
        super().__init__()
        self.fields, self.looks = (number, capture), 0
    def on_sample(self, sample, now):
        self.looks += 1
        if self.looks == 1:
            window.darken()
            sdl().push("=IIIBxxx", REMOVED, 0, *self.fields)
        if self.looks == 5:
            stage.follow(Transition(Event.CUE, Phase.ACT, now, 0, Signal.CUE))
            print("lit" if window.surface.get_at((9, 9))[:3] == theme.THROTTLE else "dark")
            self.outcome = True

def flow():
    # A device that is not played on, a microphone, and the speaker.
    for number, capture in ((0, 0), (2, 1), (2, 0)):
        yield Scene(Cued(number, capture), rig, stage)

pygame.joystick.init()
rig = Rig(clock)
Loop(window, rig, events).run(flow())
stage.recover_sound(clock())
"""


def test_a_cue_in_the_window_flashes_once_sdl_reports_that_the_speaker_is_gone() -> None:
    assert printed(MIXER + PLUGGED) == [
        "dark",
        "dark",
        "sound lost the audio device is gone",
        "lit",
        "sound back None",
    ]


HEARD = """
def heard():
    print(speaker.is_heard)

heard()
speaker.tune(Volume.OFF, click=True)
heard()
speaker.tune(Volume.QUIET, click=False)
heard()
speaker.lose()
heard()
speaker.recover(0)
heard()
print(Mixer(device).is_heard)
"""


def test_sound_is_heard_unless_the_volume_is_off_or_the_device_is_lost() -> None:
    # A device that was not opened yet is expected to open.
    assert printed(MIXER + HEARD) == ["True", "False", "True", "False", "True", "True"]
