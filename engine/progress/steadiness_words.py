"""Sentences about steadiness on the pages of the history."""

from __future__ import annotations

from datetime import date

from engine.five.steadiness_words import waiting_words
from engine.kit.charts_dates import day_words, full_words
from engine.practice.blip_size import BLIP
from engine.practice.steadiness import WINDOW, SteadinessStep
from engine.progress.progress import Progress
from engine.progress.scale_words import scale_words


def steadiness_words(progress: Progress) -> list[str]:
    """Sentences: present steadiness with its days and interval, the step to it, what it means."""
    now = progress.steadiness
    if now is None:
        so_far = f"Steadiness: {waiting_words(progress.steadiness_blips)} so far."
        return [so_far, *scale_words(progress)] if progress.daily_steadiness else []
    step = progress.steadiness_step
    return [
        f"±{now.value:.1f} points, your last {now.span} days,"
        f" likely between {now.low:.1f} and {now.high:.1f}.",
        *([] if step is None else [step_words(step, progress.today)]),
        f"Three blips in four stay inside, at a blip of {BLIP:.0f} %.",
    ]


def step_words(step: SteadinessStep, today: date) -> str:
    """Sentence about a step, such as "±15.5 on 7 Oct, ±5.8 now."."""
    day = step.first.last
    on = day_words(day) if day.year == today.year else full_words(day)
    return f"±{step.first.value:.1f} on {on}, ±{step.now.value:.1f} now."


def steadiness_comes(progress: Progress) -> str:
    """When there will be a first steadiness, and how far it is until then."""
    so_far = waiting_words(progress.steadiness_blips)
    return f"comes after {WINDOW} steadiness blips, six in five minutes: {so_far} so far"
