"""Flows of a trial by days: begins one, plays its days beside practice, and ends it."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.set import SEEDS
from engine.five.day_end import Done
from engine.five.flow import five_minutes
from engine.five.player_history import player_state_of, steadiness_blips
from engine.kit.flow import show
from engine.practice.results import Purpose, TrialDay
from engine.stage.scene import Flow
from engine.store import History
from engine.trial.beginning import ask_set_ups
from engine.trial.by_days import today_of
from engine.trial.by_days_power import power_of
from engine.trial.by_days_screens import DaysBegin, TodaysAnswer, TodaysSetUp
from engine.trial.menu_screens import NoTrial
from engine.trial.playing import is_recalibrated
from engine.trial.randomisation import block_now
from engine.trial.result import show_result
from engine.trial.saved import end_trial, keep_new_trial
from engine.trial.screen_words import NO_BLIPS
from engine.trial.status import days_under_way
from engine.trial.trial import DAY_PAIRS, Arm, SetUp, Trial, changed_features, with_names


def begin_by_days(setting: Setting, history: History, band: Level) -> Flow[bool]:
    """Ask for the set-ups of a trial by days and store it; return whether it was begun.

    `band` is the level of the steadiness blips. Raises StoreError.
    """
    if not _has_blips(setting, history, band):
        yield from show(NoTrial(NO_BLIPS), setting.rig, setting.stage)
        return False
    a, b = SetUp(""), None
    while (arms := (yield from ask_set_ups(a, b, setting))) is not None:
        power = power_of(steadiness_blips(history, band, Purpose.BAND))
        if (yield from show(DaysBegin(power), setting.rig, setting.stage)):
            seed = int(setting.rng.integers(SEEDS))
            named = with_names(*arms)
            keep_new_trial(history, setting.now(), band.id, named, DAY_PAIRS, seed, by_days=True)
            return True
        a, b = arms
    return False


def five_minutes_in_trial(
    setting: Setting, history: History, band: Level, minutes: float
) -> Flow[Done]:
    """Play today's five minutes, with the set-up that a trial by days has for today, if any.

    After its last day the trial ends, and its result is shown. Raises StoreError.
    """
    trial = days_under_way(history)
    if trial is not None and (yield from end_if_full(trial, setting, history)):
        trial = None
    if trial is None or not _has_blips(setting, history, band):
        return (yield from five_minutes(setting, history, band, minutes))
    today = today_of(trial, setting.now().date())
    if today is None:
        return (yield from five_minutes(setting, history, band, minutes))
    set_up, other = (trial.a, trial.b) if today.arm is Arm.A else (trial.b, trial.a)
    screen = TodaysSetUp(
        today,
        set_up,
        changed_features(set_up, other),
        recalibrated=is_recalibrated(trial, setting, history),
    )
    answer = yield from show(screen, setting.rig, setting.stage)
    if answer is TodaysAnswer.BACK:
        return Done.HOME
    day = TrialDay(trial.number, today.block) if answer is TodaysAnswer.READY else None
    done = yield from five_minutes(setting, history, band, minutes, day)
    if (now := days_under_way(history)) is not None:
        yield from end_if_full(now, setting, history)
    return done


def end_if_full(trial: Trial, setting: Setting, history: History) -> Flow[bool]:
    """End a trial by days of which all days are full, and show its result; return whether so."""
    if block_now(trial) is not None:
        return False
    end_trial(history, trial.number)
    yield from show_result(trial, setting, history)
    return True


def _has_blips(setting: Setting, history: History, band: Level) -> bool:
    """Whether five minutes have steadiness blips for this player and these pedals."""
    there, today = setting.there, setting.now().date()
    return player_state_of(history, setting.levels, band, there, today).can_blip
