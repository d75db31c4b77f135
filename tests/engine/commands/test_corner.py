"""The options of `levels --new zone` that make a level of a corner, and what is refused."""

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drills.kinds import KINDS
from drills.level_file import parse_level
from engine.commands.main import main
from tests.engine.commands.command import LEVEL, Captured, output_of, own_level, refused

CORNER = ("--from", "230", "--to", "90", "--shifts", "3")
SEE = "(see stillfoot levels --help)"


def test_a_corner_is_printed_as_a_level_that_names_it(capsys: Captured) -> None:
    text = output_of(capsys, "levels", "--new", "zone", *CORNER)

    level = parse_level(text, "printed", KINDS)
    assert level.id == "corner-230-90-3"
    assert level.title == "230 to 90, 3 downshifts"
    assert level.purpose == "3 downshifts from 230 km/h to a corner at 90."
    assert (level.own["from"], level.own["to"], level.own["shifts"]) == (230, 90, 3)


def test_a_corner_in_a_file_is_fine_and_its_check_says_what_it_asks(
    capsys: Captured, tmp_path: Path
) -> None:
    path = tmp_path / "mine.toml"

    said = output_of(capsys, "levels", "--new", "zone", *CORNER, "--file", str(path))
    output = output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    # By hand: 230 and 90 km/h are 63.89 and 25 m/s. Easing off for 1 s takes 10 / 2 = 5 m/s, so it
    # begins at 30 m/s, after 3.39 s and (63.89² - 30²) / 20 = 159 m; it takes 30 - 10 / 3 = 27 m.
    # A quarter of the 38.89 m/s is gone after 0.97 s, half after 1.94 s, three after 2.92 s.
    asked = "4.4 s, 186 m; blips at 1.0, 1.9, 2.9 s"
    assert said == f"{path}: a zone level to start from\n"
    assert output == (
        f"{path}: fine: 230 to 90, 3 downshifts, a zone level of 10 a set; "
        f"8 clean of the last 10 pass it; each asks {asked}\n"
    )


def test_a_corner_of_the_player_says_in_json_what_it_asks(capsys: Captured, tmp_path: Path) -> None:
    text = output_of(capsys, "levels", "--new", "zone", "--from", "150", "--shifts", "1")
    own_level(tmp_path, text)

    lines = output_of(capsys, "levels", "--json", "--data", str(tmp_path)).splitlines()

    # By hand: easing off begins at 30 m/s, after (41.67² - 30²) / 20 = 42 m, and takes 27 m more.
    assert json.loads(lines[-1])["asks"] == "2.2 s, 68 m; blip at 0.8 s"


@pytest.mark.parametrize(
    ("corner", "said"),
    [
        (
            "--from 90 --to 120",
            "to: expected less than from = 90, found 120",
        ),
        (
            "--from 95 --to 90",
            "from: expected at least 108, with 1 s of easing off, found 95",
        ),
        (
            "--from 130 --to 90",
            "from: expected speeds that are 2 to 5 s of braking apart, found 1.61 s",
        ),
        (
            "--from 330 --to 80",
            "from: expected speeds that are 2 to 5 s of braking apart, found 7.44 s",
        ),
        (
            "--from 150 --to 90 --shifts 4",
            "shifts: expected blips at least 0.35 s apart, found 0.333 s",
        ),
        (
            "--from 152 --to 90 --shifts 3",
            "shifts: expected the first blip at least 0.45 s after braking, found 0.431 s",
        ),
    ],
)
def test_a_corner_that_makes_no_level_is_refused_by_name(
    capsys: Captured, tmp_path: Path, corner: str, said: str
) -> None:
    path = tmp_path / "mine.toml"

    error = refused(capsys, "levels", "--new", "zone", *corner.split(), "--file", str(path))

    assert error == f"stillfoot: --new zone: {said}\n"
    assert not path.exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("--from 59", "--from: expected a number from 60 to 400, found '59'"),
        ("--from nan", "--from: expected a number from 60 to 400, found 'nan'"),
        ("--to 301", "--to: expected a number from 20 to 300, found '301'"),
        ("--to slow", "--to: expected a number from 20 to 300, found 'slow'"),
        ("--shifts 0", "--shifts: expected a whole number from 1 to 4, found '0'"),
        ("--shifts 2.5", "--shifts: expected a whole number from 1 to 4, found '2.5'"),
        ("--from", "--from: expected one argument"),
    ],
)
def test_an_option_outside_its_range_is_refused(
    capsys: Captured, arguments: str, said: str
) -> None:
    error = refused(capsys, "levels", "--new", "zone", *arguments.split())

    assert error == f"stillfoot: {said} {SEE}\n"


@pytest.mark.parametrize("option", ["--from 200", "--to 100", "--shifts 2"])
@pytest.mark.parametrize("others", ["", "--json", "--new run", "--check mine.toml"])
def test_a_corner_belongs_to_a_new_zone_alone(capsys: Captured, option: str, others: str) -> None:
    error = refused(capsys, "levels", *option.split(), *others.split())

    name = option.split()[0]
    assert error == f"stillfoot: {name}: expected together with --new zone, found without it\n"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    fast=st.floats(60, 400).map(lambda speed: f"{speed:.3f}"),
    slow=st.floats(20, 300).map(lambda speed: f"{speed:.3f}"),
    shifts=st.integers(1, 4),
)
def test_any_corner_is_a_level_of_its_kind_or_refused_in_one_line(
    capsys: Captured, fast: str, slow: str, shifts: int
) -> None:
    arguments = ("--new", "zone", "--from", fast, "--to", slow, "--shifts", str(shifts))

    code = main(["levels", *arguments])
    out, err = capsys.readouterr()

    if code == 0:
        assert parse_level(out, "printed", KINDS).kind is KINDS["zone"]
    else:
        assert (code, out, err.count("\n")) == (2, "", 1)
        assert err.startswith("stillfoot: --new zone: ")


def test_a_corner_never_overwrites_a_file(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL)

    error = refused(capsys, "levels", "--new", "zone", *CORNER, "--file", str(path))

    assert error == f"stillfoot: {path}: expected a new file, found one that is there already\n"
    assert path.read_text(encoding="utf-8") == LEVEL
