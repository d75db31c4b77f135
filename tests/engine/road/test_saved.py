"""Drives that were kept, and changes that were marked, on real files."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from drills.calibration import Range
from drills.measures.definition import DEFINITION
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.practice.changes import Change, Changed
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.saved import all_drives, keep_drive, rig_drives
from engine.setup.saved_rigs import add_rig, use_rig
from engine.store import History, StoreError, open_history
from engine.store.changes import all_changes, mark_change
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.made import record

AT = datetime(2024, 5, 17, 21, 30, 15, 250_000, tzinfo=timezone(timedelta(minutes=345)))
DRIVE = Drive(
    AT,
    "evening drive.csv",
    "ab" * 32,
    612.5,
    (
        RoadBlip(1, 1, 12.25, 61.5, 7.25, 1.5, -3.0, 8.75),
        RoadBlip(1, 2, 13.0, 55.0, 9.5, 0.0, -4.5),
        RoadBlip(2, 1, 40.125, 80.0, reason="the brake was released with the blip"),
    ),
    noise=0.25,
)
BOUND = BoundAxis(Identity("ab" * 14, "Quiet", 2, 0, 1), 0, Range(-1.0, 1.0))


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def test_a_drive_comes_back_with_its_blips_in_order(history: History) -> None:
    long = replace(DRIVE, digest="cd" * 32, blips=DRIVE.blips * 40)
    quiet = replace(DRIVE, digest="ef" * 32, blips=())

    numbers = [keep_drive(history, drive) for drive in (DRIVE, long, quiet)]

    assert numbers == [1, 2, 3]
    assert all_drives(history) == [DRIVE, long, quiet]
    assert all_drives(history)[0].at.utcoffset() == timedelta(minutes=345)


def test_a_recording_is_kept_once(history: History) -> None:
    keep_drive(history, DRIVE)

    with pytest.raises(StoreError) as refused:
        keep_drive(history, replace(DRIVE, name="copy.csv", blips=()))

    assert str(refused.value) == "copy.csv: this recording is in the history already"
    assert all_drives(history) == [DRIVE]


def test_a_drive_of_older_definitions_is_replaced_in_its_place(history: History) -> None:
    older = replace(DRIVE, definition=DEFINITION - 1)
    other = replace(DRIVE, digest="cd" * 32)
    keep_drive(history, older)
    keep_drive(history, other)
    assert [drive.is_current for drive in all_drives(history)] == [False, True]
    again = replace(DRIVE, at=AT + timedelta(days=9), name="copy.csv", blips=DRIVE.blips[:1])

    number = keep_drive(history, again)

    assert number == 1
    assert all_drives(history) == [replace(DRIVE, blips=DRIVE.blips[:1]), other]
    with pytest.raises(StoreError):
        keep_drive(history, again)


def test_a_drive_of_the_history_of_before_is_of_the_first_definitions(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        keep_drive(history, DRIVE)
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        cells = "id, at_utc, offset, name, digest, seconds"
        other.execute("UPDATE drive SET definition = 7")
        other.execute(
            f"INSERT INTO drive ({cells}) SELECT 2, at_utc, offset, name, '', 1 FROM drive"
        )

    with open_history(tmp_path, []) as history:
        assert [drive.definition for drive in all_drives(history)] == [7, 1]


def test_a_drive_belongs_to_the_rig_in_use_and_those_of_another_are_not_beside_it(
    history: History,
) -> None:
    keep_drive(history, replace(DRIVE, digest="01"))
    first, second = (add_rig(history, Binding(BOUND, BOUND)) for _ in range(2))
    keep_drive(history, replace(DRIVE, digest="02"))
    use_rig(history, first)
    keep_drive(history, replace(DRIVE, digest="03"))

    drives = [(drive.digest, drive.rig) for drive in all_drives(history)]

    assert drives == [("01", None), ("02", second), ("03", first)]
    assert [drive.digest for drive in rig_drives(history)] == ["01", "03"]
    use_rig(history, second)
    assert [drive.digest for drive in rig_drives(history)] == ["01", "02"]


def test_the_noise_of_a_drive_that_is_measured_again_is_that_of_now(history: History) -> None:
    keep_drive(history, replace(DRIVE, definition=DEFINITION - 1, noise=None))

    keep_drive(history, DRIVE)

    assert [drive.noise for drive in all_drives(history)] == [0.25]


def test_a_change_is_kept_with_the_newest_repetition_before_it(history: History) -> None:
    mark_change(history, AT, Changed.SHOES)
    add_repetition(history, record())
    add_repetition(history, record())
    mark_change(history, AT + timedelta(days=1), Changed.POSITION, "ball further out")

    assert all_changes(history) == [
        Change(AT, Changed.SHOES, 0),
        Change(AT + timedelta(days=1), Changed.POSITION, 2, "ball further out"),
    ]


@pytest.mark.parametrize(
    ("damage", "ask", "said"),
    [
        (
            "drive SET at_utc = 'soon'",
            all_drives,
            "drive 1: at_utc: expected a date and time, found 'soon'",
        ),
        ("drive SET name = x'00'", all_drives, "drive 1: name: expected text, found b'\\x00'"),
        (
            "drive SET digest = x'00'",
            all_drives,
            "drive 1: digest: expected text, found b'\\x00'",
        ),
        (
            "drive SET seconds = 'long'",
            all_drives,
            "drive 1: seconds: expected a number, found 'long'",
        ),
        (
            "drive SET noise = 'loud'",
            all_drives,
            "drive 1: noise: expected a number or nothing, found 'loud'",
        ),
        (
            "drive SET definition = 0",
            all_drives,
            "drive 1: definition: expected a whole number from 1 to 1000000000, found 0",
        ),
        (
            "drive_blip SET early = 'soon' WHERE number = 1",
            all_drives,
            "blip 1 of drive 1: early: expected a number or nothing, found 'soon'",
        ),
        (
            "drive_blip SET place = 0 WHERE number = 2",
            all_drives,
            "blip 2 of drive 1: place: expected a whole number from 1 to 1000000000, found 0",
        ),
        (
            "drive_blip SET onset = 'late' WHERE number = 1",
            all_drives,
            "blip 1 of drive 1: onset: expected a number, found 'late'",
        ),
        (
            "drive_blip SET dip = 'deep' WHERE number = 3",
            all_drives,
            "blip 3 of drive 1: dip: expected a number or nothing, found 'deep'",
        ),
        (
            "drive_blip SET reason = x'00' WHERE number = 3",
            all_drives,
            "blip 3 of drive 1: reason: expected text, found b'\\x00'",
        ),
        (
            "change SET what = 'mood'",
            all_changes,
            "change 1: what: expected one of 'foot position', 'pedals', 'shoes', 'another kind', "
            "'brake scale', 'pedals set up', found 'mood'",
        ),
        (
            'change SET "after" = -1',
            all_changes,
            "change 1: after: expected a whole number from 0 to 1000000000, found -1",
        ),
        (
            "change SET note = x'00'",
            all_changes,
            "change 1: note: expected text, found b'\\x00'",
        ),
    ],
)
def test_damage_is_said_with_its_place(
    tmp_path: Path, damage: str, ask: Callable[[History], object], said: str
) -> None:
    with open_history(tmp_path, []) as history:
        keep_drive(history, DRIVE)
        mark_change(history, AT, Changed.SHOES)
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute(f"UPDATE {damage}")

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        ask(history)

    assert str(refused.value) == f"{tmp_path / FILE}: {said}"
