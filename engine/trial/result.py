"""Flow at the end of a trial: its result, curves and measures, and the list of past trials."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drills.deviation import Deviation
from engine.date_words import full_words
from engine.drill.attempt import Setting
from engine.drill.stored_picture import picture_of
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History
from engine.store.remeasure import remeasuring
from engine.store.repetitions import measures_of
from engine.trial.by_days import DayBlip
from engine.trial.by_days_outcome import DaysOutcome, days_outcome
from engine.trial.by_days_saved import day_blips
from engine.trial.by_days_words import DECIMALS, RAW, days_finding_words, days_texts
from engine.trial.measure_table import written
from engine.trial.menu_screens import GivenUp, NotTold, PastTrials
from engine.trial.outcome import is_comparable, outcome
from engine.trial.randomisation import block_now, order, recalibrated
from engine.trial.result_screens import (
    Curves,
    DaysResult,
    ResultPage,
    TrialCurves,
    TrialMeasures,
    TrialResult,
)
from engine.trial.result_texts import ResultTexts
from engine.trial.saved import all_trials
from engine.trial.status import status_of
from engine.trial.trial import Arm, Trial
from engine.trial.words import finding_words, result_texts

MIXED = (
    "Some repetitions could not be measured again. Two definitions of the dip cannot be compared."
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
    if trial.by_days:
        yield from _show_days(trial, setting, history)
        return
    result = outcome(trial)
    texts = result_texts(result, trial.a.name, trial.b.name)
    dip, blip, curves = written(result.dip), written(result.blips.peaks), curves_of(trial, history)
    yield from _show_pages(
        texts,
        lambda: TrialResult(texts, curves=_has_any(curves)),
        lambda: TrialCurves(dip, curves, blip),
        setting,
    )


def _show_days(trial: Trial, setting: Setting, history: History) -> Flow[None]:
    """Show the outcome of a trial by days, page by page."""
    result = _days_outcome(trial, _blips(trial, history))
    texts = days_texts(result, trial.a.name, trial.b.name)
    row, blip = written(result.raw, RAW, DECIMALS), written(result.blips.peaks)
    curves = curves_of(trial, history)
    yield from _show_pages(
        texts,
        lambda: DaysResult(texts, curves=_has_any(curves)),
        lambda: TrialCurves(row, curves, blip, by_days=True),
        setting,
    )


def _show_pages(
    texts: ResultTexts,
    result: Callable[[], TrialResult],
    curves: Callable[[], TrialCurves],
    setting: Setting,
) -> Flow[None]:
    """Show the result of a trial, its curves and its measures, until the player is done."""
    page = ResultPage.RESULT
    while page is not ResultPage.DONE:
        screen: TrialResult | TrialCurves | TrialMeasures
        match page:
            case ResultPage.CURVES:
                screen = curves()
            case ResultPage.MEASURES:
                screen = TrialMeasures(texts)
            case _:
                screen = result()
        page = yield from show(screen, setting.rig, setting.stage)


def _has_any(curves: tuple[Curves, Curves]) -> bool:
    """Whether both arms have curves to look at."""
    return all(arm.pictures for arm in curves)


def _blips(trial: Trial, history: History) -> Sequence[DayBlip]:
    """Blips of a trial by days; none of another."""
    return day_blips(history, trial.number) if trial.by_days else ()


def _days_outcome(trial: Trial, blips: Sequence[DayBlip]) -> DaysOutcome:
    return days_outcome(blips, trial.seed, trial.pairs, recalibrated=recalibrated(trial))


def look_at_past(setting: Setting, history: History) -> Flow[None]:
    """List past trials, the newest first, and show the result of each that the player chooses."""
    over = {trial.number: trial for trial in reversed(all_trials(history)) if trial.over}
    waits = remeasuring(history) is not None
    rows = [
        (
            n,
            past_words(trial, _blips(trial, history), waits=waits),
            f"{trial.a.name} or {trial.b.name}",
        )
        for n, trial in over.items()
    ]
    while (number := (yield from show(PastTrials(rows), setting.rig, setting.stage))) in over:
        yield from show_result(over[number], setting, history)


def past_words(trial: Trial, blips: Sequence[DayBlip] = (), *, waits: bool = False) -> str:
    """Line about a past trial: the date it began on, and its finding or how far it came.

    `blips` are those of a trial by days. `waits`: the history is being remeasured, and no finding
    is told before that is done.
    """
    began = full_words(trial.began)
    if block_now(trial) is not None:
        return f"{began}: given up, {status_of(trial).words}"
    if waits or not is_comparable(trial):
        return f"{began}: {'waits to be measured again' if waits else 'cannot be told'}"
    if trial.by_days:
        return f"{began}: {days_finding_words(_days_outcome(trial, blips))}"
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
