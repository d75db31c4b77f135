"""The first start after a change of the definitions: a copy, then remeasuring in the background."""

import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from drills.measures.definition import DEFINITION
from engine.game.remeasuring import BATCH, BackgroundRemeasurer, NotCopied
from engine.practice.remeasuring import Remeasuring
from engine.stage.actions import Action
from engine.stage.scene import Flow, Scene
from engine.store import History, Record, open_history
from engine.store.backup import restore
from engine.store.history import FILE
from engine.store.migrate import migrate
from engine.store.remeasure import copy_before, is_copied, remeasuring
from engine.store.schema import MIGRATIONS
from tests.earlier import (
    EARLIER,
    LEVELS,
    OFF,
    PLAYED,
    change,
    make_earlier,
    measured,
    played,
    rows,
    verdicts,
)
from tests.engine.game.rigged import Rigged
from tests.engine.walking import sit_through
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit

ROOT = Path(__file__).resolve().parents[3]
TIMES = 9
SIZE = TIMES * len(PLAYED)
DAY = date(2024, 5, 17)
ADDS = "ALTER TABLE repetition ADD COLUMN definition INTEGER NOT NULL DEFAULT 1"
"""Step of the migration that brought the definitions."""
COPY = "history-before-remeasuring-2024-05-17.sqlite3"


@pytest.fixture(scope="module")
def records() -> list[Record]:
    """Repetitions that were just played."""
    return played()


@pytest.fixture
def earlier(tmp_path: Path, records: list[Record]) -> Path:
    """Data folder with a history that an earlier definition measured."""
    make_earlier(tmp_path, records, TIMES)
    return tmp_path


def today(folder: Path, records: list[Record], times: int) -> list[tuple[object, ...]]:
    """Measures of the same repetitions by the definition of today."""
    file = make_earlier(folder, records, times)
    change(folder, f"UPDATE measure SET value = value - {OFF}")
    return measured(file)


def works(history: History, steps: int) -> BackgroundRemeasurer:
    """Remeasure in the background for some steps."""
    work = BackgroundRemeasurer(history, LEVELS)
    for _ in range(steps):
        work.step()
    return work


def starts(game: Rigged) -> tuple[Flow[None], Scene]:
    """Start the game, and sit through the copy; returns its flow and the screen after that."""
    playing = game.flow()
    scene = next(playing)
    while scene.screen.name == "copying":
        sit_through(scene, game.clock)
        scene = next(playing)
    return playing, scene


def same(found: list[tuple[object, ...]], wanted: list[tuple[object, ...]]) -> bool:
    """Whether measures are the same, but for how adding and taking away rounds."""
    return [row[:2] for row in found] == [row[:2] for row in wanted] and all(
        one[2] == pytest.approx(other[2], abs=1e-9)
        for one, other in zip(found, wanted, strict=True)
    )


def test_a_copy_is_made_first_and_everything_is_remeasured_while_home_waits(
    earlier: Path, tmp_path: Path, records: list[Record]
) -> None:
    file, game = earlier / FILE, Rigged(earlier)
    before, told = measured(file), verdicts(file)

    with game.history:
        playing, scene = starts(game)
        for _ in range(SIZE):
            scene.stage.idle()
        after, left = measured(file), remeasuring(game.history)
        playing.close()

    assert left is None
    assert same(after, today(tmp_path / "today", records, TIMES))
    assert verdicts(file) == told
    assert measured(earlier / COPY) == before
    assert rows(file, "SELECT DISTINCT definition, fixed FROM repetition") == [(DEFINITION, 0)]


def test_a_game_that_was_left_half_way_goes_on_without_a_second_copy(earlier: Path) -> None:
    game = Rigged(earlier)
    with game.history as history:
        copy_before(history, DAY, lambda: None)
        works(history, BATCH + 3)

    game = Rigged(earlier)
    with game.history:
        before = remeasuring(game.history)
        playing, scene = starts(game)
        for _ in range(SIZE - BATCH):
            scene.stage.idle()
        after = remeasuring(game.history)
        playing.close()

    assert before == Remeasuring(BATCH, SIZE)
    assert after is None
    assert [copy.name for copy in earlier.glob("*before*")] == [COPY]


def test_nothing_is_copied_where_nothing_is_of_an_earlier_definition(
    tmp_path: Path, records: list[Record]
) -> None:
    make_earlier(tmp_path, records, 1)
    change(tmp_path, f"UPDATE repetition SET definition = {DEFINITION}")
    game = Rigged(tmp_path)

    with game.history:
        playing = game.flow()
        name = next(playing).screen.name
        playing.close()

    assert name == "no pedals"
    assert list(tmp_path.glob("*before*")) == []


def test_a_kill_loses_nothing_and_the_work_goes_on_where_it_stopped(
    tmp_path: Path, records: list[Record]
) -> None:
    data, times = tmp_path / "data", 40
    told = verdicts(make_earlier(data, records, times))
    command = [sys.executable, "-m", "tests.engine.game.remeasuring_process", str(data)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        printed = next(int(line) for line in child.stdout if line.strip().isdigit())
        child.kill()

    with open_history(data, []) as history:
        killed = remeasuring(history)
        works(history, times * len(PLAYED))
        done = remeasuring(history)

    assert killed is not None
    assert printed <= killed.done < killed.of == times * len(PLAYED)
    assert killed.done % BATCH == 0
    assert done is None
    assert same(measured(data / FILE), today(tmp_path / "today", records, times))
    assert verdicts(data / FILE) == told


@pytest.mark.parametrize(
    "spoilt",
    [
        "DELETE FROM trace WHERE repetition = 1",
        "UPDATE repetition SET level = 'gone' WHERE id = 1",
        "UPDATE repetition SET kind = 'hold' WHERE id = 1",
        "UPDATE trace SET packed = 'text' WHERE repetition = 1",
        "UPDATE repetition SET cues_ns = 'none' WHERE id = 1",
        "UPDATE repetition SET target = 0 WHERE id = 1",
    ],
    ids=["no trace", "no level", "other kind", "damaged trace", "damaged cues", "no target"],
)
def test_what_cannot_be_remeasured_keeps_its_measures_and_the_work_ends(
    earlier: Path, spoilt: str
) -> None:
    change(earlier, spoilt)
    before = [row for row in measured(earlier / FILE) if row[0] == 1]

    with open_history(earlier, LEVELS) as history:
        copy_before(history, DAY, lambda: None)
        works(history, SIZE)
        left = remeasuring(history)

    of_first = "SELECT definition, fixed FROM repetition WHERE id = 1"
    assert left is None
    assert [row for row in measured(earlier / FILE) if row[0] == 1] == before
    assert rows(earlier / FILE, of_first) == [(EARLIER, 1)]
    assert rows(earlier / FILE, "SELECT count(*) FROM repetition WHERE fixed = 1") == [(1,)]


def test_what_could_not_be_remeasured_is_tried_by_the_next_definition(earlier: Path) -> None:
    change(earlier, "UPDATE repetition SET fixed = 1 WHERE id < 4")

    with open_history(earlier, LEVELS) as history:
        copy_before(history, DAY, lambda: None)
        found = remeasuring(history)

    assert found == Remeasuring(0, SIZE)


@file_size_limit
def test_a_full_disk_is_one_line_and_the_game_goes_on(earlier: Path) -> None:
    before = measured(earlier / FILE)
    game = Rigged(earlier)

    with game.history:
        with no_file_longer(8192):
            playing, scene = starts(game)
        screen = scene.screen
        line = screen.details()["why"]
        screen.on_action(Action.GO)
        following = next(playing)
        following.stage.idle()
        found = remeasuring(game.history)
        playing.close()

    assert isinstance(screen, NotCopied)
    assert str(line).startswith(f"{earlier / COPY}: expected a file to write to, found: ")
    assert "\n" not in str(line)
    assert following.screen.name == "no pedals"
    assert found == Remeasuring(0, SIZE)
    assert measured(earlier / FILE) == before
    assert list(earlier.glob("*before*")) == []


def test_a_history_that_cannot_be_written_stops_the_work_and_not_the_game(earlier: Path) -> None:
    with open_history(earlier, LEVELS, patience=0.0) as history:
        copy_before(history, DAY, lambda: None)
        work = BackgroundRemeasurer(history, LEVELS)
        with closing(sqlite3.connect(earlier / FILE)) as other:
            other.execute("BEGIN IMMEDIATE")
            for _ in range(SIZE):
                work.step()
            other.execute("ROLLBACK")
        work.step()

        assert work.state == Remeasuring(0, SIZE)


def test_no_copy_is_replaced_by_another(earlier: Path) -> None:
    (earlier / COPY).write_text("mine")

    with open_history(earlier, LEVELS) as history:
        copy = copy_before(history, DAY, lambda: None)

    assert copy.name == "history-before-remeasuring-2024-05-17-2.sqlite3"
    assert (earlier / COPY).read_text() == "mine"
    assert measured(copy) == measured(earlier / FILE)


def test_a_restored_copy_is_remeasured_at_the_next_start(earlier: Path, tmp_path: Path) -> None:
    with open_history(earlier, LEVELS) as history:
        copy = copy_before(history, DAY, lambda: None)
        works(history, SIZE)

    restore(copy, tmp_path / "restored", LEVELS)

    with open_history(tmp_path / "restored", LEVELS) as history:
        assert remeasuring(history) == Remeasuring(0, SIZE)
        assert not is_copied(history)


def test_a_history_without_definitions_is_remeasured(
    earlier: Path, tmp_path: Path, records: list[Record]
) -> None:
    before = next(n for n, steps in enumerate(MIGRATIONS) if ADDS in steps)
    older = tmp_path / "older"
    older.mkdir()
    with closing(sqlite3.connect(older / FILE, isolation_level=None)) as db:
        migrate(db, MIGRATIONS[:before])
        db.execute("ATTACH ? AS one", (str(earlier / FILE),))
        for table in ("measure_name", "repetition", "measure", "calibration", "trace"):
            names = ", ".join(row[1] for row in db.execute(f"PRAGMA table_info({table})"))
            db.execute(f"INSERT INTO {table} ({names}) SELECT {names} FROM one.{table}")

    with open_history(older, LEVELS) as history:
        found = remeasuring(history)
        copy_before(history, DAY, lambda: None)
        works(history, SIZE)

    assert found == Remeasuring(0, SIZE)
    assert same(measured(older / FILE), today(tmp_path / "today", records, TIMES))
    marks = "SELECT DISTINCT verdict_definition, definition, fixed FROM repetition"
    assert rows(older / FILE, marks) == [(1, DEFINITION, 0)]
