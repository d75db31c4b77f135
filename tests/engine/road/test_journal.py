"""A file that is written as things happen: when, whole rows, and what stops it."""

from pathlib import Path

import pytest

from drills.trace import nanoseconds
from engine.road.journal import Journal, JournalError
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit

HEADER = "time,brake,throttle\n"


def rows_at(path: Path) -> str:
    """What stands in the file now."""
    return path.read_text(encoding="utf-8")


def test_the_header_is_there_at_the_first_look(tmp_path: Path) -> None:
    path = tmp_path / "drive.csv"

    with Journal(path, HEADER) as journal:
        journal.add("", 0, busy=False)

        assert rows_at(path) == HEADER


def test_rows_are_in_the_file_after_a_quarter_of_a_second(tmp_path: Path) -> None:
    path = tmp_path / "drive.csv"

    with Journal(path, HEADER) as journal:
        journal.add("a\n", 0, busy=True)
        journal.add("b\n", nanoseconds(0.249), busy=True)
        before = rows_at(path)
        journal.add("c\n", nanoseconds(0.250), busy=True)

        assert (before, rows_at(path)) == (f"{HEADER}a\n", f"{HEADER}a\nb\nc\n")


@pytest.mark.parametrize(
    ("busy", "times", "syncs"),
    [
        (False, (0.0, 0.999), 0),
        (False, (0.0, 1.0), 1),
        (False, (0.0, 1.0, 1.999), 1),
        (False, (0.0, 1.0, 2.0), 2),
        (True, (0.0, 1.0, 9.999), 0),
        (True, (0.0, 1.0, 10.0), 1),
    ],
)
def test_the_disk_is_made_to_keep_it_every_second_and_later_while_that_would_disturb(
    tmp_path: Path, busy: bool, times: tuple[float, ...], syncs: int
) -> None:
    done: list[int] = []

    with Journal(tmp_path / "drive.csv", HEADER, done.append) as journal:
        for time in times:
            journal.add("a\n", nanoseconds(time), busy=busy)

        assert len(done) == syncs

    assert len(done) == syncs + 1


def test_what_is_left_is_written_on_closing(tmp_path: Path) -> None:
    path = tmp_path / "drive.csv"

    with Journal(path, HEADER) as journal:
        journal.add("a\n", 0, busy=False)
        journal.add("b\n", 1, busy=False)

    assert rows_at(path) == f"{HEADER}a\nb\n"


def test_a_file_that_is_there_already_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "drive.csv"
    path.write_text("old", encoding="utf-8")

    with pytest.raises(JournalError) as refused:
        Journal(path, HEADER)

    assert str(refused.value) == f"{path}: expected a new file, found one that is there already"
    assert rows_at(path) == "old"


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "nowhere" / "drive.csv"

    with pytest.raises(JournalError) as refused:
        Journal(path, HEADER)

    said = f"{path}: expected a file to write to, found: No such file or directory"
    assert str(refused.value) == said


@file_size_limit
def test_where_there_is_no_more_room_what_was_written_stays(tmp_path: Path) -> None:
    path = tmp_path / "drive.csv"

    with no_file_longer(30), pytest.raises(JournalError) as refused, Journal(path, HEADER) as file:
        file.add("0.1,2,3\n0.2,3,4\n", 0, busy=False)

    assert str(refused.value) == f"{path}: expected a file to write to, found: File too large"
    assert rows_at(path) == f"{HEADER}0.1,2,3\n0."
