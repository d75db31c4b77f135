"""The scripted first day alone, played and checked: `python -m tests.game.first_day FOLDER`."""

import json
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import open_history
from engine.store.copies import automatic_copies
from engine.store.history import FILE
from engine.store.repetitions import measures_of
from engine.store.traces import trace_of
from tests.game.days import LEVEL, Day, played
from tests.game.foot_log import missed_at_the_top
from tests.game.scripts import DIPS
from tests.stored import dump

EXACTLY = 0.01
"""Share by which a dip may be off where every step was read."""


def rows(data: Path, query: str) -> list[tuple[object, ...]]:
    """Rows that a query finds in the history."""
    with closing(sqlite3.connect(data / FILE)) as database:
        return database.execute(query).fetchall()


def counted(data: Path) -> list[tuple[object, ...]]:
    """Source and reason of each counted repetition: a busy machine may void some."""
    return rows(data, "SELECT source, reason FROM repetition WHERE void = 0 ORDER BY id")


def events(path: Path, name: str) -> list[dict[str, object]]:
    """Events of one name in an events file."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return [event for line in lines if (event := json.loads(line))["event"] == name]


def check_first_day(day: Day) -> None:
    """Assert that three blips were stored, told and revealed with the dips that were scripted, and
    copied as the player left.
    """
    numbers = rows(day.data, "SELECT id FROM repetition WHERE void = 0 ORDER BY id")
    with open_history(day.data, []) as history:
        for (number,), made in zip(numbers, DIPS, strict=True):
            trace = trace_of(history, int(str(number)))
            assert trace is not None
            missed = missed_at_the_top(trace)
            found = measures_of(history, int(str(number)))["dip"]
            assert found == pytest.approx(made, rel=EXACTLY + missed)
    reasons = ["clean", "clean", "over limit"]
    assert counted(day.data) == [("pedals", reason) for reason in reasons]
    verdicts = events(day.events, "verdict")
    assert [event["reason"] for event in verdicts if event["score"]] == reasons
    assert [event["name"] for event in events(day.events, "screen")].count("reveal") >= 3
    [copy] = automatic_copies(day.data)
    assert dump(copy.path) == dump(day.data / FILE)


def main(folder: str) -> None:
    """Play the first day in a new folder, check it, and print what was stored."""
    data, log = Path(folder) / "data", Path(folder) / "events.jsonl"
    (data / "levels").mkdir(parents=True)
    (data / "levels" / "three.toml").write_text(LEVEL, encoding="utf-8")
    day = played("first_day", data, log, "inverted")
    if day.fault is not None:
        sys.exit(day.fault.wrote)
    check_first_day(day)
    print("first day:", *(reason for _, reason in counted(data)))


if __name__ == "__main__":
    main(*sys.argv[1:])
