"""What a scripted foot wrote, on the clock of the game, to be judged beside what was read."""

import json
import math
import sqlite3
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drills.score import Verdict
from drills.task import Performance
from drills.trace import SECOND, Trace
from engine.ladder.level_files import load_levels
from engine.store.history import FILE
from tests.game.kinds import PULSE

WRITTEN = "written.npy"  # a file beside the events: ns and the pedals in %, a row each step
PULSING = 5.0
"""Percent of throttle, above which a scripted pulse is under way."""


@dataclass(frozen=True)
class Kept:
    """One repetition of a day."""

    number: int
    """Its number in the history."""
    level: str
    """Id of the level that was played, drawn or not."""
    target: float
    """%."""
    opened: int
    """ns on the clock, where its trace begins."""
    dark: int
    """ns from there, when the wait began."""
    cues: tuple[int, ...]
    """ns from there."""


def kept(data: Path, events: Path, level: str) -> Kept:
    """The last repetition of a level that counts."""
    query = (
        "SELECT id, coalesce(nullif(drawn, ''), level), target, dark_ns, cues_ns"
        " FROM repetition WHERE void = 0 AND level = ? ORDER BY id DESC LIMIT 1"
    )
    with sqlite3.connect(data / FILE) as database:
        [(number, played, target, dark, cues)] = database.execute(query, (level,)).fetchall()
    opened = round(_waiting(events, number) * SECOND) - dark
    return Kept(number, played, target, opened, dark, tuple(json.loads(cues)))


def _waiting(events: Path, number: int) -> float:
    """s on the clock, when the wait of a repetition began."""
    began = 0.0
    for line in events.read_text(encoding="utf-8").splitlines():
        event = json.loads(line)
        if event["event"] == "phase" and event["phase"] == "wait":
            began = event["t"]
        if event["event"] == "verdict" and event["id"] == number:
            break
    return began


def judged_as_written(data: Path, events: Path, one: Kept, lasted: int) -> Verdict:
    """The verdict on what the foot wrote while the game read for so many ns."""
    [level] = [level for level in load_levels([data / "levels"]) if level.id == one.level]
    time, *pedals = np.load(events.with_name(WRITTEN)).T
    time = time.astype(np.int64) - one.opened
    first = int(np.searchsorted(time, 0, side="right")) - 1
    within = slice(first, int(np.searchsorted(time, lasted)))
    at = np.append(np.maximum(time[within], 0), lasted)
    brake, throttle, clutch = (np.append(row[within], row[within][-1]) for row in pedals)
    task = level.kind.task(level, one.target, np.random.default_rng(1))
    done = Performance(Trace(at, brake, throttle, clutch), one.dark, one.cues)
    # How long the wait was is chance, and no judge asks for it but that of a hold, where it is not.
    return level.kind.judge(level, task, done).verdict


def longest_unread(trace: Trace) -> float:
    """s, the longest that no pedal changed while the feet moved, and a tenth before and after.

    What follows a plan changes with every step, so that long nothing was written, or nothing read.
    """
    moved = np.flatnonzero(np.diff(trace.brake) + np.diff(trace.throttle) != 0)
    if trace.clutch is None or not moved.size:
        return 0.0
    about = slice(max(int(moved[0]) - 100, 0), int(moved[-1]) + 101)
    pedals = (trace.brake[about], trace.throttle[about], trace.clutch[about])
    changed = np.any([np.diff(pedal) != 0 for pedal in pedals], axis=0)
    return float(np.diff(trace.time[about][1:][changed]).max()) / SECOND


def missed_at_the_top(trace: Trace) -> float:
    """Share of the height of a scripted half-sine that its reading may have missed, from 0 to 1.

    A pulse changes with every step, so where nothing changed nothing was written, or nothing read;
    at worst that was at its top.
    """
    pulse = trace.throttle > PULSING
    changed = np.diff(trace.brake[pulse]) + np.diff(trace.throttle[pulse]) != 0
    unread = float(np.diff(trace.time[pulse][1:][changed]).max()) / SECOND
    return 1 - math.cos(math.pi * unread / 2 / PULSE)
