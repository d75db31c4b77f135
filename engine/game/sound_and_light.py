"""Sound and light: what was kept of them, and changing it."""

from __future__ import annotations

from engine.game.sound_and_light_screen import SoundAndLight
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.stage.scene import Flow
from engine.stage.signals import Signals, SignalsError, Volume
from engine.stage.stage import Stage
from engine.store import History, StoreError

SIGNALS = "sound and light"
"""Setting: the volume, and whether the cue clicks and flashes."""
SOUND = "sound"
"""Setting of older versions: whether sound is wanted. Never written any more."""


def signals_wanted(history: History) -> Signals:
    """How the player wants to be noticed. Raises StoreError where what was saved makes no sense."""
    data = history.setting(SIGNALS)
    if data is None:
        return Signals() if history.setting(SOUND) is not False else Signals(Volume.OFF)
    try:
        return Signals.from_data(data)
    except SignalsError as error:
        raise StoreError(f"{history.path}: setting '{SIGNALS}': {error}") from error


def loudness(signals: Signals) -> str:
    """How loud it is, in a word or two."""
    return "silent" if signals.volume is Volume.OFF else signals.volume.value


def sound_and_light(rig: Rig, stage: Stage, history: History) -> Flow[None]:
    """Let the player change it; each change is kept and heard at once."""
    stage.speaker.prepare()
    screen = SoundAndLight(
        signals_wanted(history),
        stage,
        lambda signals: history.keep_setting(SIGNALS, signals.as_data()),
    )
    yield from show(screen, rig, stage)
