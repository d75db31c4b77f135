"""The newest faults, as they are read from the history."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from drills.fault import Fault
from drills.score import Reason, Verdict
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.changes import mark_change
from engine.store.faults import newest_faults
from engine.store.repetitions import add_repetition
from engine.store.rigs import USED
from tests.made import record

AT = datetime(2024, 5, 17, 12, tzinfo=UTC)
EARLY = {"dip": 9.0, "dip_at": 0.1, "lead": 0.2, "end": 1.3, "onset": 1.0, "surge": 1.0}


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def add(history: History, reason: Reason = Reason.CLEAN, **changes: Any) -> int:
    """Store a repetition; its measures are those of an early roll unless others are given."""
    verdict = Verdict(reason, None if reason.void else 60.0, (), changes.pop("measures", EARLY))
    return add_repetition(history, record(verdict=verdict, at=AT, trace=None, **changes))


def found(history: History) -> list[Fault | None]:
    return [fault for _, fault in newest_faults(history)]


def test_each_blip_has_its_number_and_its_fault_oldest_first(history: History) -> None:
    first = add(history)
    second = add(history, measures={"dip": 3.0})
    third = add(history, Reason.OFF_TARGET)

    assert newest_faults(history) == [
        (first, Fault.EARLY_ROLL),
        (second, None),
        (third, Fault.LOST),
    ]


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "hold", "measures": {"drift": 1.0}},
        {"kind": "squeeze", "measures": {"overshoot": 20.0}},
        {"kind": "trail", "measures": {"ramp_worst": 9.0}},
        {"reason": Reason.NO_BLIP, "measures": {}},
        {"reason": Reason.OFF_SIZE},
        {"feet": False},
        {"why": Purpose.TRIAL},
    ],
    ids=str,
)
def test_what_is_no_blip_by_feet_that_counts_is_left_out(
    history: History, changes: dict[str, Any]
) -> None:
    add(history, **changes)

    assert newest_faults(history) == []


def test_blips_of_every_kind_are_among_them(history: History) -> None:
    for kind in ("blip", "run", "clutch"):
        add(history, kind=kind)
    add(history, kind="trail", measures={"dip": 14.0, "early": 8.0})

    assert found(history) == [Fault.EARLY_ROLL] * 4


def test_they_are_the_newest_forty(history: History) -> None:
    numbers = [add(history) for _ in range(42)]

    assert [number for number, _ in newest_faults(history)] == numbers[2:]


def test_blips_of_another_rig_scale_or_definition_are_left_out(history: History) -> None:
    history.write(
        lambda db: db.executemany(
            "INSERT INTO rig VALUES (?, ?, '', '{}', 0)", [(1, "one"), (2, "two")]
        )
    )
    history.keep_setting(USED, 2)
    add(history)
    mark_change(history, AT, Changed.SCALE, rig=2)
    add(history, rig=1)
    old = add(history, rig=2)
    history.write(
        lambda db: db.execute("UPDATE repetition SET definition = 1 WHERE id = ?", (old,))
    )
    newest = add(history, rig=2)

    assert newest_faults(history) == [(newest, Fault.EARLY_ROLL)]


def test_no_more_than_the_newest_repetitions_are_searched(
    history: History, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("engine.store.faults.SEARCHED", 3)
    add(history)
    for _ in range(2):
        add(history, kind="hold", measures={"drift": 1.0})

    assert found(history) == [Fault.EARLY_ROLL]
    add(history, kind="hold", measures={"drift": 1.0})
    assert found(history) == []
