"""Folders of levels on real disks: what cannot be read is named, what is no file left alone."""

import errno
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Literal
from unicodedata import normalize

import pytest

from drills.kinds.asked_size import SIZE, peaks_asked
from drills.level_file import LevelError
from drills.targets import Targets
from engine.ladder.level_files import BAND, LARGEST, SHIPPED, check_level, load_band, load_levels
from engine.practice.blip_size import BLIP
from tests.engine.commands.command import LEVEL, Captured, own_level, refused
from tests.needs import closed_files, endless_file, links, named_pipe, names_of_bytes, short_names
from tests.unprivileged import unprivileged

REGULAR = "the file: expected a regular file of at most 1 MB"


def said_of(folder: Path) -> str:
    """What is said of a folder that is refused."""
    with pytest.raises(LevelError) as told:
        load_levels([folder])
    return str(told.value)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that everybody may look into."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        yield folder
        for inside in (folder, *folder.rglob("*")):
            inside.chmod(0o755)


def test_a_folder_that_is_not_there_holds_no_levels(tmp_path: Path) -> None:
    assert load_levels([tmp_path / "none"]) == []


def test_levels_are_found_in_folders_in_the_folder_in_order(tmp_path: Path) -> None:
    for name, identity in (("b/x.toml", "one"), ("a.toml", "two"), ("a/z.toml", "three")):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(LEVEL.replace('"own"', f'"{identity}"'), encoding="utf-8")
    (tmp_path / "notes.txt").write_text("not a level", encoding="utf-8")

    levels = load_levels([tmp_path])

    assert [level.id for level in levels] == ["three", "two", "one"]


def test_a_byte_order_mark_is_ignored(tmp_path: Path) -> None:
    own_level(tmp_path, "\ufeff" + LEVEL)

    assert [level.id for level in load_levels([tmp_path])] == ["own"]


def test_the_level_of_the_band_is_one_blip_at_one_target_with_what_is_asked_as_its_limits() -> None:
    band = load_band()

    assert (band.id, band.kind.name, band.stage) == ("steadiness-band", "blip", "")
    assert band.targets == Targets((60.0,))
    assert set(band.limits) == {"dip", "surge"}


def test_the_steadiness_drill_and_counting_ask_for_the_size_of_blip_that_is_compared() -> None:
    assert load_band().own[SIZE] == BLIP
    assert peaks_asked(load_band()) == (40.0, 80.0)
    sized = {
        level.kind.name: level.own[SIZE] for level in load_levels([SHIPPED]) if level.own.get(SIZE)
    }
    assert sized == {"counting": BLIP}


def test_the_steadiness_drill_is_not_on_the_ladder() -> None:
    levels = load_levels([SHIPPED])

    assert load_band().id not in {level.id for level in levels}
    assert len(levels) == len(list(SHIPPED.rglob("*.toml"))) - 1


def test_an_own_level_with_the_id_of_the_steadiness_drill_is_refused(tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL.replace('"own"', '"steadiness-band"'))
    said = f"{path}: id: expected an id of its own, found 'steadiness-band' of {BAND} too"

    with pytest.raises(LevelError) as loading:
        load_levels([SHIPPED, tmp_path / "levels"])
    with pytest.raises(LevelError) as checking:
        check_level(path, [SHIPPED, tmp_path / "levels"])

    assert (str(loading.value), str(checking.value)) == (said, said)


def test_no_level_can_need_the_steadiness_drill(tmp_path: Path) -> None:
    path = own_level(tmp_path, 'needs = ["steadiness-band"]' + LEVEL)
    said = f"{path}: needs: expected ids of other levels, found 'steadiness-band'"

    with pytest.raises(LevelError) as loading:
        load_levels([SHIPPED, tmp_path / "levels"])
    with pytest.raises(LevelError) as checking:
        check_level(path, [SHIPPED, tmp_path / "levels"])

    assert (str(loading.value), str(checking.value)) == (said, said)


def test_the_steadiness_drill_can_be_checked_like_any_level() -> None:
    assert check_level(BAND, [SHIPPED]) == load_band()


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_a_stage_has_one_name_however_the_accents_of_its_folder_are_written(
    tmp_path: Path, form: Literal["NFC", "NFD"]
) -> None:
    own_level(tmp_path, LEVEL, normalize(form, "8-ÜBUNG/own.toml"))

    [level] = load_levels([tmp_path / "levels"])

    assert level.stage == normalize("NFC", "ÜBUNG")


def test_what_macos_keeps_beside_a_level_on_a_foreign_disk_is_no_level(tmp_path: Path) -> None:
    own_level(tmp_path, LEVEL)
    own_level(tmp_path, "\0\5\x16\7", "._own.toml")

    assert [level.id for level in load_levels([tmp_path / "levels"])] == ["own"]


@closed_files
@pytest.mark.parametrize("inner", ["", "inside"])
def test_a_folder_that_may_not_be_read_is_named(open_folder: Path, inner: str) -> None:
    closed = open_folder / "levels" / inner
    closed.mkdir(parents=True)
    closed.chmod(0)

    with unprivileged():
        said = said_of(open_folder / "levels")

    assert said == f"{closed}: the folder: expected a readable folder, found Permission denied"


@closed_files
def test_a_data_folder_that_may_not_be_read_is_named(open_folder: Path) -> None:
    (open_folder / "data").mkdir()
    (open_folder / "data").chmod(0)
    levels = open_folder / "data" / "levels"

    with unprivileged():
        said = said_of(levels)

    assert said == f"{levels}: the folder: expected a readable folder, found Permission denied"


@closed_files
def test_a_file_that_may_not_be_read_is_named(open_folder: Path) -> None:
    path = own_level(open_folder, LEVEL)
    path.chmod(0)

    with unprivileged():
        said = said_of(open_folder)

    assert said == f"{path}: the file: expected a readable file, found Permission denied"


@short_names
def test_a_name_that_is_too_long_is_named(capsys: Captured, tmp_path: Path) -> None:
    folder = tmp_path / ("d" * 300)

    said = refused(capsys, "demo", "--headless", "--data", str(folder))

    reason = os.strerror(errno.ENAMETOOLONG)
    assert said == (
        f"stillfoot: {folder / 'levels'}: the folder: expected a readable folder, found {reason}\n"
    )


def test_a_file_where_the_folder_should_be_is_named(tmp_path: Path) -> None:
    path = tmp_path / "levels"
    path.write_text("mine", encoding="utf-8")

    said = said_of(path)

    assert said.startswith(f"{path}: the folder: expected a readable folder, found ")


@links
@pytest.mark.parametrize("name", ["levels", "loop.toml"])
def test_a_link_to_itself_is_named(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.symlink_to(path)

    said = said_of(path if name == "levels" else tmp_path)

    reason = os.strerror(errno.ELOOP)
    what = "folder" if name == "levels" else "file"
    assert said == f"{path}: the {what}: expected a readable {what}, found {reason}"


@links
def test_a_link_to_a_folder_above_is_not_followed(tmp_path: Path) -> None:
    own_level(tmp_path, LEVEL)
    (tmp_path / "levels" / "again").symlink_to(tmp_path)

    assert [level.id for level in load_levels([tmp_path])] == ["own"]


@named_pipe
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "pipe.toml"
    os.mkfifo(path)

    assert said_of(tmp_path) == f"{path}: {REGULAR}, found a pipe"


@endless_file
def test_a_device_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "zero.toml"
    path.symlink_to("/dev/zero")

    assert said_of(tmp_path) == f"{path}: {REGULAR}, found a device"


def test_a_file_over_1_mb_is_not_read(tmp_path: Path) -> None:
    path = own_level(tmp_path, "")
    with path.open("r+b") as file:
        file.truncate(2 * LARGEST)

    assert said_of(tmp_path) == f"{path}: {REGULAR}, found 2.0 MB"


@names_of_bytes
def test_a_name_that_cannot_be_decoded_is_shown_with_escapes(
    capsys: Captured, tmp_path: Path
) -> None:
    own_level(tmp_path, "", name=os.fsdecode(b"gr\xfcn.toml"))

    said = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert said.startswith(f"stillfoot: {tmp_path}/levels/gr\\udcfcn.toml: kind: expected one of ")
    assert said.isascii()
