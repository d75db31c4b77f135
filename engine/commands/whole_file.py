"""`write_whole`: writes a file whole or not at all, in the place of the one that is there."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from stat import S_IMODE, S_ISREG

from drills.refusal import Refusal
from engine.errors import reason_of


class FileError(Refusal):
    """A file cannot be written over. The message is one line for the user."""


def write_whole(path: Path, content: bytes, option: str) -> None:
    """Write a file under a fresh name in its folder, and move it to `path` when it is complete.

    However the program ends, the old file is as it was until then. A symbolic link at `path` is
    replaced, not followed; a file is replaced with its mode, and keeps its content under other hard
    links. `option` is that of the command line which names the file. Raises FileError.
    """
    expected = f"{option} {path}: expected a file to write to, found"
    try:
        if path.is_dir():
            raise FileError(f"{expected} a folder")
        if path.exists() and not path.is_file():
            raise FileError(f"{expected} no regular file")
        part = path.with_name(f".stillfoot-{os.urandom(8).hex()}.part")
        try:
            _write(part, content)
            _keep_mode(path, part)
            part.replace(path)
        except BaseException:
            with suppress(OSError):
                part.unlink()
            raise
    except OSError as error:
        raise FileError(f"{expected}: {reason_of(error)}") from error


def _write(part: Path, content: bytes) -> None:
    """Write a new file and have the disk keep it, as a power cut must not leave it empty."""
    with part.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _keep_mode(path: Path, part: Path) -> None:
    """Give the fresh file the mode of the file that it replaces, if it replaces one."""
    with suppress(FileNotFoundError):
        mode = path.lstat().st_mode
        if S_ISREG(mode):
            part.chmod(S_IMODE(mode))
