"""The commands `plan`, `five`, `warm-up` and `trial`: the plan, help and errors."""

import json
import re
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.commands.main import main
from engine.commands.options import local_now
from engine.five.planner import seed_of
from engine.five.saved import begin_session, end_session, sessions_on
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.results import Purpose, SessionKind
from engine.store import ledger, open_history
from engine.store.repetitions import add_repetition
from tests.engine.commands.command import (
    LEVEL,
    Captured,
    output_of,
    own_level,
    refused,
    save_binding,
    without_display,
)
from tests.made import record
from tests.needs import display_to_miss
from tests.stored import all_results

KEYS = ["day", "number", "why", "level", "kind", "seconds", "reason"]
LEVELS = load_levels([SHIPPED])
FIRST = "still-1-light"


def planned(capsys: Captured, folder: Path, *options: str) -> list[dict[str, Any]]:
    """Repetitions of a plan, from its JSON."""
    text = output_of(capsys, "plan", "--json", "--data", str(folder), *options)
    return [json.loads(line) for line in text.splitlines()]


def clean(level: str, at: datetime, **changes: Any) -> Any:
    """Record of a clean repetition that passes its level at once."""
    verdict = Verdict(Reason.CLEAN, 60.0)
    kind = next(other.kind.name for other in LEVELS if other.id == level)
    fields: dict[str, Any] = {"rule": PassRule(1, 1), "trace": None, "sampling": None}
    return record(level=level, kind=kind, verdict=verdict, at=at, **fields, **changes)


def bind(folder: Path, *, clutch: bool) -> None:
    """Save a binding in a history in which all levels before the clutch are passed."""
    save_binding(folder, clutch=clutch)
    with open_history(folder, []) as history:
        placed = [level.id for level in LEVELS if not level.id.startswith(("clutch", "mix"))]
        ledger.keep_placed(history, placed)


def test_a_plan_says_what_comes_and_why(capsys: Captured, tmp_path: Path) -> None:
    text = output_of(capsys, "plan", "--data", str(tmp_path), "--minutes", "1")

    head, *lines = text.splitlines()
    assert re.fullmatch(rf"Today: {len(lines)} repetitions, about (0\.[89]|1\.[012]) minutes", head)
    assert lines[0].split() == ["1", "new:", "Light", "and", "still", FIRST]
    assert lines[-1].split() == [
        f"{len(lines)}",
        "nothing",
        "shown",
        FIRST,
        "Light",
        "and",
        "still",
    ]
    assert [line[6:19] for line in lines[-3:]] == ["nothing shown"] * 3
    assert [int(line[:4]) for line in lines] == list(range(1, len(lines) + 1))


def test_json_is_one_object_a_line_and_the_same_plan(capsys: Captured, tmp_path: Path) -> None:
    text = output_of(capsys, "plan", "--data", str(tmp_path))
    lines = planned(capsys, tmp_path)

    assert all(list(line) == KEYS for line in lines)
    assert [line["number"] for line in lines] == list(range(1, len(lines) + 1))
    assert {line["day"] for line in lines} == {local_now().date().isoformat()}
    assert [[line["reason"], line["level"]] for line in lines] == [
        re.split(" {2,}", line)[2:4] for line in text.splitlines()[1:]
    ]
    assert {line["why"]: line["reason"] for line in lines if line["level"] == FIRST} == {
        "new": "new: Light and still",
        "revision": "revision: Light and still",
        "nothing shown": "nothing shown",
    }
    kinds = {level.id: level.kind.name for level in LEVELS}
    assert all(line["kind"] == kinds[line["level"]] for line in lines)
    assert abs(sum(line["seconds"] for line in lines) - 300) < 15


@pytest.mark.parametrize("minutes", [1.0, 2.5, 10.0, 60.0])
def test_a_plan_is_as_long_as_asked(capsys: Captured, tmp_path: Path, minutes: float) -> None:
    lines = planned(capsys, tmp_path, "--minutes", str(minutes))

    assert abs(sum(line["seconds"] for line in lines) - 60 * minutes) < 15


@pytest.mark.parametrize("command", ["plan", "five"])
@pytest.mark.parametrize("minutes", ["0", "0.99", "60.5", "-5", "nan", "inf", "many", ""])
def test_an_invalid_length_is_refused(capsys: Captured, command: str, minutes: str) -> None:
    error = refused(capsys, command, f"--minutes={minutes}")

    assert error == (
        "stillfoot: --minutes: expected a number from 1.0 to 60.0, "
        f"found '{minutes}' (see stillfoot {command} --help)\n"
    )


def test_a_plan_without_a_history_creates_nothing(capsys: Captured, tmp_path: Path) -> None:
    folder = tmp_path / "none"

    output_of(capsys, "plan", "--data", str(folder))

    assert not folder.exists()
    own_level(tmp_path, LEVEL)
    output_of(capsys, "plan", "--data", str(tmp_path))
    assert [path.name for path in tmp_path.rglob("*") if path.is_file()] == ["own.toml"]


def test_a_plan_begins_no_session_in_an_existing_history(capsys: Captured, tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, clean(FIRST, local_now()))

    output_of(capsys, "plan", "--data", str(tmp_path))

    with open_history(tmp_path, []) as history:
        assert sessions_on(history, local_now().date()) == []
        assert len(all_results(history)) == 1


def test_due_levels_are_planned_first(capsys: Captured, tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, clean(FIRST, local_now() - timedelta(days=1)))

    lines = planned(capsys, tmp_path)

    assert [(line["why"], line["level"]) for line in lines[:4]] == [("check-up", FIRST)] * 4
    assert {line["reason"] for line in lines[:4]} == {"check-up: 1 day later"}
    assert (lines[4]["why"], lines[4]["level"]) == ("new", "still-2-firm")


def test_after_today_s_session_the_plan_is_for_tomorrow(capsys: Captured, tmp_path: Path) -> None:
    now = local_now()
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, now, 5.0, 1)
        add_repetition(history, clean(FIRST, now, why=Purpose.LEARN, session=number, took=9.0))
        end_session(history, number)

    text = output_of(capsys, "plan", "--data", str(tmp_path))
    lines = planned(capsys, tmp_path)

    assert text.startswith(f"Done for today. Tomorrow: {len(lines)} repetitions, about ")
    assert text.splitlines()[0].endswith(" minutes, check-ups: 1")
    assert {line["day"] for line in lines} == {(now.date() + timedelta(days=1)).isoformat()}
    assert (lines[0]["why"], lines[0]["level"]) == ("check-up", FIRST)


def test_the_plan_of_a_begun_session_is_the_rest_of_it(capsys: Captured, tmp_path: Path) -> None:
    now = local_now()
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, now, 5.0, seed_of(now.date()))
        for _ in range(20):
            add_repetition(history, clean(FIRST, now, why=Purpose.LEARN, session=number, took=10.0))

    text = output_of(capsys, "plan", "--data", str(tmp_path), "--minutes", "30")
    lines = planned(capsys, tmp_path)

    assert text.startswith(f"Left of today: {len(lines)} repetitions, about ")
    assert abs(sum(line["seconds"] for line in lines) - 100) < 15


def test_the_plan_of_a_session_without_repetitions_is_as_long_as_asked(
    capsys: Captured, tmp_path: Path
) -> None:
    with open_history(tmp_path, []) as history:
        begin_session(history, SessionKind.FIVE, local_now(), 60.0, 1)

    text = output_of(capsys, "plan", "--data", str(tmp_path), "--minutes", "2")

    assert re.match(r"Today: \d+ repetitions, about (1\.[89]|2\.[012]) minutes\n", text)


@pytest.mark.parametrize("clutch", [True, False])
def test_without_a_clutch_no_clutch_level_is_planned(
    capsys: Captured, tmp_path: Path, clutch: bool
) -> None:
    bind(tmp_path, clutch=clutch)

    lines = planned(capsys, tmp_path, "--minutes", "10")

    assert any(line["kind"] == "clutch" for line in lines) is clutch


def test_a_deleted_level_of_the_player_is_not_planned(capsys: Captured, tmp_path: Path) -> None:
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
    assert all(line["level"] != "own" for line in lines)


@pytest.mark.parametrize("command", ["plan", "five", "warm-up", "trial"])
def test_help_lists_the_options_of_each_command(capsys: Captured, command: str) -> None:
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


@display_to_miss
@pytest.mark.parametrize("command", ["five", "warm-up", "trial"])
def test_without_a_display_a_session_is_refused(tmp_path: Path, command: str) -> None:
    ended = without_display(command, STILLFOOT_DATA=str(tmp_path))

    assert ended.stderr == (
        "stillfoot: no display to open a window on; `stillfoot demo --headless` plays without one\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")


@pytest.mark.parametrize("command", ["five", "warm-up", "trial"])
def test_a_broken_level_is_named_before_a_window_opens(
    capsys: Captured, tmp_path: Path, command: str
) -> None:
    path = own_level(tmp_path, "")

    error = refused(capsys, command, "--data", str(tmp_path))

    assert error.startswith(f"stillfoot: {path}: kind: expected ")
