"""The beats of a count-in can be heard, and sound other than the cue."""

from tests.scripted import printed

COUNTED = """
import os
os.environ["SDL_AUDIODRIVER"] = "dummy"
import pygame
from engine.stage.signals import Volume
from engine.stage.mixer import Mixer
from engine.stage.sounds import CUE_CHANNEL

def sounding():
    channel = pygame.mixer.Channel(CUE_CHANNEL)
    return channel.get_sound().get_raw() if channel.get_busy() else None

speaker = Mixer()
speaker.prepare()
print(sounding())
print(speaker.count())
beat = sounding()
pygame.mixer.stop()
print(speaker.click())
click = sounding()
print(None not in (beat, click), beat != click)
pygame.mixer.stop()
speaker.tune(Volume.MEDIUM, click=False)
print(speaker.count(), sounding())
"""


def test_a_beat_is_played_unless_clicks_are_off_and_is_not_taken_for_the_cue() -> None:
    assert printed(COUNTED) == ["None", "True", "True", "True True", "False None"]
