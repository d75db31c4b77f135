"""Data folder with some days of practice and pedals that are set up."""

from datetime import datetime, timedelta
from pathlib import Path

from drills.level import Level
from drills.score import Reason, Verdict
from engine.game.flow import CAUTIONS_READ
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.bound import Binding
from engine.practice.retention import AT_ONCE
from engine.setup.saved_rigs import add_rig
from engine.store import Record, open_history
from engine.store.repetitions import add_repetition

DUE = "blip-2b-moving"
"""Id of the level that was passed yesterday, so that its retention check is due today."""
LEARNED = "blip-3-good"
"""Id of the level being learned, the next one after it."""
TOOK = 5.5
"""Seconds a simulated foot takes for a repetition beside its measured duration."""


def make_past(folder: Path, now: datetime, binding: Binding) -> None:
    """Store practice: easier levels passed three days ago and retained a day later, one passed
    yesterday.
    """
    levels = load_levels([SHIPPED])
    easier = levels[: [level.id for level in levels].index(LEARNED)]
    with open_history(folder, levels) as history:
        history.keep_setting(CAUTIONS_READ, True)
        add_rig(history, binding)
        for days, count in ((3, None), (2, AT_ONCE.clean), (1, None)):
            at = now - timedelta(days=days)
            for level in easier:
                if (level.id == DUE) == (days == 1):
                    for _ in range(count or level.rule.of):
                        record = clean(level, at)
                        add_repetition(history, record)
                        at += timedelta(seconds=record.took or 0.0)


def clean(level: Level, at: datetime) -> Record:
    """Record of a clean repetition of a level, without a trace."""
    return Record(
        level=level.id,
        kind=level.kind.name,
        source="pedals",
        feet=True,
        at=at,
        target=60.0,
        tolerance=level.tolerance,
        rule=level.rule,
        verdict=Verdict(Reason.CLEAN, 80.0, (), {}),
        trace=None,
        calibration=None,
        dark=None,
        cues=(),
        sampling=None,
        took=TOOK + level.own.get("duration", 0.0),
    )
