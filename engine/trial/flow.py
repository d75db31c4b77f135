"""Flow of the trial menu: begin or continue a trial, give it up, or look at past ones."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.kit.flow import show
from engine.practice.passes import lacking_words
from engine.stage.scene import Flow
from engine.store import History
from engine.trial.beginning import begin_trial, level_of
from engine.trial.by_days_flow import begin_by_days, end_if_full
from engine.trial.by_days_screens import DaysUnderWay
from engine.trial.menu_screens import AboutTrial, NoTrial, TrialChoice, UnderWay
from engine.trial.playing import give_up, play_trial
from engine.trial.randomisation import block_now
from engine.trial.result import look_at_past
from engine.trial.saved import all_trials, trial_under_way
from engine.trial.screen_words import FEET_ONLY, LEVEL_GONE
from engine.trial.status import status_of
from engine.trial.trial import Trial


def trials(setting: Setting, band: Level, *, at_once: bool = False) -> Flow[None]:
    """Run the trial menu until the player goes back or stops a trial.

    `at_once`: begin or continue a trial without showing the menu first. `band` is the level of the
    steadiness blips.
    """
    history = setting.history
    if history is None:
        yield from show(NoTrial(FEET_ONLY), setting.rig, setting.stage)
        return
    while True:
        trial = trial_under_way(history)
        by_days = trial is not None and trial.by_days
        if trial is not None and by_days and (yield from end_if_full(trial, setting, history)):
            return
        is_full = trial is not None and block_now(trial) is None
        if is_full or (at_once and not by_days and not (trial and _trouble(trial, setting))):
            chosen = TrialChoice.ON
        else:
            chosen = yield from _menu(trial, setting, history)
        match chosen:
            case TrialChoice.BEGIN | TrialChoice.ON:
                trial = trial or (yield from begin_trial(setting, history, band))
                if trial is not None:
                    yield from play_trial(trial, setting, history)
                if trial is not None or at_once:
                    return
            case TrialChoice.BEGIN_BY_DAYS:
                if (yield from begin_by_days(setting, history, band)):
                    return
            case TrialChoice.GIVE_UP if trial is not None:
                yield from give_up(trial, setting, history)
            case TrialChoice.PAST:
                yield from look_at_past(setting, history)
            case _:
                return
        at_once = False


def _menu(trial: Trial | None, setting: Setting, history: History) -> Flow[TrialChoice]:
    """Show the trial menu, with the current trial if there is one; return the player's choice."""
    past = sum(past_trial.over for past_trial in all_trials(history))
    if trial is None:
        return (yield from show(AboutTrial(past), setting.rig, setting.stage))
    if trial.by_days:
        days = DaysUnderWay((trial.a, trial.b), status_of(trial), past)
        return (yield from show(days, setting.rig, setting.stage))
    level = level_of(trial.level, setting.levels)
    title = trial.level if level is None else level.title
    arms, trouble = (trial.a, trial.b), _trouble(trial, setting)
    screen = UnderWay(arms, title, status_of(trial), past, trouble)
    return (yield from show(screen, setting.rig, setting.stage))


def _trouble(trial: Trial, setting: Setting) -> str:
    """Reason why the current trial cannot be continued now; empty if it can."""
    level = level_of(trial.level, setting.levels)
    if level is None:
        return LEVEL_GONE
    missing = lacking_words(level, setting.there)
    return f"It needs {missing}." if missing else ""
