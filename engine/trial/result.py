"""The end of a trial, and past trials looked at again."""

from __future__ import annotations

from drills.deviation import Deviation
from engine.drill.attempt import Setting
from engine.drill.stored_picture import picture_of
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History
from engine.store.repetitions import measures_of
from engine.trial.door_screens import GivenUp, PastTrials
from engine.trial.outcome import outcome
from engine.trial.outcome_words import outcome_words, written
from engine.trial.randomisation import block_now, order
from engine.trial.result_screens import Curves, ResultPage, TrialCurves, TrialFigures
from engine.trial.saved import all_trials
from engine.trial.status import status_of
from engine.trial.trial import Arm, Trial


def show_result(trial: Trial, setting: Setting, history: History) -> Flow[None]:
    """What a trial ends with, page by page; of one that was given up, how far it came."""
    rig, stage = setting.rig, setting.stage
    if block_now(trial) is not None:
        yield from show(GivenUp((trial.a, trial.b), status_of(trial)), rig, stage)
        return
    ended = outcome(trial)
    names = trial.a.name, trial.b.name
    said = outcome_words(ended, *names)
    curves = curves_of(trial, history)
    has_any = all(arm.pictures for arm in curves)
    page = ResultPage.FIGURES
    while page is not ResultPage.DONE:
        if page is ResultPage.FIGURES:
            page = yield from show(TrialFigures(said, ended, names, curves=has_any), rig, stage)
        else:
            page = yield from show(TrialCurves(written(ended.dip), curves), rig, stage)


def look_at_past(setting: Setting, history: History) -> Flow[None]:
    """The trials there were, the newest first, one after another."""
    over = [trial for trial in reversed(all_trials(history)) if trial.over]
    listed = [(one.number, _ended(one), f"{one.a.name} or {one.b.name}") for one in over]
    while True:
        number = yield from show(PastTrials(listed), setting.rig, setting.stage)
        chosen = next((one for one in over if one.number == number), None)
        if chosen is None:
            return
        yield from show_result(chosen, setting, history)


def _ended(trial: Trial) -> str:
    """When a trial began, and how it ended."""
    began = f"{trial.began.day} {trial.began:%b %Y}"
    if block_now(trial) is not None:
        return f"{began}: given up, {status_of(trial).words}"
    ended = outcome(trial)
    told = ended.told.value
    return f"{began}: {told if ended.steadier is None else f'{ended.steadier} is {told}'}"


def curves_of(trial: Trial, history: History) -> tuple[Curves, Curves]:
    """The pictures of both arms, each repetition against what was held; of a run, the blip of it
    that took the most. Raises StoreError.
    """
    arms = order(trial.seed, trial.pairs)
    found: dict[Arm, list[Deviation]] = {arm: [] for arm in Arm}
    for one in trial.tried:
        if one.void:
            continue
        picture = picture_of(history, one.number, measures_of(history, one.number))
        if picture is not None:
            found[arms[one.block]].append(picture)
    a, b = (
        Curves(one.name, tuple(found[arm]))
        for arm, one in zip(Arm, (trial.a, trial.b), strict=True)
    )
    return a, b
