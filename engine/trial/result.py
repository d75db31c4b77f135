"""Flow at the end of a trial: its figures and curves, and the list of past trials."""

from __future__ import annotations

from drills.deviation import Deviation
from engine.drill.attempt import Setting
from engine.drill.stored_picture import picture_of
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History
from engine.store.remeasure import remeasuring
from engine.store.repetitions import measures_of
from engine.trial.menu_screens import GivenUp, NotTold, PastTrials
from engine.trial.outcome import is_comparable, outcome
from engine.trial.randomisation import block_now, order
from engine.trial.result_screens import Curves, ResultPage, TrialCurves, TrialFigures
from engine.trial.saved import all_trials
from engine.trial.status import status_of
from engine.trial.trial import Arm, Trial
from engine.trial.words import finding_words, outcome_words, written

MIXED = (
    "Some of its repetitions could not be measured again. "
    "Two definitions of the dip cannot be compared."
)
"""Reason not to tell the outcome of a trial whose repetitions are of several definitions."""


def show_result(trial: Trial, setting: Setting, history: History) -> Flow[None]:
    """Show the outcome of a trial, page by page; of a trial given up, only how far it came.

    Of a trial whose repetitions are not of one definition, or are being remeasured, only that.
    """
    rig, stage = setting.rig, setting.stage
    if block_now(trial) is not None:
        yield from show(GivenUp((trial.a, trial.b), status_of(trial)), rig, stage)
        return
    waits = remeasuring(history)
    if waits is not None or not is_comparable(trial):
        yield from show(NotTold(MIXED if waits is None else waits.words), rig, stage)
        return
    result = outcome(trial)
    names = trial.a.name, trial.b.name
    lines = outcome_words(result, *names)
    curves = curves_of(trial, history)
    has_any = all(arm.pictures for arm in curves)
    page = ResultPage.FIGURES
    while page is not ResultPage.DONE:
        if page is ResultPage.FIGURES:
            page = yield from show(TrialFigures(lines, result, names, curves=has_any), rig, stage)
        else:
            blip = written(result.blips.peaks)
            page = yield from show(TrialCurves(written(result.dip), curves, blip), rig, stage)


def look_at_past(setting: Setting, history: History) -> Flow[None]:
    """List past trials, the newest first, and show the result of each that the player chooses."""
    over = {trial.number: trial for trial in reversed(all_trials(history)) if trial.over}
    waits = remeasuring(history) is not None
    rows = [
        (n, past_words(trial, waits=waits), f"{trial.a.name} or {trial.b.name}")
        for n, trial in over.items()
    ]
    while (number := (yield from show(PastTrials(rows), setting.rig, setting.stage))) in over:
        yield from show_result(over[number], setting, history)


def past_words(trial: Trial, *, waits: bool = False) -> str:
    """Line about a past trial: the date it began on, and its finding or how far it came.

    `waits`: the history is being remeasured, and no finding is told before that is done.
    """
    began = f"{trial.began.day} {trial.began:%b %Y}"
    if block_now(trial) is not None:
        return f"{began}: given up, {status_of(trial).words}"
    if waits or not is_comparable(trial):
        return f"{began}: {'waits to be measured again' if waits else 'cannot be told'}"
    return f"{began}: {finding_words(outcome(trial))}"


def curves_of(trial: Trial, history: History) -> tuple[Curves, Curves]:
    """Brake curves of all repetitions with A and with B; of a run of blips, the worst one.

    Raises StoreError.
    """
    arms = order(trial.seed, trial.pairs)
    pictures: dict[Arm, list[Deviation]] = {arm: [] for arm in Arm}
    for repetition in trial.repetitions:
        if repetition.void:
            continue
        number = repetition.number
        picture = picture_of(history, number, measures_of(history, number))
        if picture is not None:
            pictures[arms[repetition.block]].append(picture)
    return Curves(trial.a.name, tuple(pictures[Arm.A])), Curves(
        trial.b.name, tuple(pictures[Arm.B])
    )
