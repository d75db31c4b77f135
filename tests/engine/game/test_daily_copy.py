"""The day's copy of the history, made in the background of the game."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from engine.five.saved import begin_session, end_session
from engine.game.daily_copy import DailyCopy
from engine.practice.results import SessionKind
from engine.store import DamagedError, History, open_history
from engine.store.copies import FAILED, NO_ROOM, DiskUsage, Usage
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.paced import PacedThread, Pause
from engine.store.remeasure import copy_before
from tests.earlier import LEVELS, PLAYED, make_earlier, played
from tests.engine.game.rigged import Rigged
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit
from tests.store.daily_copies import days_in, disk, fill, practise
from tests.store.whole import names
from tests.stored import dump
from tests.waiting import PATIENCE

BEFORE, TODAY = date(2024, 5, 15), date(2024, 5, 17)
MANY = 2000
"""Number of steps that no copy in these tests takes."""


def paced(work: Callable[[Pause], None]) -> PacedThread:
    """Work that pauses each time it can."""
    return PacedThread(work, lasts=0.0, patience=PATIENCE)


def at_noon(day: date) -> datetime:
    """Noon of a day."""
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


def daily(history: History, usage: DiskUsage = disk()) -> DailyCopy:  # noqa: B008
    """Daily copy of a history, today."""
    return DailyCopy(history, lambda: at_noon(TODAY), usage, paced)


def steps(copy: DailyCopy, count: int = MANY) -> None:
    """Let a still screen wait for some steps."""
    for _ in range(count):
        copy.step()


def five_minutes(history: History, *, over: bool) -> None:
    """Practise five minutes today."""
    number = begin_session(history, SessionKind.FIVE, at_noon(TODAY), 5.0, 1)
    practise(history, TODAY)
    if over:
        end_session(history, number)


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """History without practice."""
    with open_history(tmp_path, []) as history:
        yield history


def test_the_copy_is_made_once_the_five_minutes_are_over(history: History, tmp_path: Path) -> None:
    copy = daily(history)
    steps(copy)
    before = days_in(tmp_path)
    five_minutes(history, over=False)
    steps(copy)
    under_way = days_in(tmp_path)
    end_session(history, 1)
    steps(copy)
    copy.close()

    assert (before, under_way, days_in(tmp_path)) == ([], [], ["2024-05-17"])
    assert dump(tmp_path / "history-copy-2024-05-17.sqlite3") == dump(tmp_path / FILE)


def test_other_practice_is_copied_when_the_player_leaves(history: History, tmp_path: Path) -> None:
    copy = daily(history)
    practise(history, TODAY)
    steps(copy)
    before = days_in(tmp_path)

    copy.finish()

    assert (before, days_in(tmp_path)) == ([], ["2024-05-17"])


def test_what_is_left_of_a_copy_is_made_when_the_player_leaves(
    history: History, tmp_path: Path
) -> None:
    five_minutes(history, over=True)
    fill(history)
    copy = daily(history)
    steps(copy, 6)
    under_way = names(tmp_path)

    copy.finish()

    assert under_way == ["history-copy-2024-05-17.sqlite3.part", LOCK, FILE]
    assert days_in(tmp_path) == ["2024-05-17"]


def test_a_copy_that_was_given_up_is_made_by_the_next_start(
    history: History, tmp_path: Path
) -> None:
    practise(history, BEFORE)
    fill(history)
    copy = daily(history)
    steps(copy, 6)
    copy.close()
    given_up = names(tmp_path)

    following = daily(history)
    steps(following)

    assert given_up == [LOCK, FILE]
    assert days_in(tmp_path) == ["2024-05-15"]


def test_a_copy_of_an_earlier_day_gives_way_to_that_of_today_as_the_player_leaves(
    history: History, tmp_path: Path
) -> None:
    practise(history, BEFORE)
    fill(history)
    copy = daily(history)
    steps(copy, 6)
    practise(history, TODAY)

    copy.finish()

    assert names(tmp_path) == ["history-copy-2024-05-17.sqlite3", LOCK, FILE]


def test_a_copy_is_left_to_the_next_start_where_the_program_is_to_end(
    history: History, tmp_path: Path
) -> None:
    practise(history, TODAY)
    fill(history)

    daily(history).finish(lambda: True)
    ended = names(tmp_path)
    daily(history).finish()

    assert ended == [LOCK, FILE]
    assert days_in(tmp_path) == ["2024-05-17"]


def test_nothing_is_copied_for_a_player_who_did_not_practise(
    history: History, tmp_path: Path
) -> None:
    copy = daily(history)
    steps(copy)
    copy.finish()

    assert names(tmp_path) == [LOCK, FILE]


def test_a_day_has_one_copy_however_often_the_game_is_left(
    history: History, tmp_path: Path
) -> None:
    for _ in range(3):
        practise(history, TODAY)
        daily(history).finish()

    assert names(tmp_path) == ["history-copy-2024-05-17.sqlite3", LOCK, FILE]


@dataclass
class Asked:
    """Disk without room, which counts how often it is asked."""

    times: int = field(default=0)
    """Number of times it was asked for its usage."""

    def usage(self, folder: Path) -> Usage:
        """Usage of the disk."""
        self.times += 1
        return disk(0)(folder)


def test_a_copy_without_room_is_tried_once_and_why_is_saved(
    history: History, tmp_path: Path
) -> None:
    asked = Asked()
    copy = daily(history, asked.usage)
    five_minutes(history, over=True)

    steps(copy)
    practise(history, TODAY)
    steps(copy)
    copy.finish()

    assert asked.times == 1
    assert history.setting(FAILED) == {"day": "2024-05-17", "why": NO_ROOM}
    assert names(tmp_path) == [LOCK, FILE]


@file_size_limit
def test_a_full_disk_costs_the_copy_and_nothing_else(history: History, tmp_path: Path) -> None:
    five_minutes(history, over=True)
    copy = daily(history)

    with no_file_longer(8192):
        steps(copy)
        copy.finish()
    practise(history, TODAY)

    assert names(tmp_path) == [LOCK, FILE]


def test_a_history_that_is_gone_stops_no_game(history: History, tmp_path: Path) -> None:
    five_minutes(history, over=True)
    (tmp_path / "gone").mkdir()
    with history.reading() as db:
        db.execute("DROP TABLE day")
    copy = daily(history)

    steps(copy)
    copy.finish()

    assert days_in(tmp_path) == []


def test_the_game_remeasures_before_it_copies(tmp_path: Path) -> None:
    records = played()
    make_earlier(tmp_path, records, 1)
    with open_history(tmp_path, LEVELS) as history:
        practise(history, BEFORE)
        copy_before(history, TODAY, lambda: None)
    game = Rigged(tmp_path)

    with game.history:
        copy = DailyCopy(game.history, lambda: at_noon(TODAY), disk(), paced)
        playing = game.flow(replace(game.stage, idle=copy.step))
        scene = next(playing)
        for _ in range(len(PLAYED)):
            scene.stage.idle()
        remeasured = days_in(tmp_path)
        for _ in range(MANY):
            scene.stage.idle()
        playing.close()
        copy.close()

    assert remeasured == []
    assert days_in(tmp_path) == ["2024-05-15"]


def test_damage_that_only_the_copy_finds_is_raised_by_what_the_player_does_next(
    history: History, tmp_path: Path
) -> None:
    five_minutes(history, over=True)
    with history.reading() as db:
        page = db.execute("SELECT rootpage FROM sqlite_master WHERE name = 'drive'").fetchone()[0]
        size = db.execute("PRAGMA page_size").fetchone()[0]
    with (tmp_path / FILE).open("r+b") as file:
        file.seek((page - 1) * size)
        file.write(b"\xff" * size)
    copy = daily(history)

    steps(copy)

    assert days_in(tmp_path) == []
    with pytest.raises(DamagedError, match="expected a whole history"):
        history.keep_setting("sound", False)
    assert [what for _, what in history.unwritten] == ["a setting"]
