"""Sentences about steadiness on the pages of the history."""

from __future__ import annotations

from datetime import date

from engine.five.steadiness_words import waiting_words
from engine.kit.charts_dates import day_words, full_words
from engine.practice.blip_size import BLIP
from engine.practice.steadiness import WINDOW, SteadinessStep
from engine.progress.pause import is_paused, when_words
from engine.progress.progress import Progress
from engine.progress.scale_words import scale_words


def steadiness_words(progress: Progress) -> list[str]:
    """Sentences: present steadiness with its days and interval, the step to it, what it means."""
    now = progress.steadiness
    if now is None:
        so_far = f"Steadiness: {waiting_words(progress.steadiness_blips)} so far."
        return [so_far, *scale_words(progress)] if progress.daily_steadiness else []
    step, newest, today = progress.steadiness_step, progress.days[-1][0], progress.today
    up_to = f" {when_words(newest, today)}" if is_paused(newest, today) else ""
    return [
        f"±{now.value:.1f} points, your last {now.span} days{up_to},"
        f" likely between {now.low:.1f} and {now.high:.1f}.",
        *([] if step is None else [step_words(step, newest, today)]),
        f"Three blips in four stay inside, at a blip of {BLIP:.0f} %.",
    ]


def step_words(step: SteadinessStep, newest: date, today: date) -> str:
    """Sentence about a step, such as "±15.5 on 7 Oct, ±5.8 now.".

    `newest` is the newest day practised.
    """
    first, now = f"±{step.first.value:.1f}", f"±{step.now.value:.1f}"
    then = f"on {_on(step.now.last, today)}" if is_paused(newest, today) else "now"
    return f"{first} on {_on(step.first.last, today)}, {now} {then}."


def _on(day: date, today: date) -> str:
    return day_words(day) if day.year == today.year else full_words(day)


def steadiness_comes(progress: Progress) -> str:
    """When there will be a first steadiness, and how far it is until then."""
    so_far = waiting_words(progress.steadiness_blips)
    return f"comes after {WINDOW} steadiness blips, six in five minutes: {so_far} so far"
