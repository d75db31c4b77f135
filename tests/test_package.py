"""The parts of the programs that need no Python: icon, zip, licences, and what starts the game."""

import runpy
import stat
import struct
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.needs import links

PACKAGE = Path(__file__).resolve().parents[1] / ".package"
BESIDE = PACKAGE / "beside"
GAME = "stillfoot-game"
"""Name of the program that is the game, without a console."""


def loaded(name: str) -> dict[str, Any]:
    """What a file of `.package` defines."""
    return runpy.run_path(str(PACKAGE / f"{name}.py"))


def test_the_icon_holds_a_whole_picture_of_every_size() -> None:
    content = (PACKAGE / "stillfoot.ico").read_bytes()

    _, kind, count = struct.unpack_from("<HHH", content)
    entries = [struct.unpack_from("<BBBBHHII", content, 6 + 16 * n) for n in range(count)]
    pictures = [content[offset : offset + size] for *_, size, offset in entries]

    assert kind == 1
    assert [struct.unpack_from(">II", picture, 16) for picture in pictures] == [
        (size, size) for size in loaded("icon")["SIZES"]
    ]
    assert all(picture.startswith(b"\x89PNG") for picture in pictures)
    assert all(b"IEND" in picture[-12:] for picture in pictures)


@links
def test_the_zip_keeps_links_and_what_can_be_run(tmp_path: Path) -> None:
    folder = tmp_path / "stillfoot"
    folder.mkdir()
    (folder / "program").write_text("run")
    (folder / "program").chmod(0o755)
    (folder / "link").symlink_to("program")

    loaded("archive")["write_zip"](folder, tmp_path / "packed.zip")

    with zipfile.ZipFile(tmp_path / "packed.zip") as packed:
        modes = {entry.filename: entry.external_attr >> 16 for entry in packed.infolist()}
        assert packed.read("stillfoot/link") == b"program"
    assert modes.keys() == {"stillfoot/program", "stillfoot/link"}
    assert modes["stillfoot/program"] & 0o777 == 0o755
    assert stat.S_ISLNK(modes["stillfoot/link"])


@pytest.mark.parametrize(
    ("name", "licence"),
    [
        ("libSDL2_image-2-6bbdaa8d.0.so.0.2.3", "zlib"),
        ("SDL2.dll", "zlib"),
        ("libz.so.1", "zlib"),
        ("python311.dll", "PSF"),
        ("libopus-0.dll", "BSD, 3 clauses"),
        ("libpulse-simple-4ba3beb5.so.0.1.1", "LGPL 2.1"),
        ("libzebra.so.2", "not known: ask its project"),
    ],
)
def test_the_licence_of_a_library_follows_from_its_name(name: str, licence: str) -> None:
    assert loaded("licences")["licence_of"](name) == licence


def test_what_lies_beside_the_programs_starts_the_game() -> None:
    entry = (BESIDE / "stillfoot.desktop").read_text(encoding="utf-8").splitlines()
    shortcut = (BESIDE / "make-shortcut.js").read_text(encoding="utf-8")

    assert f'Exec="FOLDER/{GAME}"' in entry
    assert f'TargetPath = files.BuildPath(here, "{GAME}.exe")' in shortcut
    assert f'program("{GAME}", "game"' in (PACKAGE / "stillfoot.spec").read_text(encoding="utf-8")
