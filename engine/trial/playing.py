"""Flow that plays a trial block by block; nothing of the score is shown or heard.

Whatever its level asks, a trial asks for blips of one size; a blip outside it is repeated.
Both blocks of a pair have the same targets and foreperiods, drawn from the same seed. A block that
was stopped in the middle continues where it was, on a later day too. That adds the scatter between
days to a pair and favours neither arm, since their order was drawn by chance.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.kinds.asked_size import with_size
from drills.level import Feedback, Level
from engine.drill.attempt import (
    Assignment,
    Attempt,
    Setting,
    play_repetition,
    wait_for_pedals,
)
from engine.drill.lesson_flow import show_movement, teach
from engine.drill.pairs import half_of_pair
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.drill.set_log import SetLog
from engine.drill.turn import is_given_up, warn_of_lost
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.timed_screen import TimedOutcome
from engine.practice.blip_size import BLIP
from engine.practice.results import Purpose
from engine.stage.scene import Flow
from engine.store import History, Record
from engine.store.traces import calibration_of
from engine.trial.beginning import level_of
from engine.trial.menu_screens import GivenUp, GivingUp
from engine.trial.playing_screens import ChangeOver, Paused, Recalibrated, TrialPause
from engine.trial.randomisation import block_now, counted_in, order
from engine.trial.result import show_result
from engine.trial.saved import end_trial, trial_under_way
from engine.trial.status import status_of
from engine.trial.trial import BLOCK, Arm, Trial, changed_features

CHANCE = 3
"""Number of the random stream that draws a trial's targets and foreperiods, apart from all
others."""


def play_trial(trial: Trial, setting: Setting, history: History) -> Flow[None]:
    """Continue a trial until the player stops it, or until it is over and its outcome was shown."""
    rig, stage = setting.rig, setting.stage
    level = level_of(trial.level, setting.levels)
    if block_now(trial) is not None:
        if level is None:
            return
        differs = is_recalibrated(trial, setting, history)
        if differs and not (yield from show(Recalibrated(), rig, stage)):
            return
        if not (yield from _Playing(trial, level, setting, history).blocks()):
            return
        trial = trial_under_way(history) or trial
    end_trial(history, trial.number)
    yield from show_result(trial, setting, history)


def give_up(trial: Trial, setting: Setting, history: History) -> Flow[bool]:
    """Ask whether to give up a trial, and do so; return whether it was given up."""
    rig, stage, status = setting.rig, setting.stage, status_of(trial)
    if not (yield from show(GivingUp(status), rig, stage)):
        return False
    end_trial(history, trial.number)
    yield from show(GivenUp((trial.a, trial.b), status), rig, stage)
    return True


class _Playing:
    """A trial being played, from where it was left until the player stops again."""

    def __init__(self, trial: Trial, level: Level, setting: Setting, history: History) -> None:
        self._trial = trial
        self._level = replace(with_size(level, BLIP), feedback=Feedback.NONE, guess=False)
        self._setting = setting
        self._history = history
        self._arms = order(trial.seed, trial.pairs)
        self._log = SetLog(self._level, history)

    def blocks(self) -> Flow[bool]:
        """Play the remaining blocks of the trial; return whether all of them were played."""
        rig, stage = self._setting.rig, self._setting.stage
        stage.speaker.prepare()
        while (block := block_now(self._trial)) is not None:
            a, b = self._trial.a, self._trial.b
            arm = self._arms[block]
            set_up = a if arm is Arm.A else b
            screen = ChangeOver(arm, set_up, changed_features(a, b), status_of(self._trial))
            if not (yield from show(screen, rig, stage)):
                return False
            if not (yield from self._block(block, f"{arm.value}: {set_up.name}")):
                return False
        return True

    def _block(self, block: int, name: str) -> Flow[bool]:
        """Play a block until enough of it counts; return whether the player goes on after it."""
        rig, stage = self._setting.rig, self._setting.stage
        while counted_in(self._trial, block) < BLOCK:
            if not (yield from wait_for_pedals(rig, stage)):
                return False
            attempted = yield from self._repetition(block, name)
            menu = attempted.left
            if attempted.record is not None and attempted.record.verdict.void:
                if not (yield from wait_for_pedals(rig, stage)):
                    return False
                place = Place(counted_in(self._trial, block) + 1, BLOCK)
                menu = yield from self._why_void(attempted.record, place)
            if is_given_up(self._log.records):
                return False
            records, setting = self._log.records, self._setting
            if not (yield from warn_of_lost(records, self._level, setting)):
                return False
            if menu and not (yield from self._pause()):
                return False
        return True

    def _repetition(self, block: int, name: str) -> Flow[Attempt]:
        """Play one repetition of the trial and store it as it ends."""
        trial, log = self._trial, self._log
        pair, done = block // 2, counted_in(trial, block)
        voids = sum(rep.void for rep in trial.repetitions if rep.block == block)
        place = Place(done + 1, BLOCK, name, f"pair {pair + 1} of {trial.pairs}")
        asked = Assignment(
            self._level,
            half_of_pair(self._level, done, trial.seed),
            trial.seed,
            Purpose.TRIAL,
            turn=1 + pair * BLOCK + done,
            trial=trial.number,
            block=block,
        )
        rng = np.random.default_rng((trial.seed, CHANCE, pair, done, voids))
        self._setting = yield from teach(self._level, self._setting)
        attempted = yield from play_repetition(asked, place, self._setting, rng)
        if attempted.record is not None:
            log.add(attempted.record)
            log.announce(place, self._setting.stage)
            self._trial = trial_under_way(self._history) or trial
        return attempted

    def _why_void(self, record: Record, place: Place) -> Flow[bool]:
        """Show why a repetition is void, without its curve; return whether to open the menu."""
        why = Reveal(RevealFacts(self._level, record.verdict, None, (), place))
        after = yield from show(why, self._setting.rig, self._setting.stage)
        return after is TimedOutcome.MENU

    def _pause(self) -> Flow[bool]:
        """Show the pause menu of the trial; return whether the player goes on."""
        rig, stage = self._setting.rig, self._setting.stage
        while True:
            match (yield from show(TrialPause(status_of(self._trial)), rig, stage)):
                case Paused.ON:
                    return True
                case Paused.STOP:
                    return False
                case Paused.MOVEMENT:
                    yield from show_movement(self._level, self._setting)
                case _:
                    if (yield from give_up(self._trial, self._setting, self._history)):
                        return False


def is_recalibrated(trial: Trial, setting: Setting, history: History) -> bool:
    """Whether the pedals were calibrated again since the first repetition of the trial.

    Repetitions with an unknown calibration are passed over. Raises StoreError.
    """
    pedals = setting.rig.pedals
    numbers = [rep.number for rep in trial.repetitions if rep.calibration is not None]
    before = calibration_of(history, numbers[0]) if numbers else None
    return before is not None and pedals is not None and before != pedals.calibration
