"""Screens about sound, light and motion, and about a history that cannot be used or is damaged."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from engine.game.damage import NotRepaired, Repaired, Repairing
from engine.game.sound_and_light import SoundAndLight
from engine.game.trouble import HistoryTrouble
from engine.kit.base import Screen
from engine.pedals.rig import Means
from engine.stage.actions import Action
from engine.stage.signals import Signals, Volume
from engine.store import StoreError
from engine.store.trouble import Cause, Trouble
from tests.fakes import Lamp, a_stage
from tests.loudspeaker import Loudspeaker

NO_AUDIO = "ALSA: Couldn't open audio device: No such file or directory"
HISTORY = Path("/home/somebody/.local/share/stillfoot/players/Somebody Else/history.sqlite3")
ERROR = StoreError(f"{HISTORY}: expected a history that can be written, found a full disk")
TOLD = (
    "3 repetitions of 4 May cannot be read; 2 of them came from the copy of 3 May.",
    "1 curve cannot be read; the verdicts stay.",
    "2 settings cannot be read: sound and light, window.",
    f"The history is {HISTORY}.",
    f"The damaged file is now {HISTORY.with_name('history-damaged-2026-05-06.sqlite3')}.",
    "One repetition that waited is saved.",
)


def failed(cause: Cause, waiting: str = "one repetition") -> HistoryTrouble:
    """Screen about one failure to use the history."""
    screen = HistoryTrouble(Trouble(cause, ERROR, HISTORY, waiting))
    screen.on_means(Means(feet=True, buttons=True))
    return screen


def history_trouble_screens() -> dict[str, Screen[Any]]:
    """Screens about a history that cannot be used or is damaged, by a name."""
    return {
        **{f"trouble: {cause.value}": failed(cause) for cause in Cause},
        "trouble: nothing waits": failed(Cause.IN_USE, ""),
        "trouble: gone, nothing waits": failed(Cause.FILE_GONE, ""),
        "damaged: repairing": Repairing(list, ERROR, "one repetition"),
        "damaged: repaired": Repaired(TOLD),
        "damaged: not repaired": NotRepaired(ERROR, "one repetition"),
    }


def sound_and_light(
    signals: Signals, trouble: str = "", changes: int = 0, place: int = 2, less_motion: bool = False
) -> SoundAndLight:
    """Screen for sound, light and motion, after the choice at a place was made some times.

    `less_motion`: the system asks for less motion.
    """
    lamp = Lamp()
    lamp.wants_less_motion = less_motion
    stage = replace(a_stage(lamp=lamp), speaker=Loudspeaker(trouble))
    screen = SoundAndLight(signals, stage, lambda _: None)
    for action in [Action.NEXT] * place + [Action.GO] * changes:
        screen.on_action(action)
    return screen


def sound_screens() -> dict[str, Screen[Any]]:
    """Screens for sound, light and motion, by a name."""
    return {
        "sound": sound_and_light(Signals()),
        "sound volume": sound_and_light(Signals(), place=0),
        "sound by ear": sound_and_light(Signals(ear=True), NO_AUDIO, place=3),
        "sound motion": sound_and_light(Signals(), changes=1, place=4, less_motion=True),
        "sound heard again": sound_and_light(Signals(Volume.OFF), changes=1),
        "sound without speaker": sound_and_light(Signals(), NO_AUDIO, changes=1),
    }
