"""Reader of the level files, shipped and the player's own; checks each and all together."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fnmatch import fnmatch
from pathlib import Path
from unicodedata import normalize

from drills.kinds import KINDS
from drills.level import Kind, Level
from drills.level_file import LevelError, parse_level
from drills.text import TextError, decoded
from engine.errors import reason_of

SHIPPED = Path(__file__).resolve().parents[2] / "levels"
"""Folder of the shipped levels, next to the packages in the source tree and when installed."""
BAND = SHIPPED / "steadiness-band.toml"
"""File of the steadiness drill, which is not a level of the ladder."""
OWN = "levels"
"""Name of the folder, inside the data folder, for levels that the player wrote."""
LARGEST = 1_000_000
"""Largest size of a level file that is read, in bytes: a hundred times what one needs."""

_OTHER = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
}
"""Names of what a path may be instead of a regular file, by its type; some can be read for ever."""


def load_levels(folders: Sequence[Path], kinds: Mapping[str, Kind] = KINDS) -> list[Level]:
    """All levels in the folders, ordered so that each comes after those it needs.

    The steadiness drill is left out, but its id stays taken. A missing folder holds no levels.
    Raises LevelError for the first mistake found.
    """
    levels = _in_folders(folders, kinds)
    return _in_order(_without_the_band(levels))


def load_band() -> Level:
    """The steadiness drill, read from its file. Raises LevelError if the file has a mistake."""
    return _read(BAND, KINDS, "")


def stage_of(path: Path, folder: Path) -> str:
    """Stage of a level file: the name of its folder in words, without the leading number.

    Names are composed, as macOS may give letters and their accents apart.
    """
    inside = normalize("NFC", path.parent.relative_to(folder).name)
    return " ".join(re.sub(r"^\d+[-_. ]*", "", inside).replace("_", "-").split("-")).strip()


def check_level(path: Path, folders: Sequence[Path], kinds: Mapping[str, Kind] = KINDS) -> Level:
    """Read one level file, and check it against all others in the folders.

    Raises LevelError for the first mistake found: in the file, an id that is taken, or a need that
    names no level.
    """
    level = _read(path, kinds, "")
    others = _in_folders(folders, kinds, without=path)
    if level.id in others:
        raise _taken(path, level, others[level.id][1])
    _in_order({level.id: (level, str(path)), **_without_the_band(others)})
    return level


def _in_folders(
    folders: Sequence[Path], kinds: Mapping[str, Kind], without: Path | None = None
) -> dict[str, tuple[Level, str]]:
    """All levels in the folders, each with its file, by id; the file `without` is left out."""
    levels: dict[str, tuple[Level, str]] = {}
    for folder in folders:
        for path in _files(folder):
            if without is not None and _is_same(path, without):
                continue
            level = _read(path, kinds, stage_of(path, folder))
            if level.id in levels:
                raise _taken(path, level, levels[level.id][1])
            levels[level.id] = (level, str(path))
    return levels


def _without_the_band(levels: dict[str, tuple[Level, str]]) -> dict[str, tuple[Level, str]]:
    """These levels, each with its file, by id, without the steadiness drill."""
    return {
        name: (level, file)
        for name, (level, file) in levels.items()
        if not _is_same(Path(file), BAND)
    }


def _taken(path: Path, level: Level, where: str) -> LevelError:
    """Error for a level file at `path` whose id another level file, `where`, uses too."""
    return LevelError(str(path), "id", "an id of its own", f"'{level.id}' of {where} too")


def _is_same(path: Path, other: Path) -> bool:
    """Whether two paths lead to the same file, even if written differently."""
    try:
        return path.samefile(other)
    except OSError:
        return False


def _files(folder: Path) -> list[Path]:
    """Paths of all level files in a folder and the folders inside it, sorted.

    Raises LevelError for a folder that cannot be read.
    """
    files, waiting = [], [folder]
    while waiting:
        inside = waiting.pop()
        try:
            entries = list(os.scandir(inside))
            folders = [Path(entry) for entry in entries if entry.is_dir(follow_symlinks=False)]
        except OSError as error:
            missing = isinstance(error, FileNotFoundError | NotADirectoryError)
            if missing and not inside.exists():
                continue
            fault = reason_of(error)
            raise LevelError(str(inside), "the folder", "a readable folder", fault) from error
        files += [Path(entry) for entry in entries if _is_level(entry.name)]
        waiting += folders
    return sorted(files)


def _is_level(name: str) -> bool:
    """Whether a file of this name is a level; one with "._" is what macOS keeps beside a file."""
    return fnmatch(name, "*.toml") and not name.startswith("._")


def _read(path: Path, kinds: Mapping[str, Kind], stage: str) -> Level:
    """Read and parse one level file. Raises LevelError if it has a mistake."""
    where = str(path)
    try:
        text = decoded(_bytes(path))
    except TextError as error:
        raise LevelError(where, "the file", error.expected, error.found) from error
    except OSError as error:
        raise LevelError(where, "the file", "a readable file", reason_of(error)) from error
    return replace(parse_level(text, where, kinds, stage), is_staircase=_is_same(path, BAND))


def _bytes(path: Path) -> bytes:
    """Content of a level file. Raises OSError, and LevelError if it is not a file or too large."""
    expected = "a regular file of at most 1 MB"
    status = path.stat()
    other = _OTHER.get(stat.S_IFMT(status.st_mode))
    if other is not None:
        raise LevelError(str(path), "the file", expected, other)
    if status.st_size > LARGEST:
        found = f"{status.st_size / 1e6:.1f} MB"
        raise LevelError(str(path), "the file", expected, found)
    return path.read_bytes()


def _in_order(levels: dict[str, tuple[Level, str]]) -> list[Level]:
    """The levels, each after those it needs. Raises LevelError for a missing or circular need."""
    for level, where in levels.values():
        for need in level.needs:
            if need not in levels:
                raise LevelError(where, "needs", "ids of other levels", f"'{need}'")
    ordered: dict[str, Level] = {}
    waiting = {level.id: level for level, _ in levels.values()}
    while waiting:
        ready = (level for level in waiting.values() if all(n in ordered for n in level.needs))
        following = next(ready, None)
        if following is None:
            stuck = next(iter(waiting))
            raise LevelError(levels[stuck][1], "needs", "no circle", ", ".join(waiting))
        ordered[following.id] = waiting.pop(following.id)
    return list(ordered.values())
