"""The command line: exit codes, help, and one line for every error."""

import errno
import os
from argparse import ArgumentParser
from pathlib import Path

import pytest

from engine import __version__
from engine.commands.main import main
from engine.commands.more_help import MORE, Lines
from engine.commands.table import COMMANDS, Command
from tests.engine.commands.command import LEVEL, Captured, own_level, refused, without_display
from tests.needs import display_to_miss


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--reps", "0"], "--reps: expected a whole number from 1 to 10000, found '0'"),
        (
            ["--reps", "2.5"],
            "--reps: expected a whole number from 1 to 10000, found '2.5'",
        ),
        (["--skill", "2"], "--skill: expected a number from 0.0 to 1.0, found '2'"),
        (["--skill", "nan"], "--skill: expected a number from 0.0 to 1.0, found 'nan'"),
        (
            ["--seed", "-1"],
            "--seed: expected a whole number from 0 to 9223372036854775807, found '-1'",
        ),
        (["--level"], "--level: expected one argument"),
        (
            ["--reps", "9" * 5000],
            f"--reps: expected a whole number from 1 to 10000, found '{'9' * 60}...'",
        ),
        (["--data", "a\0b"], "--data: expected a folder, found 'a\\x00b'"),
        (["--events", "a\0b"], "--events: expected a file, found 'a\\x00b'"),
        (["--events", ""], "--events: expected a file, found ''"),
    ],
)
def test_an_option_out_of_range_is_refused(
    capsys: Captured, arguments: list[str], said: str
) -> None:
    assert refused(capsys, "demo", *arguments) == f"stillfoot: {said} (see stillfoot demo --help)\n"


@pytest.mark.parametrize("option", ["--bogus", "--head"])
def test_an_unknown_or_shortened_option_is_refused(capsys: Captured, option: str) -> None:
    error = refused(capsys, "demo", option)

    assert error == f"stillfoot: unrecognized arguments: {option} (see stillfoot --help)\n"


def test_an_error_shows_only_the_beginning_of_a_long_argument(capsys: Captured) -> None:
    error = refused(capsys, "demo", "--headless", "j" * 5000)

    assert error == (f"stillfoot: unrecognized arguments: {'j' * 476}... (see stillfoot --help)\n")


def test_an_unknown_command_is_refused_with_a_list_of_commands(capsys: Captured) -> None:
    error = refused(capsys, "jump")

    names = [command.name for command in COMMANDS]
    # argparse quotes them before Python 3.12.
    ways = [", ".join(map(repr, names)), ", ".join(names)]
    assert error in [
        f"stillfoot: COMMAND: invalid choice: 'jump' (choose from {way}) (see stillfoot --help)\n"
        for way in ways
    ]


@pytest.mark.parametrize(
    "size",
    ["nonsense", "1e9x2", "639x360", "640x359", "640", "640x360x2", "99999x360", "-1280x-720", "x"],
)
def test_an_invalid_size_of_the_window_is_refused(capsys: Captured, size: str) -> None:
    error = refused(capsys, f"--window={size}")

    assert error == (
        "stillfoot: --window: expected WIDTHxHEIGHT of at least 640x360, "
        f"found '{size}' (see stillfoot --help)\n"
    )


def test_an_unknown_level_is_refused_and_the_list_of_levels_named(capsys: Captured) -> None:
    error = refused(capsys, "demo", "--headless", "--level", "handstand")

    assert error == (
        "stillfoot: --level: expected the id of a level, as stillfoot levels lists them, "
        "found 'handstand'\n"
    )


@pytest.mark.parametrize("command", COMMANDS, ids=[command.name for command in COMMANDS])
def test_every_command_of_the_table_prints_its_own_help(capsys: Captured, command: Command) -> None:
    code = main([command.name, "--help"])

    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert out.startswith(f"usage: stillfoot {command.name} ")
    assert " ".join(command.says.split()) in " ".join(out.split())


def test_a_help_ends_with_what_more_there_is_to_say_each_line_by_itself(capsys: Captured) -> None:
    assert set(MORE) <= {command.name for command in COMMANDS}

    for name, more in MORE.items():
        main([name, "--help"])
        out, _ = capsys.readouterr()
        assert " ".join(out.split()).endswith(" ".join(more.split()))
        assert {line[:20] for line in more.splitlines()} <= {line[:20] for line in out.splitlines()}


def test_a_long_line_of_a_help_is_indented_below_its_item() -> None:
    parser = ArgumentParser("x", formatter_class=Lines, epilog=f"- {'word ' * 30}\n- next")

    [first, second, *_, last] = parser.format_help().split("\n\n")[-1].splitlines()

    assert (first[:6], second[:6], last) == ("- word", "  word", "- next")


def test_json_without_headless_is_refused(capsys: Captured) -> None:
    error = refused(capsys, "demo", "--json")

    assert error == "stillfoot: --json: expected together with --headless, found without it\n"


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_version_exit_with_code_0(capsys: Captured, option: str) -> None:
    code = main([option])

    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert out.startswith(
        "usage: stillfoot " if option == "--help" else f"stillfoot {__version__}\n"
    )


@pytest.mark.parametrize(
    "arguments", [["--data", "D", "demo", "--headless"], ["demo", "--headless", "--data", "D"]]
)
def test_common_options_stand_before_or_after_the_command(
    capsys: Captured, tmp_path: Path, arguments: list[str]
) -> None:
    path = own_level(tmp_path, "")
    given = [str(tmp_path) if part == "D" else part for part in arguments]

    error = refused(capsys, *given)

    assert error.startswith(f"stillfoot: {path}: kind: expected ")


def test_the_environment_names_the_data_folder(
    capsys: Captured, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = own_level(tmp_path, LEVEL + "colour = 1")
    monkeypatch.setenv("STILLFOOT_DATA", str(tmp_path))

    error = refused(capsys)

    assert error.startswith(f"stillfoot: {path}: colour: expected one of aid, answers, band, ")
    assert error.endswith(", found an unknown key\n")


def test_the_option_overrides_the_environment(
    capsys: Captured, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own_level(tmp_path / "environment", "")
    path = own_level(tmp_path / "option", "")
    monkeypatch.setenv("STILLFOOT_DATA", str(tmp_path / "environment"))

    error = refused(capsys, "--data", str(tmp_path / "option"))

    assert error.startswith(f"stillfoot: {path}: kind: expected ")


def test_a_demo_without_a_folder_does_not_touch_the_data_of_the_player(
    capsys: Captured, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STILLFOOT_DATA", str(tmp_path))

    code = main(["demo", "--headless", "--reps", "1"])

    assert code == 0
    assert capsys.readouterr().err == ""
    assert list(tmp_path.iterdir()) == []


def test_an_events_file_that_cannot_be_written_is_refused(tmp_path: Path) -> None:
    events = tmp_path / "missing" / "events.jsonl"

    ended = without_display("--data", str(tmp_path), "--events", str(events))

    reason = os.strerror(errno.ENOENT)
    assert ended.stderr == (
        f"stillfoot: --events {events}: expected a file to write to, found: {reason}\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")


@display_to_miss
@pytest.mark.parametrize("arguments", [[], ["demo"]])
def test_without_a_display_one_line_names_the_headless_demo(
    tmp_path: Path, arguments: list[str]
) -> None:
    ended = without_display(*arguments, STILLFOOT_DATA=str(tmp_path))

    assert ended.stderr == (
        "stillfoot: no display to open a window on; `stillfoot demo --headless` plays without one\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")
