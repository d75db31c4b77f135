"""The command `stillfoot levels`: the list of levels with their states."""

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.commands.levels import levels_json, levels_text
from engine.ladder.ladder import ladder_stages
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.personal_limit import PersonalLimit
from engine.practice.retention import Retention
from engine.store import ledger, open_history
from engine.store.repetitions import add_repetition
from tests.engine.commands.command import (
    LEVEL,
    ROOT,
    Captured,
    output_of,
    own_level,
    save_binding,
    without_display,
)
from tests.made import record

KEYS = [
    *("id", "title", "stage", "kind", "needs", "pedals", "state", "partly_luck"),
    *("answers", "reach", "asks"),
]
FAULTS = 'answers = ["early", "dip"]\nreach = 0.35\n'
PERSONAL = ["personal_limit", "personal_best", "personal_best_day", "personal_counted"]
NO_LIMIT = (
    ' "personal_limit": null, "personal_best": null, "personal_best_day": null,'
    ' "personal_counted": 0}'
)
CLUTCHED = LEVEL.replace("\nid", '\npedals = ["clutch"]\nid')


def states(capsys: Captured, folder: Path) -> Mapping[str, str]:
    """State of each level by its id, from the command."""
    lines = output_of(capsys, "levels", "--json", "--data", str(folder)).splitlines()
    return {level["id"]: level["state"] for level in map(json.loads, lines)}


def ladder(folder: Path) -> None:
    """Write levels of two stages and of none; the second of the first stage needs the first."""
    for name, identity, more in [
        ("1-still-feet/a.toml", "quiet", ""),
        ("1-still-feet/b.toml", "quieter-still", f'needs = ["quiet"]\n{FAULTS}'),
        ("2-loud/a.toml", "loud", 'pedals = ["clutch"]\n'),
        ("own.toml", "own", ""),
    ]:
        own_level(folder, more + LEVEL.replace('"own"', f'"{identity}"'), name)


def test_levels_are_listed_stage_by_stage_with_their_states(tmp_path: Path) -> None:
    ladder(tmp_path)
    levels = load_levels([tmp_path / "levels"])

    text = levels_text(ladder_stages(levels, frozenset({"quiet"}), frozenset({"loud"})))

    assert text == (
        "still feet: 1 of 2 passed\n"
        "  quiet          blip  passed         Own\n"
        "  quieter-still  blip  open           Own\n"
        "\n"
        "loud: 1 of 1 passed\n"
        "  loud           blip  placed         Own\n"
        "\n"
        "your own: 0 of 1 passed\n"
        "  own            blip  open           Own\n"
    )


def test_json_is_one_object_a_line_for_each_level(tmp_path: Path) -> None:
    ladder(tmp_path)
    levels = load_levels([tmp_path / "levels"])

    text = levels_json(ladder_stages(levels, frozenset(), frozenset()))

    assert text.splitlines()[1:3] == [
        '{"id": "quieter-still", "title": "Own", "stage": "still feet", "kind": "blip",'
        ' "needs": ["quiet"], "pedals": ["brake", "throttle"], "state": "closed",'
        ' "partly_luck": false, "answers": ["early", "dip"], "reach": 0.35, "asks": "",' + NO_LIMIT,
        '{"id": "loud", "title": "Own", "stage": "loud", "kind": "blip",'
        ' "needs": [], "pedals": ["brake", "throttle", "clutch"], "state": "open",'
        ' "partly_luck": false, "answers": [], "reach": 0.5, "asks": "",' + NO_LIMIT,
    ]
    assert text.count("\n") == 4


def test_the_personal_limit_of_a_retained_level_is_listed(tmp_path: Path) -> None:
    ladder(tmp_path)
    levels = load_levels([tmp_path / "levels"])
    retained = Retention(due=date(2024, 5, 17), outlasted=1)
    passed = frozenset({"quiet", "loud"})
    stages = ladder_stages(levels, passed, retention={"quiet": retained})
    limit = PersonalLimit((0.625,) * 36, 0.5, best_day=date(2024, 5, 16))
    personal = {"quiet": limit, "loud": limit}

    text = levels_text(stages, frozenset(), personal)
    first = json.loads(levels_json(stages, frozenset(), personal).splitlines()[0])

    assert text.count("0.62 of the limit, best 0.50") == 1
    assert "retained       Own (0.62 of the limit, best 0.50)" in text
    assert [first[key] for key in PERSONAL] == [0.625, 0.5, "2024-05-16", 36]


def test_every_level_is_listed_in_both_forms_in_the_same_order(
    capsys: Captured, tmp_path: Path
) -> None:
    own_level(tmp_path, LEVEL)
    levels = load_levels([SHIPPED, tmp_path / "levels"])

    text = output_of(capsys, "levels", "--data", str(tmp_path))
    lines = output_of(capsys, "levels", "--json", "--data", str(tmp_path)).splitlines()

    listed = [line.split()[0] for line in text.splitlines() if line.startswith("  ")]
    assert all(list(json.loads(line)) == KEYS + PERSONAL for line in lines)
    assert [json.loads(line)["id"] for line in lines] == listed
    assert sorted(listed) == sorted(level.id for level in levels)
    assert json.loads(lines[-1])["stage"] == "your own"


def test_without_a_history_the_first_levels_are_open_and_no_history_is_created(
    capsys: Captured, tmp_path: Path
) -> None:
    folder = tmp_path / "none"

    found = states(capsys, folder)

    assert found["still-1-light"] == "open"
    assert found["still-2-firm"] == "closed"
    assert not folder.exists()


def test_a_folder_with_levels_alone_gets_no_history(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, CLUTCHED)

    found = states(capsys, tmp_path)

    assert found["own"] == "open"
    assert [file for file in tmp_path.rglob("*") if file.is_file()] == [path]


def test_the_history_says_what_is_passed_and_what_was_placed(
    capsys: Captured, tmp_path: Path
) -> None:
    own_level(tmp_path, "needs = ['blip-0-roll', 'still-1-light']\n" + LEVEL)
    clean = record(level="still-1-light", verdict=Verdict(Reason.CLEAN), rule=PassRule(1, 1))
    with open_history(tmp_path, []) as history:
        add_repetition(history, clean)
        ledger.keep_placed(history, ["blip-0-roll"])

    found = states(capsys, tmp_path)

    assert found["still-1-light"] == "passed"
    assert found["blip-0-roll"] == "placed"
    assert found["own"] == "open"


@pytest.mark.parametrize(("clutch", "state"), [(True, "open"), (False, "no pedal")])
def test_a_level_lacks_its_clutch_where_pedals_without_one_were_saved(
    capsys: Captured, tmp_path: Path, clutch: bool, state: str
) -> None:
    own_level(tmp_path, CLUTCHED)
    save_binding(tmp_path, clutch=clutch)

    assert states(capsys, tmp_path)["own"] == state


def test_pedals_that_cannot_be_understood_count_as_not_set_up(
    capsys: Captured, tmp_path: Path
) -> None:
    own_level(tmp_path, CLUTCHED)
    save_binding(tmp_path, clutch=False)
    with open_history(tmp_path, []) as history:
        history.write(lambda db: db.execute("UPDATE rig SET binding = '7'"))

    assert states(capsys, tmp_path)["own"] == "open"


def test_levels_need_no_display(tmp_path: Path) -> None:
    save_binding(tmp_path, clutch=False)

    done = without_display("levels", "--data", str(tmp_path))

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("stillness: 0 of ")


def test_redirected_output_is_utf_8_whatever_the_code_page_of_the_console(tmp_path: Path) -> None:
    own_level(tmp_path, LEVEL.replace('"Own"', '"Übung für die 踵"'))

    ended = subprocess.run(
        [sys.executable, "-m", "engine", "levels", "--data", str(tmp_path)],
        cwd=ROOT,
        env=os.environ | {"PYTHONIOENCODING": "cp850"},
        capture_output=True,
        check=True,
    )

    assert "  Übung für die 踵\n".encode() in ended.stdout
    assert b"\r" not in ended.stdout


def test_beside_a_history_the_output_is_the_levels_alone(tmp_path: Path) -> None:
    save_binding(tmp_path, clutch=True)
    environment = dict(os.environ)
    environment.pop("PYGAME_HIDE_SUPPORT_PROMPT", None)

    ended = subprocess.run(
        [sys.executable, "-m", "engine", "levels", "--json", "--data", str(tmp_path)],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )

    assert all("id" in json.loads(line) for line in ended.stdout.splitlines())
