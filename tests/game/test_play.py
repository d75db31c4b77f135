"""The game end to end in a real window, with virtual pedals plugged into SDL itself."""

import json
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from drills.measures.blip import find_blips
from drills.measures.disturbance import Run, measure_run
from drills.trace import Grid
from engine.store import History
from engine.store.history import FILE
from tests.game.conftest import ROOT, Day, new_data, play
from tests.game.scripts import DIPS


def rows(data: Path, query: str) -> list[tuple[object, ...]]:
    """What a query finds in the history."""
    with sqlite3.connect(data / FILE) as database:
        return database.execute(query).fetchall()


def events(path: Path, name: str) -> list[dict[str, object]]:
    """The events of one name in an events file."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return [event for line in lines if (event := json.loads(line))["event"] == name]


def test_three_blips_by_feet_alone_are_kept_with_the_dips_that_were_made(first_day: Day) -> None:
    assert (first_day.ended.returncode, first_day.ended.stderr) == (0, "")
    dips = rows(first_day.data, "SELECT value FROM measure WHERE name = 'dip' ORDER BY repetition")
    assert [dip for (dip,) in dips] == pytest.approx(list(DIPS), rel=0.01)
    verdicts = rows(
        first_day.data, "SELECT reason, clean, void, source FROM repetition ORDER BY id"
    )
    assert verdicts == [
        ("clean", 1, 0, "pedals"),
        ("clean", 1, 0, "pedals"),
        ("over limit", 0, 0, "pedals"),
    ]
    shown = [event["reason"] for event in events(first_day.events, "verdict")]
    assert shown == ["clean", "clean", "over limit"]


def test_the_raw_trace_that_is_kept_gives_the_same_dip_again(first_day: Day) -> None:
    with History(first_day.data) as history:
        trace, kept = history.trace(3), history.measures(3)

    assert trace is not None
    grid = Grid.of(trace)
    again = measure_run(grid, find_blips(grid))
    assert isinstance(again, Run)
    assert again.dip == kept["dip"]


def test_the_next_start_knows_the_pedals_and_asks_nothing(later: Callable[[str], Day]) -> None:
    day = later("next_day")

    assert (day.ended.returncode, day.ended.stderr) == (0, "")
    assert [event["name"] for event in events(day.events, "screen")] == ["no pedals", "home"]


def test_unplugging_voids_one_repetition_and_replugging_goes_on(
    later: Callable[[str], Day],
) -> None:
    day = later("unplugged")

    assert (day.ended.returncode, day.ended.stderr) == (0, "")
    kept = rows(day.data, "SELECT reason, score IS NULL FROM repetition WHERE id > 3 ORDER BY id")
    assert kept == [("unplugged", 1), ("clean", 0)]
    screens = events(day.events, "screen")
    assert [event["rep"] for event in screens if event["name"] == "repetition"] == [1, 1, 2]


def test_mouse_and_keys_play_a_repetition_without_pedals(
    display: dict[str, str], tmp_path: Path
) -> None:
    if display.get("SDL_VIDEODRIVER") == "dummy":
        pytest.skip("the mouse button is real input only on a real display")
    data = new_data(tmp_path)

    ended = play(display, "mouse_and_keys", data, tmp_path / "events.jsonl")

    assert (ended.returncode, ended.stderr) == (0, "")
    assert rows(data, "SELECT source, reason FROM repetition") == [("mouse", "clean")]


def test_pedals_on_two_devices_of_one_model_are_told_apart(
    display: dict[str, str], tmp_path: Path
) -> None:
    data = new_data(tmp_path)

    ended = play(display, "two_twins", data, tmp_path / "events.jsonl")
    again = play(display, "one_twin_missing", data, tmp_path / "again.jsonl")

    assert (ended.returncode, ended.stderr) == (0, "")
    assert (again.returncode, again.stderr) == (0, "")
    assert rows(data, "SELECT source, reason FROM repetition") == [("pedals", "clean")]
    with History(data) as history:
        trace, binding = history.trace(1), history.setting("binding")
    assert trace is not None
    assert trace.clutch is not None
    places = {
        name: (bound["device"]["ordinal"], bound["device"]["twins"], bound["axis"])
        for name, bound in binding.items()
    }
    assert places == {"brake": (0, 2, 0), "throttle": (1, 2, 0), "clutch": (1, 2, 1)}


def test_the_demo_plays_in_the_window_and_leaves_no_history_behind(
    display: dict[str, str], tmp_path: Path
) -> None:
    log, usual = tmp_path / "events.jsonl", tmp_path / "usual"
    command = [sys.executable, "-m", "engine", "demo", "--reps", "1", "--events", str(log)]

    ended = subprocess.run(
        command,
        env=display | {"STILLFOOT_DATA": str(usual)},
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )

    assert (ended.returncode, ended.stderr) == (0, "")
    assert len(events(log, "verdict")) == 1
    assert not usual.exists()
