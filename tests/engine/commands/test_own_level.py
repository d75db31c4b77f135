"""The commands `levels --check` and `levels --new`, for levels of the player."""

import errno
import os
from pathlib import Path

import pytest

from drills.kinds import KINDS
from engine.ladder.level_files import SHIPPED
from tests.engine.commands.command import LEVEL, Captured, output_of, own_level, refused
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit

FINE = "a blip level of 10 a set; 8 clean of the last 10 pass it"
SEE = "(see stillfoot levels --help)"


@pytest.mark.parametrize("name", ["levels/own.toml", "elsewhere.toml"])
def test_a_valid_level_is_fine_in_any_folder(capsys: Captured, tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(LEVEL, encoding="utf-8")

    output = output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert output == f"{path}: fine: Own, {FINE}\n"


def test_a_level_of_the_data_folder_is_fine_though_another_one_needs_it(
    capsys: Captured, tmp_path: Path
) -> None:
    path = own_level(tmp_path, LEVEL)
    own_level(tmp_path, "needs = ['own']\n" + LEVEL.replace('"own"', '"other"'), "other.toml")

    output = output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert output == f"{path}: fine: Own, {FINE}\n"


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("dip = 15", "dip = 0", "limits.dip: expected a number from 0.001 to 1000, found 0"),
        ("\nid", "\nneeds = ['x']\nid", "needs: expected ids of other levels, found 'x'"),
        ("\nid", "\nneeds = ['own']\nid", "needs: expected no circle, found own"),
        (
            "\nid",
            "\nanswers = ['dip', 'late']\nid",
            "answers: expected a list of words among early, brace, dip, rebound, light, heavy, "
            "big, slow, lost, found 'late'",
        ),
        ("\nid", "\nreach = 0\nid", "reach: expected a number from 0.05 to 1, found 0"),
        ("\nid", "\nwidth = 3\nid", "width: expected one of {}, found an unknown key"),
    ],
)
def test_the_first_mistake_of_a_level_is_named(
    capsys: Captured, tmp_path: Path, before: str, after: str, said: str
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(LEVEL.replace(before, after), encoding="utf-8")
    known = (
        "aid, answers, band, blip, feedback, foreperiod, guess, id, kind, limits, needs, pass, "
        "pedals, placing, purpose, reach, repetitions, summary, targets, title, tolerance"
    )

    found = refused(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert found == f"stillfoot: {path}: {said.format(known)}\n"


@pytest.mark.parametrize("name", ["a.toml", "z.toml"])
def test_a_taken_id_is_named_with_the_file_that_has_it(
    capsys: Captured, tmp_path: Path, name: str
) -> None:
    other = own_level(tmp_path, LEVEL, "m.toml")
    path = own_level(tmp_path, LEVEL, name)

    error = refused(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert (
        error == f"stillfoot: {path}: id: expected an id of its own, found 'own' of {other} too\n"
    )


def test_the_id_of_a_shipped_level_is_taken_too(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL.replace('"own"', '"still-1-light"'))
    shipped = next(SHIPPED.rglob("still-1-light.toml"))

    error = refused(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {path}: id: expected an id of its own, "
        f"found 'still-1-light' of {shipped} too\n"
    )


def test_levels_that_need_each_other_are_reported_for_the_checked_one(
    capsys: Captured, tmp_path: Path
) -> None:
    own_level(tmp_path, "needs = ['own']\n" + LEVEL.replace('"own"', '"other"'), "a.toml")
    path = own_level(tmp_path, "needs = ['other']\n" + LEVEL)

    error = refused(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert error == f"stillfoot: {path}: needs: expected no circle, found own, other\n"


def test_a_missing_file_is_named(capsys: Captured, tmp_path: Path) -> None:
    path = tmp_path / "none.toml"

    error = refused(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {path}: the file: expected a readable file, found No such file or directory\n"
    )


def test_checking_creates_no_files(capsys: Captured, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(LEVEL, encoding="utf-8")

    output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path / "none"))

    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize("kind", list(KINDS))
def test_the_example_of_every_kind_is_fine(capsys: Captured, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "new.toml"

    path.write_text(output_of(capsys, "levels", "--new", kind), encoding="utf-8")

    output = output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path))
    fine = f"fine: My {kind}, a {kind} level of 10 a set; 8 clean of the last 10 pass it"
    assert output.startswith(f"{path}: {fine}")
    assert output.count("\n") == 1


@pytest.mark.parametrize("kind", ["juggle", "", "Blip"])
def test_an_unknown_kind_is_refused(capsys: Captured, kind: str) -> None:
    error = refused(capsys, "levels", "--new", kind)

    kinds = ", ".join(KINDS)
    assert error == f"stillfoot: --new: expected one of {kinds}, found '{kind}' {SEE}\n"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--json", "--new", "hold"], "--new: not allowed with --json"),
        (["--json", "--check", "x"], "--check: not allowed with --json"),
        (["--check", "x", "--new", "hold"], "--new: not allowed with --check"),
        (["--check"], "--check: expected one argument"),
        (["--check", ""], "--check: expected a file, found ''"),
    ],
)
def test_options_that_exclude_each_other_are_refused(
    capsys: Captured, arguments: list[str], said: str
) -> None:
    assert refused(capsys, "levels", *arguments) == f"stillfoot: {said} {SEE}\n"


@pytest.mark.parametrize("kind", list(KINDS))
def test_the_example_written_to_a_file_is_the_one_printed(
    capsys: Captured, tmp_path: Path, kind: str
) -> None:
    path = tmp_path / "mine.toml"

    said = output_of(capsys, "levels", "--new", kind, "--file", str(path))

    assert said == f"{path}: a {kind} level to start from\n"
    assert path.read_bytes() == output_of(capsys, "levels", "--new", kind).encode()


def test_an_example_never_overwrites_a_file(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL)

    error = refused(capsys, "levels", "--new", "blip", "--file", str(path))

    assert error == f"stillfoot: {path}: expected a new file, found one that is there already\n"
    assert path.read_text(encoding="utf-8") == LEVEL


def test_a_file_for_the_example_that_cannot_be_made_is_refused(
    capsys: Captured, tmp_path: Path
) -> None:
    path = tmp_path / "missing" / "mine.toml"

    error = refused(capsys, "levels", "--new", "blip", "--file", str(path))

    reason = os.strerror(errno.ENOENT)
    assert error == f"stillfoot: {path}: expected a file to write to, found: {reason}\n"


@pytest.mark.parametrize("others", [[], ["--json"], ["--check", "x"]])
def test_a_file_without_a_new_level_is_refused(capsys: Captured, others: list[str]) -> None:
    error = refused(capsys, "levels", "--file", "mine.toml", *others)

    assert error == "stillfoot: --file: expected together with --new, found without it\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16-le", "utf-16-be"])
def test_a_level_is_read_in_every_encoding_that_a_shell_redirects_to(
    capsys: Captured, tmp_path: Path, encoding: str
) -> None:
    path = tmp_path / "mine.toml"
    mark = "\ufeff" if encoding.startswith("utf-16") else ""
    text = output_of(capsys, "levels", "--new", "blip").replace("\n", "\r\n")
    path.write_bytes((mark + text).encode(encoding))

    output = output_of(capsys, "levels", "--check", str(path), "--data", str(tmp_path))

    assert output == f"{path}: fine: My blip, {FINE}\n"


@file_size_limit
def test_a_full_disk_leaves_no_part_of_an_example(capsys: Captured, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"

    with no_file_longer(100):
        error = refused(capsys, "levels", "--new", "blip", "--file", str(path))

    assert error == (
        f"stillfoot: {path}: expected a file to write to, found: {os.strerror(errno.EFBIG)}\n"
    )
    assert not path.exists()
