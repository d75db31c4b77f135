"""A history with something of everything in it, exported and read back."""

import csv
import sqlite3
from collections.abc import Callable, Generator, Iterable
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.practice.changes import Changed
from engine.practice.results import Purpose, SessionKind
from engine.road.drive import Drive, RoadBlip
from engine.store import History, StoreError
from engine.store.cores import Spread, one_by_one
from engine.store.csv_in import import_history
from engine.store.history import FILE
from engine.trial.trial import Ball, SetUp
from tests.made import SCALE, record, trace

AT = datetime(2024, 5, 17, 20, 15, 30, 250_000, tzinfo=timezone(timedelta(hours=-5)))
ODD = 'a "quoted", split\r\nnote with a cömma\n'
CLEAN = Verdict(Reason.CLEAN, 90.1, (), {"dip": 0.1 + 0.2, "rebound": 1e-17, "settle": None})
FAR = 700
"""Number of the newest repetition: it is of another bundle than the first."""


def here(_: int) -> Spread:
    """Everything in this process."""
    return one_by_one


def silent(_done: int, _of: int) -> None:
    """Nobody is told."""


def make(folder: Path, newest: int = FAR) -> None:
    """Repetitions of every sort, the newest with this number, and everything else there is."""
    usual = trace()
    nudged = replace(usual, brake=usual.brake + 1e-9)
    odd = replace(usual, brake=np.where(usual.brake > 61, np.nan, usual.brake))
    with History(folder) as history:
        five = history.begin_session(SessionKind.FIVE, AT, 4.5, 2**62)
        history.end_session(history.begin_session(SessionKind.WARM_UP, AT, 2.0, 3))
        arms = SetUp("as ever"), SetUp(ODD, Ball.TOES, note=ODD)
        trial = history.begin_trial(AT, "a-blip", arms, 6, 7)
        rule, tried = PassRule(1, 1), {"trial": trial, "why": Purpose.TRIAL}
        for changes in (
            {"verdict": CLEAN, "rule": rule, "sitting": five, "took": 3.25, "why": Purpose.DUE},
            {"verdict": Verdict(Reason.GAP), "trace": None, "sampling": None, "dark": None},
            {"trace": trace(clutch=True), "drawn": "another", "seed": 2**40, "asked": 7.5},
            {"trace": nudged, "feet": False, "source": "mouse"},
            {"trace": odd, "calibration": None},
            {"trace": trace(8), "calibration": replace(SCALE, clutch=None), "cues": (-5, 2**60)},
            {"at": AT.astimezone(UTC) + timedelta(days=1), **tried, "block": 0},
            {"at": AT + timedelta(days=2), **tried, "block": 11, "trace": None},
            {"at": AT + timedelta(days=3), "verdict": CLEAN, "rule": rule},
        ):
            history.add(record(**{"at": AT, **changes}))
        history.keep_guess(1, 12.5, "dip")
        blips = RoadBlip(1, 1, 12.25, 61.5, 7.25, 1.5, -3.0), RoadBlip(2, 1, 0.1, 80.0, reason=ODD)
        history.keep_drive(Drive(AT, ODD, "ab" * 32, 612.5, blips))
        history.mark_change(AT, Changed.SHOES, ODD)
        history.keep_setting("binding", {"brake": [1, None, ODD]})
        history.keep_setting("cautions read", True)
    with closing(sqlite3.connect(folder / FILE)) as db, db:
        for table, column in (
            ("trace", "repetition"),
            ("measure", "repetition"),
            ("repetition", "id"),
        ):
            db.execute(f"UPDATE {table} SET {column} = {newest} WHERE {column} = 9")


def export(data: Path, folder: Path) -> int:
    """Write a history out."""
    with History(data) as history:
        return history.export(folder, here, silent)


def read_back(folder: Path, source: Path) -> int:
    """Read one in."""
    return import_history(folder, source, here, silent)


def dump(folder: Path) -> list[str]:
    """Everything in a history, packed traces and the ledger included."""
    with closing(sqlite3.connect(folder / FILE)) as db:
        return [*db.iterdump(), str(db.execute("PRAGMA user_version").fetchone())]


def names(folder: Path) -> list[str]:
    """What is in a folder, in order."""
    return sorted(one.name for one in folder.iterdir())


def rows_of(path: Path) -> list[list[str]]:
    """The rows of a file."""
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines))


def write(path: Path, rows: list[list[str]]) -> None:
    """Write rows over a file."""
    with path.open("w", encoding="utf-8", newline="") as lines:
        csv.writer(lines).writerows(rows)


def change(folder: Path, name: str, line: int, header: str, text: str) -> None:
    """Change one cell as somebody would who takes back what is said of the file beside it."""
    rows = rows_of(folder / name)
    rows[line - 1][rows[0].index(header)] = text
    write(folder / name, rows)
    about = rows_of(folder / "about.csv")
    write(folder / "about.csv", [[*row[:2], "" if row[0] == name else row[2]] for row in about])


def refused(folder: Path) -> str:
    """What is said when it is read; nothing may be there then."""
    data = folder.parent / "data"
    with pytest.raises(StoreError) as error:
        read_back(data, folder)
    assert not data.exists()
    return str(error.value)


def failing(error: BaseException) -> Callable[[int], Spread]:
    """Cores on which the first piece of work fails."""

    def spread(_: Callable[[Any], Any], jobs: Iterable[Any]) -> Generator[Any, None, None]:
        for _job in jobs:
            raise error
            yield

    return lambda _: spread
