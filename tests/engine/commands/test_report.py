"""The command `stillfoot report`: text, page and picture, and what it refuses."""

import os
from datetime import timedelta
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.commands.options import local_now
from engine.ladder.level_files import SHIPPED, load_levels
from engine.store import open_history
from engine.store.repetitions import add_repetition
from tests.engine.commands.command import (
    LEVEL,
    Captured,
    output_of,
    own_level,
    refused,
    without_display,
)
from tests.made import record
from tests.needs import links, names_of_bytes

HEADINGS = [
    "Am I getting better?",
    "What holds me back?",
    "How do my blips look?",
    "How deep is the dip?",
    "Do I press what I mean?",
    "What is left to learn?",
    "Which levels are retained?",
    "When did I practise?",
    "What does a blip cost?",
    "Does it go by itself?",
    "Does it transfer to driving?",
]


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder after two days of blips."""
    folder = tmp_path / "data"
    with open_history(folder, []) as history:
        for days_ago, dip in ((1, 20.0), (0, 12.0)):
            for _ in range(7):
                measures = {"dip": dip, "peak": 25.0 + 2.5 * dip, "extra_distance": dip / 10}
                verdict = Verdict(Reason.CLEAN, 80.0, (), measures)
                at = local_now() - timedelta(days=days_ago)
                add_repetition(history, record(verdict=verdict, trace=None, at=at))
    return folder


def reported(capsys: Captured, data: Path, *options: str) -> str:
    """Output of the report."""
    return output_of(capsys, "report", "--data", str(data), *options)


def test_the_text_has_each_picture_of_the_window_in_a_few_narrow_lines(
    capsys: Captured, data: Path
) -> None:
    lines = reported(capsys, data).splitlines()

    now = local_now()
    assert lines[0] == f"stillfoot: progress on {now.day} {now:%b} {now.year}"
    assert [line for line in lines[1:] if line and not line.startswith(" ")] == HEADINGS
    assert max(map(len, lines)) <= 80
    assert f"  0 of {len(load_levels([SHIPPED]))} levels retained." in lines
    assert "  Nothing yet: comes with the first single blips." in lines


def test_a_kind_that_is_too_early_is_said_once(capsys: Captured, data: Path) -> None:
    learning = reported(capsys, data).split("What is left to learn?")[1].split("Which levels")[0]

    assert "One blip: too early to say. No level has five days yet." in learning
    assert "Nothing yet" not in learning


def test_the_text_says_what_was_measured(capsys: Captured, data: Path) -> None:
    output = " ".join(reported(capsys, data).split())

    yesterday, day = local_now() - timedelta(days=1), local_now()
    then, today = (f"{one.day} {one:%b}" for one in (yesterday, day))
    since = then if yesterday.year == day.year else f"{then} {yesterday.year}"
    assert f"Typical dip: 12.0 points on {today}. 20.0 points on {since}." in output
    assert "Typical blip: 75 % throttle at first, then 55 %." in output
    assert "At blips of 60 %: 16.0 at first, then 13.1 points." in output
    assert f"1.2 m more braking on {today}. An estimate. 2.0 m on {since}." in output
    assert output.count("All levels together: no trend.") == 2
    assert f"2 days since {since}. 14 repetitions." in output
    assert "Not sure yet: 0 of 36 blips." in output


def test_the_page_and_the_picture_are_written_over_those_before_and_nothing_else_is(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    page, picture = tmp_path / "a page.html", tmp_path / "a picture.PNG"
    page.write_text("before")

    text = reported(capsys, data, "--html", str(page), "--png", str(picture))

    written = f"\nWritten: {page}\n\nWritten: {picture}\n"
    assert text == reported(capsys, data) + written
    html = page.read_text(encoding="utf-8")
    assert all(f"<h2>{heading}</h2>" in html for heading in HEADINGS)
    assert str(tmp_path) not in html
    head = picture.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    assert [int.from_bytes(head[at : at + 4], "big") for at in (16, 20)] == [1920, 1080]
    assert sorted(file.name for file in tmp_path.iterdir()) == [
        "a page.html",
        "a picture.PNG",
        "data",
    ]


@names_of_bytes
def test_a_stage_name_with_invalid_characters_is_escaped(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    page = tmp_path / "page.html"
    own_level(data, LEVEL, os.fsdecode(b"my \xff stage/own.toml"))

    reported(capsys, data, "--html", str(page))

    assert "my \\udcff stage" in page.read_text(encoding="utf-8")


def test_nothing_in_the_page_turns_the_direction_of_writing(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    page = tmp_path / "page.html"
    own_level(data, LEVEL, "\u202eegats/own.toml")

    reported(capsys, data, "--html", str(page))

    text = page.read_text(encoding="utf-8")
    assert "\\u202eegats" in text
    assert "\u202e" not in text


def test_a_report_needs_no_display(data: Path, tmp_path: Path) -> None:
    picture = tmp_path / "picture.png"

    done = without_display("report", "--data", str(data), "--png", str(picture))

    assert (done.returncode, done.stderr) == (0, "")
    assert picture.exists()


@pytest.mark.parametrize(
    ("option", "name"),
    [("--html", "page.txt"), ("--html", "page"), ("--png", "picture.jpg"), ("--png", "page.html")],
)
def test_a_wrong_file_name_is_refused_before_anything_is_written(
    capsys: Captured, tmp_path: Path, option: str, name: str
) -> None:
    path = tmp_path / name

    error = refused(capsys, "report", "--data", str(tmp_path / "none"), option, str(path))

    assert error == (
        f"stillfoot: {option}: expected a name that ends in .{option[2:]}, found '{path}'\n"
    ) or (len(str(path)) > 60 and error.endswith("...'\n"))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("option", ["--html", "--png"])
def test_a_folder_in_place_of_the_file_is_refused_and_left_as_it_was(
    capsys: Captured, data: Path, tmp_path: Path, option: str
) -> None:
    path = tmp_path / f"folder.{option[2:]}"
    path.mkdir()

    error = refused(capsys, "report", "--data", str(data), option, str(path))

    assert error == (f"stillfoot: {option} {path}: expected a file to write to, found a folder\n")
    assert sorted(file.name for file in tmp_path.iterdir()) == ["data", path.name]


def test_a_missing_folder_is_refused(capsys: Captured, data: Path, tmp_path: Path) -> None:
    path = tmp_path / "nowhere" / "page.html"

    error = refused(capsys, "report", "--data", str(data), "--html", str(path))

    assert error == (
        f"stillfoot: --html {path}: expected a file to write to, found: No such file or directory\n"
    )


def test_a_missing_history_is_reported_in_one_line_and_none_is_created(
    capsys: Captured, tmp_path: Path
) -> None:
    folder = tmp_path / "none"

    error = refused(capsys, "report", "--data", str(folder))

    assert error == f"stillfoot: {folder}: expected a history to report, found none yet\n"
    assert not folder.exists()


def test_a_history_without_practice_is_reported_in_one_line(
    capsys: Captured, tmp_path: Path
) -> None:
    with open_history(tmp_path, []):
        pass

    error = refused(capsys, "report", "--data", str(tmp_path))

    assert error == f"stillfoot: {tmp_path}: expected some practice to report, found none yet\n"


@links
@pytest.mark.parametrize("kind", ["html", "png"])
def test_a_file_of_the_report_is_never_written_through_a_link(
    capsys: Captured, data: Path, tmp_path: Path, kind: str
) -> None:
    target, path = tmp_path / "target", tmp_path / f"report.{kind}"
    target.write_bytes(b"old")
    path.symlink_to(target)

    reported(capsys, data, f"--{kind}", str(path))

    assert not path.is_symlink()
    assert path.stat().st_size > 1000
    assert target.read_bytes() == b"old"
