"""Choosing a level without a window: what needs sound is closed before anyone enters it."""

from dataclasses import replace

from engine.ladder.flow import choose_level
from engine.ladder.ladder_screen import Ladder
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.stage.speaker import Silence
from engine.store import History, ledger
from tests.engine.five.learning_foot import BY_ID, LEVELS, Learning
from tests.engine.kit.recording_canvas import said
from tests.engine.walking import choose

COUNTING = "by itself"
"""Stage whose levels need sound."""


class NoDevice(Silence):
    """Speaker that is expected to play until it is prepared, and finds no device then."""

    is_heard = True

    def prepare(self) -> None:
        """Find no audio device."""
        self.is_heard, self.trouble = False, "no audio device"


def test_a_stage_that_needs_sound_is_closed_where_no_audio_device_opens(history: History) -> None:
    learning, seen = Learning(history, 0.5), list[str]()
    ledger.keep_placed(history, BY_ID)
    setting = replace(learning.setting, stage=replace(learning.stage, speaker=NoDevice()))

    def look(ladder: Attended) -> None:
        choose(ladder, COUNTING)
        assert isinstance(ladder, Ladder)
        seen.extend(said(ladder))
        ladder.on_action(Action.BACK)

    learning.walk(choose_level(setting, history, LEVELS[0]), ("ladder", look))

    assert "Needs sound: turn it on under More." in seen
