"""A history with something of everything in it, and what is in such a history."""

import csv
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import numpy as np

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.practice.changes import Changed
from engine.practice.results import What, Why
from engine.practice.road import Drive, RoadBlip
from engine.practice.trial import Ball, SetUp
from engine.store import open_history
from tests.made import SCALE, record, trace

AT = datetime(2024, 5, 17, 20, 15, 30, 250_000, tzinfo=timezone(timedelta(hours=-5)))
ODD = 'a "quoted", split\r\nnote with a cömma\n'
FORMULA = '=HYPERLINK("x")'
CLEAN = Verdict(Reason.CLEAN, 90.1, (), {"dip": 0.1 + 0.2, "rebound": 1e-17, "settle": None})


def make(folder: Path) -> None:
    """Repetitions of every sort, and everything else there is."""
    usual = trace()
    nudged = replace(usual, brake=usual.brake + 1e-9, counts=None)
    odd = replace(usual, brake=np.where(usual.brake > 61, np.nan, usual.brake), counts=None)
    with open_history(folder, []) as history:
        five = history.begin_sitting(What.FIVE, AT, 4.5, 2**62)
        history.end_sitting(history.begin_sitting(What.WARM_UP, AT, 2.0, 3))
        arms = SetUp("as ever"), SetUp(ODD, Ball.TOES, note=ODD)
        trial = history.begin_trial(AT, "a-blip", arms, 6, 7)
        rule, tried = PassRule(1, 1), dict[str, Any](trial=trial, why=Why.TRIAL)
        changed: dict[str, Any]
        for changed in (
            {"verdict": CLEAN, "rule": rule, "sitting": five, "took": 3.25, "why": Why.DUE},
            {"verdict": Verdict(Reason.GAP), "trace": None, "sampling": None, "dark": None},
            {"trace": trace(clutch=True), "drawn": "another", "seed": 2**40, "asked": 7.5},
            {"trace": nudged, "feet": False, "source": "mouse"},
            {"trace": odd, "calibration": None},
            {"trace": trace(8), "calibration": replace(SCALE, clutch=None), "cues": (-5, 2**60)},
            {"at": AT.astimezone(UTC) + timedelta(days=1), **tried, "block": 0},
            {"at": AT + timedelta(days=2), **tried, "block": 11, "trace": None},
            {"at": AT + timedelta(days=3), "verdict": CLEAN, "rule": rule},
        ):
            history.add(record(**{"at": AT, **changed}))
        history.keep_guess(1, 12.5, "dip")
        blips = RoadBlip(1, 1, 12.25, 61.5, 7.25, 1.5, -3.0), RoadBlip(2, 1, 0.1, 80.0, reason=ODD)
        history.keep_drive(Drive(AT, ODD, "ab" * 32, 612.5, blips))
        history.mark_change(AT, Changed.SHOES, ODD)
        history.mark_change(AT, Changed.PEDALS, FORMULA)
        history.keep_setting("binding", {"brake": [1, None, ODD]})
        history.keep_setting("cautions read", True)


def dump(file: Path) -> list[str]:
    """Everything in a history file, packed traces and the ledger included."""
    with closing(sqlite3.connect(file)) as db:
        return [*db.iterdump(), str(db.execute("PRAGMA user_version").fetchone())]


def names(folder: Path) -> list[str]:
    """What is in a folder, in order."""
    return sorted(one.name for one in folder.iterdir())


def rows_of(path: Path) -> list[list[str]]:
    """The rows of a file."""
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines))
