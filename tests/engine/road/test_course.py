"""Course of drives beside the drills: which drives are in it, and what the drills are by then."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from drills.calibration import Range
from drills.measures.definition import DEFINITION
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.practice.changes import Changed
from engine.practice.course import Course
from engine.road.blips import RoadBlip
from engine.road.course import MOST_DRIVES, NO_DRIVES, RoadCourse, drive_days, road_course
from engine.road.drive import Drive
from engine.road.saved import keep_drive
from engine.road.summary import Middle
from engine.setup.saved_rigs import add_rig
from engine.store import History, open_history
from engine.store.changes import all_changes, mark_change

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
BOUND = BoundAxis(Identity("ab" * 14, "Quiet", 2, 0, 1), 0, Range(-1.0, 1.0))


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def drive(ago: int, *dips: float) -> Drive:
    """A drive so many days ago, with blips of these dips."""
    blips = tuple(RoadBlip(1, place, 1.0, 60.0, dip) for place, dip in enumerate(dips, start=1))
    return Drive(NOON - timedelta(days=ago), f"{ago}.csv", f"{ago:064d}", 60.0, blips)


def course(values: Mapping[tuple[int, int], float]) -> Course:
    """Three repetitions after the warm-up for each level and days before noon, all alike."""
    rows = [
        (NOON.date().toordinal() - ago, 6 + place, value, level)
        for (level, ago), value in values.items()
        for place in range(3)
    ]
    day, place, value, level = zip(*sorted(rows), strict=True)
    return Course(
        np.arange(1, len(rows) + 1, dtype=np.int64),
        np.array(day, dtype=np.int64),
        np.array(place, dtype=np.int64),
        np.array(value, dtype=np.float64),
        np.array(level, dtype=np.int64),
    )


def read(history: History) -> RoadCourse:
    """The course in a history."""
    return road_course(history, all_changes(history))


def test_each_drive_has_its_median_and_its_middle_half_in_order_of_time() -> None:
    days = drive_days([drive(2, 4.0, 6.0, 12.0), drive(9, 5.0), drive(4)], {})

    assert [one.day for one in days] == [(NOON - timedelta(days=ago)).date() for ago in (9, 2)]
    assert days[1].road == Middle(3, 6.0, 5.0, 9.0)
    assert days[1].drills == {}


def test_the_drills_are_those_of_the_last_ten_days_with_practice_up_to_the_drive() -> None:
    # From the fourth day of the level on, each day 2 % less than the one before.
    values = {(1, ago): 10 * 0.98 ** (60 - ago) for ago in range(60, 0, -3)}

    [early, late] = drive_days([drive(30, 9.0), drive(0, 9.0)], {"trail": course(values)})

    for day, last in ((early, 30), (late, 3)):
        ten = [value for (_, ago), value in values.items() if last <= ago <= 51][-10:]
        assert day.drills["trail"] == pytest.approx(float(np.exp(np.mean(np.log(ten)))))


def test_a_harder_level_that_comes_later_is_not_taken_for_a_worse_foot() -> None:
    # Every day the same foot; its second level reads twice as much and is played alone at last.
    days = {(1, ago): 5.0 for ago in range(40, 9, -1)} | {
        (2, ago): 10.0 for ago in range(20, 0, -1)
    }

    [early, late] = drive_days([drive(25, 9.0), drive(0, 9.0)], {"trail": course(days)})

    assert early.drills["trail"] == pytest.approx(late.drills["trail"]) == pytest.approx(10.0)


def test_there_are_no_drills_beside_a_drive_in_the_first_three_days_of_a_level() -> None:
    values = {(1, ago): 5.0 for ago in range(9, 4, -1)}

    [early, late] = drive_days([drive(7, 9.0), drive(6, 9.0)], {"trail": course(values)})

    assert early.drills == {}
    assert late.drills["trail"] == pytest.approx(5.0)


def test_the_newest_drives_are_taken_where_they_are_many() -> None:
    drives = [drive(ago, 5.0) for ago in range(MOST_DRIVES + 5)]

    days = drive_days(drives, {})

    assert len(days) == MOST_DRIVES
    assert days[-1].day == NOON.date()


def test_a_history_without_drives_has_no_course(history: History) -> None:
    assert read(history) == NO_DRIVES


def test_drives_of_other_pedals_scales_and_definitions_are_left_out_and_counted(
    history: History,
) -> None:
    first = add_rig(history, Binding(BOUND, BOUND))
    keep_drive(history, drive(9, 5.0))
    add_rig(history, Binding(BOUND, BOUND))
    keep_drive(history, drive(8, 6.0))
    mark_change(history, NOON - timedelta(days=7), Changed.SCALE, rig=first + 1)
    mark_change(history, NOON - timedelta(days=6), Changed.SHOES)
    keep_drive(history, drive(5, 7.0))
    keep_drive(history, replace(drive(4, 8.0), definition=DEFINITION - 1))

    found = read(history)

    assert [one.road.dip for one in found.drives] == [7.0]
    assert (found.older, found.other_rigs, found.other_scale) == (1, 1, 1)
