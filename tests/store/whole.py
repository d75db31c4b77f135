"""A history with something of everything in it, and what is in such a history."""

import csv
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import numpy as np

from drills.calibration import Range
from drills.level import PassRule
from drills.score import Reason, Verdict
from drills.trace import Trace
from engine.drill.saved import keep_guess
from engine.five.saved import begin_session, end_session
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.practice.changes import Changed
from engine.practice.results import Purpose, SessionKind
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.saved import keep_drive
from engine.setup.saved_rigs import add_rig
from engine.store import open_history
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from engine.trial.saved import keep_new_trial
from engine.trial.trial import Ball, SetUp
from tests.made import SCALE, record, trace

AT = datetime(2024, 5, 17, 20, 15, 30, 250_000, tzinfo=timezone(timedelta(hours=-5)))
ODD = 'a "quoted", split\r\nnote with a cömma\n'
BOUND = BoundAxis(Identity("ab" * 14, ODD, 2, 0, 1), 0, Range(-1.0, 1.0))
FORMULA = '=HYPERLINK("x")'
CLEAN = Verdict(Reason.CLEAN, 90.1, (), {"dip": 0.1 + 0.2, "rebound": 1e-17, "settle": None})


def shifting() -> Trace:
    """A trace with a clutch and a shift button."""
    usual = trace(clutch=True)
    return replace(usual, shift=(np.arange(usual.time.size) % 90 < 9).astype(np.float64))


def make(folder: Path) -> None:
    """Repetitions of every sort, and everything else there is."""
    usual = trace()
    nudged = replace(usual, brake=usual.brake + 1e-9, counts=None)
    odd = replace(usual, brake=np.where(usual.brake > 61, np.nan, usual.brake), counts=None)
    with open_history(folder, []) as history:
        five = begin_session(history, SessionKind.FIVE, AT, 4.5, 2**62)
        end_session(history, begin_session(history, SessionKind.WARM_UP, AT, 2.0, 3))
        arms = SetUp("as ever"), SetUp(ODD, Ball.TOES, note=ODD)
        trial = keep_new_trial(history, AT, "a-blip", arms, 6, 7, by_days=True)
        rule, tried = PassRule(1, 1), dict[str, Any](trial=trial, why=Purpose.TRIAL)
        changed: dict[str, Any]
        for changed in (
            {"verdict": CLEAN, "rule": rule, "session": five, "took": 3.25, "why": Purpose.DUE},
            {"verdict": Verdict(Reason.GAP), "trace": None, "sampling": None, "dark": None},
            {"trace": shifting(), "drawn": "another", "seed": 2**40, "asked": 7.5},
            {"trace": nudged, "feet": False, "source": "mouse"},
            {"trace": odd, "calibration": None},
            {"trace": trace(8), "calibration": replace(SCALE, clutch=None), "cues": (-5, 2**60)},
            {"at": AT.astimezone(UTC) + timedelta(days=1), **tried, "block": 0},
            {"at": AT + timedelta(days=2), **tried, "block": 11, "trace": None},
            {"at": AT + timedelta(days=3), "verdict": CLEAN, "rule": rule},
        ):
            add_repetition(history, record(**{"at": AT, **changed}))
        keep_guess(history, 1, 12.5, "dip")
        blips = RoadBlip(1, 1, 12.25, 61.5, 7.25, 1.5, -3.0), RoadBlip(2, 1, 0.1, 80.0, reason=ODD)
        keep_drive(history, Drive(AT, ODD, "ab" * 32, 612.5, blips, noise=0.75))
        mark_change(history, AT, Changed.SHOES, ODD)
        mark_change(history, AT, Changed.PEDALS, FORMULA)
        harder = replace(SCALE, brake=Range(SCALE.brake.rest, 0.75))
        mark_change(history, AT, Changed.SCALE, ends=(SCALE, harder))
        add_rig(history, Binding(BOUND, BOUND), ODD)
        history.keep_setting("ends declined", {"brake": [1, None, ODD]})
        history.keep_setting("cautions read", True)


def names(folder: Path) -> list[str]:
    """What is in a folder, in order."""
    return sorted(one.name for one in folder.iterdir())


def rows_of(path: Path) -> list[list[str]]:
    """The rows of a file."""
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines))
