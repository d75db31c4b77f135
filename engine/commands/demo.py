"""The simulated foot at its drills as fast as it can, without a window."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from datetime import UTC, datetime

import numpy as np

from drills.coach import sentence
from drills.foot import Foot
from drills.kinds import KINDS
from drills.level import Level
from drills.repetition import OVER, Repetition
from drills.trace import SECOND
from engine.flow.judging import as_event, conclude
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, STEP, SimulatedPedals
from engine.stage.events import Events
from engine.store import History, Record

REST = 1 * SECOND
"""ns the foot rests between two repetitions."""


class ManualClock:
    """A clock that only goes on when told to."""

    def __init__(self) -> None:
        self._now = 0

    def __call__(self) -> int:
        """The time in ns."""
        return self._now

    def advance(self, step: int) -> None:
        """Go on by `step` ns."""
        self._now += step


def play(
    level: Level,
    repetitions: int,
    seed: int,
    skill: float,
    store: History,
    events: Events,
    clock: ManualClock,
) -> Iterator[Record]:
    """Repetitions of a level by a foot of `skill` 0 to 1, each kept in the store and told.

    The same seed gives the same records but for their date.
    """
    foot = SimulatedPedals(Foot(skill, seed), clock)
    feet = CalibratedPedals(foot, SIMULATED_TRAVEL)
    rng = np.random.default_rng(seed)
    for number in range(repetitions):
        target = level.targets[number % len(level.targets)]
        task = KINDS[level.kind].task(level, target, rng)
        repetition = Repetition(task, clock())
        foot.see_target(target)
        while repetition.phase not in OVER:
            clock.advance(STEP)
            sample = feet.sample()
            assert sample is not None
            phase = repetition.feed(sample)
            if phase is not None:
                foot.see_phase(phase)
                events.note("phase", {"phase": phase.value})
        record = conclude(level, task, repetition, foot.name, datetime.now(UTC).astimezone())
        events.note("verdict", as_event(store.add(record), record))
        yield record
        foot.relax()
        clock.advance(REST)
        foot.read()


def as_json(number: int, record: Record) -> str:
    """One repetition as one line of JSON, measures by their names."""
    verdict = record.verdict
    line = {
        "rep": number,
        "level": record.level,
        "target": record.target,
        "score": verdict.score,
        "clean": verdict.clean,
        "reason": verdict.reason.value,
        "over": list(verdict.over),
        **verdict.measures,
        **(asdict(record.sampling) if record.sampling else {}),
    }
    return json.dumps(line, allow_nan=False)


def as_text(number: int, record: Record) -> str:
    """One repetition as one line for a person."""
    verdict = record.verdict
    points = "   -" if verdict.score is None else f"{verdict.score:4.0f}"
    return f"{number:3d}  {points}  {verdict.reason.value:<11}  {sentence(record.kind, verdict)}"
