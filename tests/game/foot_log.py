"""Pedal positions a scripted foot logged, to compare with what the game read and measured."""

import json
import math
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drills.score import Verdict
from drills.task import Performance
from drills.trace import SECOND, Trace
from engine.ladder.level_files import load_levels
from engine.store.history import FILE
from tests.game.kinds import PULSE

WRITTEN = "written.npy"
"""File beside the events: a row for each step, with ns and the pedals in percent."""
PULSING = 5.0
"""Percent of throttle, above which a scripted pulse is under way."""


@dataclass(frozen=True)
class PlayedRepetition:
    """Stored repetition, and where it lies on the clock of the game."""

    number: int
    """Number of the repetition in the history."""
    level: str
    """Id of the level that was played: of a mixed level, the one it drew."""
    target: float
    """Target of the brake, in percent."""
    opened: int
    """Nanoseconds on the clock of the game at which the trace begins."""
    dark: int
    """Nanoseconds from the begin of the trace to the wait."""
    cues: tuple[int, ...]
    """Nanoseconds from the begin of the trace to each cue."""


def last_counted(data: Path, events: Path, level: str) -> PlayedRepetition:
    """Newest counted repetition of a level. Raises IndexError where there is none."""
    return counted_of(data, events, level)[-1]


def counted_of(data: Path, events: Path, level: str) -> list[PlayedRepetition]:
    """Counted repetitions of a level, the newest last."""
    query = (
        "SELECT id, coalesce(nullif(drawn, ''), level), target, dark_ns, cues_ns"
        " FROM repetition WHERE void = 0 AND level = ? ORDER BY id"
    )
    with closing(sqlite3.connect(data / FILE)) as database:
        found = database.execute(query, (level,)).fetchall()
    return [
        PlayedRepetition(
            number,
            played,
            target,
            round(_waiting(events, number) * SECOND) - dark,
            dark,
            tuple(json.loads(cues)),
        )
        for number, played, target, dark, cues in found
    ]


def _waiting(events: Path, number: int) -> float:
    """Seconds on the clock of the game at which the wait of a repetition began."""
    began = 0.0
    for line in events.read_text(encoding="utf-8").splitlines():
        event = json.loads(line)
        if event["event"] == "phase" and event["phase"] == "wait":
            began = event["t"]
        if event["event"] == "verdict" and event["id"] == number:
            break
    return began


def judged_as_written(
    data: Path, events: Path, repetition: PlayedRepetition, lasted: int
) -> Verdict:
    """Verdict on the logged positions of a repetition whose trace lasted so many ns."""
    [level] = [level for level in load_levels([data / "levels"]) if level.id == repetition.level]
    time, *pedals = np.load(events.with_name(WRITTEN)).T
    time = time.astype(np.int64) - repetition.opened
    first = int(np.searchsorted(time, 0, side="right")) - 1
    within = slice(first, int(np.searchsorted(time, lasted)))
    at = np.append(np.maximum(time[within], 0), lasted)
    brake, throttle, clutch = (np.append(row[within], row[within][-1]) for row in pedals)
    task = level.kind.task(level, repetition.target, np.random.default_rng(1))
    done = Performance(Trace(at, brake, throttle, clutch), repetition.dark, repetition.cues)
    # The wait is drawn by chance, and only a hold, where it is fixed, is judged by it.
    return level.kind.judge(level, task, done).verdict


def longest_unread(trace: Trace) -> float:
    """Longest time in s in which no pedal changed, from 0.1 s before the feet moved to 0.1 s after.

    A plan moves a pedal at every step, so nothing was written, or nothing was read, for that long.
    """
    moved = np.flatnonzero(np.diff(trace.brake) + np.diff(trace.throttle) != 0)
    if trace.clutch is None or not moved.size:
        return 0.0
    about = slice(max(int(moved[0]) - 100, 0), int(moved[-1]) + 101)
    pedals = (trace.brake[about], trace.throttle[about], trace.clutch[about])
    changed = np.any([np.diff(pedal) != 0 for pedal in pedals], axis=0)
    return float(np.diff(trace.time[about][1:][changed]).max()) / SECOND


def missed_at_the_top(trace: Trace) -> float:
    """Share of the height of a scripted half-sine that the game may have missed, from 0 to 1.

    A pulse changes with every step, so where nothing changed, nothing was written or nothing read;
    at worst that was at the top of the pulse.
    """
    pulse = trace.throttle > PULSING
    changed = np.diff(trace.brake[pulse]) + np.diff(trace.throttle[pulse]) != 0
    unread = float(np.diff(trace.time[pulse][1:][changed]).max()) / SECOND
    return 1 - math.cos(math.pi * unread / 2 / PULSE)
