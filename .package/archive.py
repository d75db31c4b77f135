"""Zip of a folder of programs, the same for the same folder."""

from __future__ import annotations

import stat
import zipfile
from collections.abc import Iterator
from pathlib import Path

DATE = (1980, 1, 1, 0, 0, 0)
"""Date of every file in the zip, so that the same folder makes the same zip."""


def files_in(folder: Path) -> Iterator[Path]:
    """Every file and every link in a folder and below, in a fixed order."""
    yield from sorted(path for path in folder.rglob("*") if path.is_symlink() or path.is_file())


def write_zip(folder: Path, packed: Path) -> None:
    """Zip a folder; links stay links, and programs can be run once it is unpacked."""
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for path in files_in(folder):
            entry = zipfile.ZipInfo(path.relative_to(folder.parent).as_posix(), DATE)
            entry.create_system = 3  # POSIX: the permissions below are read
            entry.external_attr = path.lstat().st_mode << 16
            link = stat.S_ISLNK(path.lstat().st_mode)
            content = str(path.readlink()).encode() if link else path.read_bytes()
            archive.writestr(entry, content, zipfile.ZIP_DEFLATED)
