"""Files that are written over: whole or not at all, and never through a link."""

import os
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.commands.whole_file import FileError, write_whole
from tests.full_disk import no_file_longer
from tests.needs import closed_files, file_size_limit, links, named_pipe

NEW = b"new"


def test_a_new_file_is_written(tmp_path: Path) -> None:
    path = tmp_path / "page.html"

    write_whole(path, NEW, "--html")

    assert path.read_bytes() == NEW
    assert list(tmp_path.iterdir()) == [path]


def test_an_old_file_is_replaced(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(b"old")

    write_whole(path, NEW, "--html")

    assert path.read_bytes() == NEW
    assert list(tmp_path.iterdir()) == [path]


def test_a_name_as_long_as_names_may_be_is_written(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 250 + ".html")

    write_whole(path, NEW, "--html")

    assert path.read_bytes() == NEW


@links
@pytest.mark.parametrize("there", [True, False])
def test_a_symbolic_link_is_replaced_and_not_followed(tmp_path: Path, there: bool) -> None:
    path, target = tmp_path / "page.html", tmp_path / "target"
    if there:
        target.write_bytes(b"old")
    path.symlink_to(target)

    write_whole(path, NEW, "--html")

    assert not path.is_symlink()
    assert path.read_bytes() == NEW
    assert target.exists() is there
    assert not there or target.read_bytes() == b"old"


@links
def test_the_other_name_of_a_hard_link_keeps_the_old_content(tmp_path: Path) -> None:
    path, other = tmp_path / "page.html", tmp_path / "other"
    other.write_bytes(b"old")
    path.hardlink_to(other)

    write_whole(path, NEW, "--html")

    assert (path.read_bytes(), other.read_bytes()) == (NEW, b"old")


@closed_files
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o644])
def test_a_file_is_replaced_with_its_mode(tmp_path: Path, mode: int) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(b"old")
    path.chmod(mode)

    write_whole(path, NEW, "--html")

    assert stat.S_IMODE(path.stat().st_mode) == mode


@file_size_limit
@pytest.mark.parametrize("old", [b"old", None])
def test_a_full_disk_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, old: bytes | None
) -> None:
    path = tmp_path / "page.html"
    if old is not None:
        path.write_bytes(old)

    with no_file_longer(1000), pytest.raises(FileError) as refused:
        write_whole(path, NEW * 1000, "--html")

    assert str(refused.value) == (
        f"--html {path}: expected a file to write to, found: File too large"
    )
    assert {one.name: one.read_bytes() for one in tmp_path.iterdir()} == (
        {} if old is None else {"page.html": old}
    )


def _folder(path: Path) -> str:
    path.mkdir()
    return "found a folder"


def _missing(path: Path) -> str:
    path.parent.rmdir()
    return "found: No such file or directory"


@pytest.mark.parametrize("make", [_folder, _missing])
def test_a_place_that_cannot_be_written_is_refused(
    tmp_path: Path, make: Callable[[Path], str]
) -> None:
    path = tmp_path / "in" / "page.html"
    path.parent.mkdir()
    found = make(path)

    with pytest.raises(FileError) as refused:
        write_whole(path, NEW, "--html")

    assert str(refused.value) == f"--html {path}: expected a file to write to, {found}"


@named_pipe
def test_a_device_is_never_replaced_even_through_a_link(tmp_path: Path) -> None:
    pipe, path = tmp_path / "pipe", tmp_path / "page.html"
    os.mkfifo(pipe)
    path.symlink_to(pipe)

    with pytest.raises(FileError) as refused:
        write_whole(path, NEW, "--html")

    assert str(refused.value) == (
        f"--html {path}: expected a file to write to, found no regular file"
    )
    assert path.is_symlink()
    assert stat.S_ISFIFO(pipe.stat().st_mode)
