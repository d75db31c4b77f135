"""The door to trials: begin one, go on with the one under way, give it up, look at past ones."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History
from engine.trial.beginning import begin_trial, level_of
from engine.trial.door_screens import AboutTrial, Door, NoTrial, UnderWay
from engine.trial.playing import give_up, play_trial
from engine.trial.randomisation import block_now
from engine.trial.result import look_at_past
from engine.trial.saved import all_trials, trial_under_way
from engine.trial.status import status_of
from engine.trial.trial import Trial

FEET_ONLY = (
    "A trial is of feet on pedals. What is played with now is a try-out, and nothing of it is kept."
)
"""What is said to the mouse."""


def trials(setting: Setting, band: Level, *, at_once: bool = False) -> Flow[None]:
    """All that can be done about trials, until the player goes home.

    `at_once`: a trial is begun, or gone on with, without asking. `band` is the drill of the
    steadiness band.
    """
    history = setting.history
    if history is None:
        yield from show(NoTrial(FEET_ONLY), setting.rig, setting.stage)
        return
    while True:
        trial = trial_under_way(history)
        is_played = trial is not None and block_now(trial) is None
        if is_played or (at_once and not (trial and _trouble(trial, setting))):
            chosen = Door.ON
        else:
            chosen = yield from _door(trial, setting, history)
        match chosen:
            case Door.BEGIN | Door.ON:
                trial = trial or (yield from begin_trial(setting, history, band))
                if trial is not None:
                    yield from play_trial(trial, setting, history)
                if trial is not None or at_once:
                    return
            case Door.GIVE_UP if trial is not None:
                yield from give_up(trial, setting, history)
            case Door.PAST:
                yield from look_at_past(setting, history)
            case _:
                return
        at_once = False


def _door(trial: Trial | None, setting: Setting, history: History) -> Flow[Door]:
    """What to do, where a trial is under way or none is."""
    past = sum(one.over for one in all_trials(history))
    if trial is None:
        return (yield from show(AboutTrial(past), setting.rig, setting.stage))
    level = level_of(trial.level, setting.levels)
    title = trial.level if level is None else level.title
    arms, trouble = (trial.a, trial.b), _trouble(trial, setting)
    screen = UnderWay(arms, title, status_of(trial), past, trouble)
    return (yield from show(screen, setting.rig, setting.stage))


def _trouble(trial: Trial, setting: Setting) -> str:
    """Why a trial cannot go on now; empty where it can."""
    level = level_of(trial.level, setting.levels)
    if level is None:
        return "Its level is not there any more: bring its file back, or give it up."
    missing = [pedal.value for pedal in level.pedals if pedal not in setting.rig.there]
    return f"It needs a {' and a '.join(missing)}." if missing else ""
