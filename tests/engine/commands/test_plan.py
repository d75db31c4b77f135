"""The plan of the next five minutes in words and as JSON, and the ways straight into them."""

import json
import re
import sys
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from drills.calibration import Range
from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.commands.main import main
from engine.commands.options import local_now
from engine.five.planner import seed_of
from engine.five.saved import begin_session, end_session, sessions_on
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.practice.results import Purpose, SessionKind
from engine.store import ledger, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.engine.commands.command import LEVEL, Captured, own_level, refused, told, without_display
from tests.made import record
from tests.stored import all_results

KEYS = ["day", "number", "why", "level", "kind", "seconds"]
LEVELS = load_levels([SHIPPED])
FIRST = "still-1-light"


def planned(capsys: Captured, folder: Path, *options: str) -> list[dict[str, Any]]:
    """Each repetition of a plan."""
    text = told(capsys, "plan", "--json", "--data", str(folder), *options)
    return [json.loads(line) for line in text.splitlines()]


def clean(level: str, at: datetime, **changes: Any) -> Any:
    """A clean repetition that passes its level at once."""
    verdict = Verdict(Reason.CLEAN, 60.0)
    kind = next(one.kind.name for one in LEVELS if one.id == level)
    kept = {"rule": PassRule(1, 1), "trace": None, "sampling": None}
    return record(level=level, kind=kind, verdict=verdict, at=at, **kept, **changes)


def bind(folder: Path, *, clutch: bool) -> None:
    """Save pedals in a history whose levels before the clutch are all passed."""
    axes = [
        BoundAxis(Identity("0" * 32, "pedals", 3, 0, 1), axis, Range(-1.0, 1.0))
        for axis in range(3)
    ]
    with open_history(folder, []) as history:
        binding = Binding(axes[0], axes[1], axes[2] if clutch else None)
        history.keep_setting("binding", binding.as_data())
        placed = [one.id for one in LEVELS if not one.id.startswith(("clutch", "mix"))]
        ledger.keep_placed(history, placed)


def test_a_plan_says_what_comes_and_why(capsys: Captured, tmp_path: Path) -> None:
    text = told(capsys, "plan", "--data", str(tmp_path), "--minutes", "1")

    head, *lines = text.splitlines()
    assert re.fullmatch(rf"Today: {len(lines)} repetitions, about (0\.[89]|1\.[012]) minutes", head)
    assert lines[0].split() == ["1", "learning", FIRST, "Light", "and", "still"]
    assert [line[6:19] for line in lines[-3:]] == ["nothing shown"] * 3
    assert [int(line[:4]) for line in lines] == list(range(1, len(lines) + 1))


def test_json_is_one_object_a_line_and_the_same_plan(capsys: Captured, tmp_path: Path) -> None:
    text = told(capsys, "plan", "--data", str(tmp_path))
    lines = planned(capsys, tmp_path)

    assert all(list(one) == KEYS for one in lines)
    assert [one["number"] for one in lines] == list(range(1, len(lines) + 1))
    assert {one["day"] for one in lines} == {local_now().date().isoformat()}
    assert [(one["why"], one["level"]) for one in lines] == [
        (line[6:19].strip(), line[21:].split()[0]) for line in text.splitlines()[1:]
    ]
    kinds = {level.id: level.kind.name for level in LEVELS}
    assert all(one["kind"] == kinds[one["level"]] for one in lines)
    assert abs(sum(one["seconds"] for one in lines) - 300) < 15


@pytest.mark.parametrize("minutes", [1.0, 2.5, 10.0, 60.0])
def test_a_plan_is_as_long_as_asked(capsys: Captured, tmp_path: Path, minutes: float) -> None:
    lines = planned(capsys, tmp_path, "--minutes", str(minutes))

    assert abs(sum(one["seconds"] for one in lines) - 60 * minutes) < 15


@pytest.mark.parametrize("command", ["plan", "five"])
@pytest.mark.parametrize("minutes", ["0", "0.99", "60.5", "-5", "nan", "inf", "many", ""])
def test_a_length_that_cannot_be_is_refused(capsys: Captured, command: str, minutes: str) -> None:
    said = refused(capsys, command, f"--minutes={minutes}")

    assert said == (
        "stillfoot: argument --minutes: expected a number from 1.0 to 60.0, "
        f"found '{minutes}' (see stillfoot {command} --help)\n"
    )


def test_a_plan_without_a_history_makes_nothing(capsys: Captured, tmp_path: Path) -> None:
    folder = tmp_path / "none"

    told(capsys, "plan", "--data", str(folder))

    assert not folder.exists()
    own_level(tmp_path, LEVEL)
    told(capsys, "plan", "--data", str(tmp_path))
    assert [one.name for one in tmp_path.rglob("*") if one.is_file()] == ["own.toml"]


def test_a_plan_begins_nothing_in_a_history_that_is_there(capsys: Captured, tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, clean(FIRST, local_now()))

    told(capsys, "plan", "--data", str(tmp_path))

    with open_history(tmp_path, []) as history:
        assert sessions_on(history, local_now().date()) == []
        assert len(all_results(history)) == 1


def test_what_is_due_is_planned_first(capsys: Captured, tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, clean(FIRST, local_now() - timedelta(days=1)))

    lines = planned(capsys, tmp_path)

    assert [(one["why"], one["level"]) for one in lines[:4]] == [("due", FIRST)] * 4
    assert (lines[4]["why"], lines[4]["level"]) == ("learning", "still-2-firm")


def test_done_for_today_the_plan_is_tomorrow_s(capsys: Captured, tmp_path: Path) -> None:
    now = local_now()
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, now, 5.0, 1)
        add_repetition(history, clean(FIRST, now, why=Purpose.LEARN, session=number, took=9.0))
        end_session(history, number)

    text = told(capsys, "plan", "--data", str(tmp_path))
    lines = planned(capsys, tmp_path)

    assert text.startswith(f"Done for today. Tomorrow: {len(lines)} repetitions, about ")
    assert {one["day"] for one in lines} == {(now.date() + timedelta(days=1)).isoformat()}
    assert (lines[0]["why"], lines[0]["level"]) == ("due", FIRST)


def test_of_those_under_way_the_plan_is_what_is_left(capsys: Captured, tmp_path: Path) -> None:
    now = local_now()
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, now, 5.0, seed_of(now.date()))
        for _ in range(20):
            add_repetition(history, clean(FIRST, now, why=Purpose.LEARN, session=number, took=10.0))

    text = told(capsys, "plan", "--data", str(tmp_path), "--minutes", "30")
    lines = planned(capsys, tmp_path)

    assert text.startswith(f"Left of today: {len(lines)} repetitions, about ")
    assert abs(sum(one["seconds"] for one in lines) - 100) < 15


def test_those_begun_with_nothing_done_are_as_long_as_asked(
    capsys: Captured, tmp_path: Path
) -> None:
    with open_history(tmp_path, []) as history:
        begin_session(history, SessionKind.FIVE, local_now(), 60.0, 1)

    text = told(capsys, "plan", "--data", str(tmp_path), "--minutes", "2")

    assert re.match(r"Today: \d+ repetitions, about (1\.[89]|2\.[012]) minutes\n", text)


@pytest.mark.parametrize("clutch", [True, False])
def test_without_a_clutch_no_level_of_it_is_planned(
    capsys: Captured, tmp_path: Path, clutch: bool
) -> None:
    bind(tmp_path, clutch=clutch)

    lines = planned(capsys, tmp_path, "--minutes", "10")

    assert any(one["kind"] == "clutch" for one in lines) is clutch


def test_a_history_that_is_none_is_refused(capsys: Captured, tmp_path: Path) -> None:
    (tmp_path / FILE).write_text("mine" * 100, encoding="utf-8")

    said = refused(capsys, "plan", "--data", str(tmp_path))

    assert said == (
        f"stillfoot: {tmp_path / FILE}: "
        "expected a history that can be written, found: file is not a database\n"
    )


def test_a_broken_level_of_ones_own_is_named_instead_of_a_plan(
    capsys: Captured, tmp_path: Path
) -> None:
    path = own_level(tmp_path, LEVEL.replace("[60]", "[96]"))

    said = refused(capsys, "plan", "--data", str(tmp_path))

    assert said == f"stillfoot: {path}: targets[0]: expected a number from 10 to 95, found 96\n"


def test_a_level_of_ones_own_that_is_gone_is_not_planned(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL)
    with open_history(tmp_path, []) as history:
        yesterday = local_now() - timedelta(days=1)
        add_repetition(history, record(level="own", kind="blip", at=yesterday, rule=PassRule(1, 1)))
        add_repetition(
            history,
            record(
                level="own",
                kind="blip",
                at=yesterday,
                verdict=Verdict(Reason.CLEAN, 60.0),
                rule=PassRule(1, 1),
            ),
        )
    assert planned(capsys, tmp_path)[0]["level"] == "own"
    path.unlink()

    lines = planned(capsys, tmp_path)

    assert lines
    assert all(one["level"] != "own" for one in lines)


@pytest.mark.parametrize("command", ["plan", "five", "warm-up", "trial"])
def test_help_says_what_each_is_for(capsys: Captured, command: str) -> None:
    code = main([command, "--help"])

    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert out.startswith(f"usage: stillfoot {command} ")
    assert ("--minutes N" in out) == (command in ("plan", "five"))
    assert ("--json" in out) == (command == "plan")


def test_nothing_but_the_plan_is_printed_and_no_display_is_needed(tmp_path: Path) -> None:
    done = without_display("plan", "--json", "--data", str(tmp_path))

    assert (done.returncode, done.stderr) == (0, "")
    assert all(list(json.loads(line)) == KEYS for line in done.stdout.splitlines())


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere a display is there")
@pytest.mark.parametrize("command", ["five", "warm-up", "trial"])
def test_straight_into_it_needs_a_display(tmp_path: Path, command: str) -> None:
    ended = without_display(command, STILLFOOT_DATA=str(tmp_path))

    assert ended.stderr == (
        "stillfoot: no display to open a window on; `stillfoot demo --headless` plays without one\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")


@pytest.mark.parametrize("command", ["five", "warm-up", "trial"])
def test_straight_into_it_a_broken_level_is_named_first(
    capsys: Captured, tmp_path: Path, command: str
) -> None:
    path = own_level(tmp_path, "")

    said = refused(capsys, command, "--data", str(tmp_path))

    assert said.startswith(f"stillfoot: {path}: kind: expected ")
