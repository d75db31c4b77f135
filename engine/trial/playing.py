"""A trial while it is played, block by block: nothing of its score is shown or heard.

Both blocks of a pair ask the same: targets and waits of their repetitions are drawn from the same
chance. A block that was left in the middle goes on where it was, on a later day too: what was
played of it counts. That adds the scatter of days to a pair and favours neither arm, since which
comes first was drawn by lot.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.level import Feedback, Level
from engine.drill.attempt import Assignment, Attempt, Setting, attempt, wait_for_pedals
from engine.drill.interruptions import Busy
from engine.drill.reveal import Reveal
from engine.drill.tally import SetLog
from engine.drill.turn import is_busy, is_given_up
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.timed_screen import TimedOutcome
from engine.practice.results import Purpose
from engine.stage.scene import Flow
from engine.store import History, Record
from engine.store.traces import calibration_of
from engine.trial.beginning import level_of
from engine.trial.door_screens import GivenUp, GivingUp
from engine.trial.playing_screens import ChangeOver, Paused, Recalibrated, TrialPause
from engine.trial.randomisation import block_now, counted_in, order
from engine.trial.result import show_result
from engine.trial.saved import end_trial, trial_under_way
from engine.trial.setups import changed
from engine.trial.status import status_of
from engine.trial.trial import BLOCK, Arm, Trial

CHANCE = 3
"""Number of the random stream that targets and waits come from: one apart from all others."""


def play_trial(trial: Trial, setting: Setting, history: History) -> Flow[None]:
    """Play a trial on, to its end or until the player stops, and tell what it ends with."""
    rig, stage = setting.rig, setting.stage
    level = level_of(trial.level, setting.levels)
    if block_now(trial) is not None:
        if level is None:
            return
        differs = _reads_otherwise(trial, setting, history)
        if differs and not (yield from show(Recalibrated(), rig, stage)):
            return
        if not (yield from _Playing(trial, level, setting, history).blocks()):
            return
        trial = trial_under_way(history) or trial
    end_trial(history, trial.number)
    yield from show_result(trial, setting, history)


def give_up(trial: Trial, setting: Setting, history: History) -> Flow[bool]:
    """Give a trial up, once the player has said so twice; whether that was done."""
    rig, stage, far = setting.rig, setting.stage, status_of(trial)
    if not (yield from show(GivingUp(far), rig, stage)):
        return False
    end_trial(history, trial.number)
    yield from show(GivenUp((trial.a, trial.b), far), rig, stage)
    return True


class _Playing:
    """One time of playing a trial."""

    def __init__(self, trial: Trial, level: Level, setting: Setting, history: History) -> None:
        self._trial = trial
        self._level = replace(level, feedback=Feedback.NONE, guess=False)
        self._setting = setting
        self._history = history
        self._arms = order(trial.seed, trial.pairs)
        self._kept = SetLog(self._level, history)

    def blocks(self) -> Flow[bool]:
        """Block after block; whether all of them were played."""
        rig, stage = self._setting.rig, self._setting.stage
        stage.speaker.prepare()
        while (block := block_now(self._trial)) is not None:
            a, b = self._trial.a, self._trial.b
            arm = self._arms[block]
            one = a if arm is Arm.A else b
            screen = ChangeOver(arm, one, changed(a, b), status_of(self._trial))
            if not (yield from show(screen, rig, stage)):
                return False
            if not (yield from self._block(block, f"{arm.value}: {one.name}")):
                return False
        return True

    def _block(self, block: int, named: str) -> Flow[bool]:
        """Repetitions until enough of a block count; whether to go on after it."""
        rig, stage = self._setting.rig, self._setting.stage
        while counted_in(self._trial, block) < BLOCK:
            if not (yield from wait_for_pedals(rig, stage)):
                return False
            tried = yield from self._repetition(block, named)
            menu = tried.left
            if tried.record is not None and tried.record.verdict.void:
                if not (yield from wait_for_pedals(rig, stage)):
                    return False
                place = Place(counted_in(self._trial, block) + 1, BLOCK)
                menu = yield from self._why_void(tried.record, place)
            if is_given_up(self._kept.records):
                return False
            if is_busy(self._kept.records) and not (yield from show(Busy(), rig, stage)):
                return False
            if menu and not (yield from self._pause()):
                return False
        return True

    def _repetition(self, block: int, named: str) -> Flow[Attempt]:
        """One repetition, kept as it ends."""
        trial, kept = self._trial, self._kept
        pair, done = block // 2, counted_in(trial, block)
        voids = sum(one.void for one in trial.tried if one.block == block)
        place = Place(done + 1, BLOCK, named, f"pair {pair + 1} of {trial.pairs}")
        asked = Assignment(
            self._level,
            self._level,
            trial.seed,
            Purpose.TRIAL,
            turn=1 + pair * BLOCK + done,
            trial=trial.number,
            block=block,
        )
        rng = np.random.default_rng((trial.seed, CHANCE, pair, done, voids))
        tried = yield from attempt(asked, place, self._setting, rng)
        if tried.record is not None:
            kept.add(tried.record)
            kept.tell(place, self._setting.stage)
            self._trial = trial_under_way(self._history) or trial
        return tried

    def _why_void(self, record: Record, place: Place) -> Flow[bool]:
        """Say why one does not count, and show no curve; whether the menu is asked for."""
        why = Reveal(self._level, record.verdict, None, (), place)
        after = yield from show(why, self._setting.rig, self._setting.stage)
        return after is TimedOutcome.MENU

    def _pause(self) -> Flow[bool]:
        """The small menu; whether to go on."""
        rig, stage = self._setting.rig, self._setting.stage
        while True:
            match (yield from show(TrialPause(status_of(self._trial)), rig, stage)):
                case Paused.ON:
                    return True
                case Paused.STOP:
                    return False
                case _:
                    if (yield from give_up(self._trial, self._setting, self._history)):
                        return False


def _reads_otherwise(trial: Trial, setting: Setting, history: History) -> bool:
    """Whether the pedals are read otherwise than in the first repetition of which that is known.

    Raises StoreError.
    """
    pedals = setting.rig.pedals
    known = [one.number for one in trial.tried if one.calibration is not None]
    before = calibration_of(history, known[0]) if known else None
    return before is not None and pedals is not None and before != pedals.calibration
