"""`Between`: what may come up between two repetitions: several lost, an end that moved."""

from __future__ import annotations

from collections.abc import Sequence

from drills.score import Reason
from engine.drill.attempt import Attempt, Setting
from engine.drill.turn import warn_of_lost
from engine.pedals.moved_ends import MovedEnds
from engine.stage.scene import Flow
from engine.store import Record


class Between:
    """Screens between the repetitions of one set or session; never in a measured window."""

    def __init__(self, setting: Setting) -> None:
        self._setting = setting
        self._ends = MovedEnds()

    def after(self, attempt: Attempt, records: Sequence[Record]) -> Flow[bool]:
        """Show what came up in a repetition, if anything did; returns whether to go on.

        `records` are those of all repetitions so far, the newest last.
        """
        setting = self._setting
        if attempt.record is not None:
            on = yield from warn_of_lost(records, attempt.level, setting)
            if not on:
                return False
        if setting.renew_end is not None:
            found = attempt.ended.void is not Reason.NO_TARGET
            for moved in self._ends.take(attempt.ends, found_target=found):
                if (yield from setting.renew_end(moved)):
                    self._ends = MovedEnds()
                    break
        return True
