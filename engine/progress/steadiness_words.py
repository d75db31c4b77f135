"""Words of the first page of the history: whether the foot is getting better, by its steadiness.

What is told is what the rule of `engine.practice.steadiness.step_of` finds: a step, or none.
"""

from __future__ import annotations

from datetime import date

from drills.number_words import counted
from engine.date_words import dated_words
from engine.five.steadiness_words import INSIDE, waiting_words
from engine.practice.blip_size import BLIP
from engine.practice.changes import EXCUSED, Changed
from engine.practice.steadiness import WINDOW, SteadinessStep
from engine.progress.page_words import PageWords
from engine.progress.pause import is_paused
from engine.progress.progress import Progress
from engine.progress.scale_words import scale_words

STEP_NEEDS = 3 * WINDOW
"""Blips from which a step of steadiness can be told, as a count."""
MEANING = f"{INSIDE.capitalize()}."
"""Sentence that says what steadiness is."""


def steadiness_words(progress: Progress) -> PageWords:
    """Whether steadiness changed, as a sentence that is sure; its meaning and its figures."""
    if progress.remeasuring is not None:
        return PageWords()
    now, step = progress.steadiness, progress.steadiness_step
    scale = scale_words(progress) if progress.daily_steadiness else []
    if now is None:
        lead = f"Not sure yet: {waiting_words(progress.steadiness_blips)}."
        waits = f"Steadiness comes after {WINDOW} blips, six a session."
        return PageWords(lead, " ".join(scale) or waits, ())
    likely = f"Likely {now.low:.1f} to {now.high:.1f} points."
    excuse = _excuse(progress) if step is not None and is_worse(step) else ""
    figures = [
        *([MEANING, likely] if excuse else []),
        *scale,
        f"{WINDOW} blips of {BLIP:.0f} % count, from your last {counted(now.span, 'day')}.",
        *([] if step is None else [_first_words(step, progress.today)]),
        f"A change is told when three groups of {WINDOW} blips agree.",
    ]
    return PageWords(_lead(progress), excuse or f"{MEANING} {likely}", tuple(figures))


def is_worse(step: SteadinessStep) -> bool:
    """Whether steadiness became wider."""
    return step.now.value > step.first.value


def _lead(progress: Progress) -> str:
    now, step, today = progress.steadiness, progress.steadiness_step, progress.today
    assert now is not None
    newest = progress.days[-1][0]
    paused = is_paused(newest, today)
    if step is not None:
        return step_words(step, newest, today)
    value = f"±{now.value:.1f} {f'up to {dated_words(newest, today)}' if paused else 'now'}"
    if progress.steadiness_blips < STEP_NEEDS:
        return f"Not sure yet: {value}, {progress.steadiness_blips} of {STEP_NEEDS} blips."
    return f"No clear change: {value}."


def step_words(step: SteadinessStep, newest: date, today: date) -> str:
    """Sentence about a step, such as "Yes: ±15.5 on 7 Oct, ±5.8 now.".

    `newest` is the newest day practised.
    """
    answer = "No" if is_worse(step) else "Yes"
    first, now = f"±{step.first.value:.1f}", f"±{step.now.value:.1f}"
    begun = f"{first} on {dated_words(step.first.last, today)}"
    if is_paused(newest, today):
        return f"{answer}, by {dated_words(step.now.last, today)}: {begun}, {now} then."
    return f"{answer}: {begun}, {now} now."


def _first_words(step: SteadinessStep, today: date) -> str:
    """Sentence on how sure the first steadiness was."""
    first = step.first
    return f"On {dated_words(first.last, today)} likely {first.low:.1f} to {first.high:.1f} points."


def _excuse(progress: Progress) -> str:
    """Sentence that excuses being worse by a change that is still new; empty if none does."""
    for change in reversed(progress.changes):
        if change.excuses(progress.today):
            until = dated_words(change.at.date() + EXCUSED, progress.today)
            name = "a change" if change.what is Changed.OTHER else f"new {change.what.value}"
            return f"Being worse is excused until {until}: {name}."
    return ""
