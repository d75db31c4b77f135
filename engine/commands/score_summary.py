"""Summary of `stillfoot score`: what it says first, and which runs of blips it then prints."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from engine.road.blips import RoadBlip
from engine.road.summary import summary_of
from engine.road.summary_words import summary_words

FEW_RUNS = 3
"""Number of runs of blips that are printed without `--runs`: those with the deepest dips."""


def summary_data(blips: Sequence[RoadBlip], seconds: float, noise: float | None) -> dict[str, Any]:
    """The blips of a recording in a few figures and sentences, ready for JSON.

    `seconds` is the length of the recording in s, `noise` that of its brake in points.
    """
    summary = summary_of(blips)
    figures = asdict(summary) | {"reasons": dict(summary.reasons), "scored": summary.scored}
    return {
        "summary": {
            **figures,
            "seconds": seconds,
            "noise": noise,
            "says": summary_words(summary, seconds),
        }
    }


def runs_to_print(
    runs: Sequence[Mapping[str, Any]], every: bool
) -> tuple[list[tuple[int, Mapping[str, Any]]], str]:
    """Runs to be printed, each with its number from 1, and a line on those left out.

    Without `every` they are the few with the deepest dips, the deepest first; the line is empty
    where all are printed.
    """
    numbered = list(enumerate(runs, start=1))
    if every or len(runs) <= FEW_RUNS:
        return numbered, ""
    scored = [(number, run) for number, run in numbered if run["scored"]]
    deepest = sorted(scored, key=lambda one: -one[1]["dip"])[:FEW_RUNS]
    left = len(runs) - len(deepest)
    which = f"Below: the {len(deepest)} with the deepest dips. " if deepest else ""
    return deepest, f"{len(runs)} runs of blips. {which}--runs prints the other {left} too."
