"""Words of the screen for sound, light and motion: what each setting does, and how it stands."""

from __future__ import annotations

from engine.stage.signals import Signals, Volume

HEADING = "Sound, light and motion"
"""Heading of the screen, and the name of its entry in More."""
EAR = "Hear the brake afterwards"
"""Name of the setting for hearing the brake once more."""
VOLUME_DOES = (
    "A low tone says too light, a high one too heavy.",
    "The steady tone between them says you are on target.",
)
"""What the volume is for: the tones while the player looks for the target."""
CLICK_DOES = ("The cue clicks, so you need not see it.",)
"""What the click of the cue is for."""
FLASH_DOES = (
    "At each cue the whole screen lights up, for a moment.",
    "If flashes trouble you, turn this off and use the click.",
)
"""What the flash of the cue does, and what to do without it."""
EAR_DOES = (
    "With each result, hear in half a second how the brake moved.",
    "Good with a headset on, or eyes on the wheel.",
)
"""What hearing the brake after each repetition does, and who it is for."""
MOTION_DOES = ("Screens move a little between repetitions, never while you are measured.",)
"""What motion does."""
CALM_DOES = ("Your system asks for less motion, and the game follows.",)
"""Why motion does nothing where the system asks for less of it."""
FULL_DOES = ("The key F11 does the same.",)
"""What else fills the screen."""
NO_SPEAKER = "silent: no speaker"
"""How a sound stands that nothing plays."""
VOLUME_OFF = "silent: the volume is off"
"""How a sound stands that is on while the volume is off."""


def on_off(on: bool) -> str:
    """Setting that is on or off, in a word."""
    return "on" if on else "off"


def click_words(signals: Signals, speaker: bool) -> str:
    """How the click of the cue stands; `speaker` is whether one works."""
    if not speaker:
        return NO_SPEAKER
    return VOLUME_OFF if signals.click and signals.volume is Volume.OFF else on_off(signals.click)


def flash_words(signals: Signals, speaker: bool) -> str:
    """How the flash of the cue stands: always on without a speaker."""
    return on_off(signals.flash or not speaker)


def ear_words(signals: Signals, speaker: bool) -> str:
    """How hearing the brake after each repetition stands; `speaker` is whether one works."""
    if not signals.ear:
        return "off"
    if not speaker:
        return f"on, but {NO_SPEAKER}"
    return f"on, but {VOLUME_OFF}" if signals.volume is Volume.OFF else "on"


def motion_words(signals: Signals, calm: bool) -> str:
    """How motion stands; `calm` is whether the system asks for less of it."""
    return on_off(signals.motion and not calm)


def volume_words(signals: Signals) -> str:
    """Volume of the game in a word or two, such as for a menu."""
    return "silent" if signals.volume is Volume.OFF else signals.volume.value
