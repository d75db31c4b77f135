"""The levels that ship with the game and the player's own, checked as a whole."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Mapping, Sequence
from fnmatch import fnmatch
from pathlib import Path

from drills.kinds import KINDS
from drills.level import Kind, Level
from drills.level_file import LevelError, parse_level

SHIPPED = Path(__file__).resolve().parents[2] / "levels"
"""The folder of levels beside this package, in the source tree and when installed."""
BAND = SHIPPED / "steadiness-band.toml"
"""The level that the steadiness band is measured in: no rung of the ladder."""
OWN = "levels"
"""Name of the folder of the player's own levels in the data folder."""
LARGEST = 1_000_000
"""bytes, a level file: a hundred times what one needs."""

_OTHER = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
}
"""What may be there in the place of a regular file; some of them can be read for ever."""


def load_levels(folders: Sequence[Path], kinds: Mapping[str, Kind] = KINDS) -> list[Level]:
    """Every level in the folders, in an order where each comes after those it needs.

    The level of the steadiness band is none of them, and only keeps its id. A folder that is not
    there holds none. Raises LevelError for the first mistake found.
    """
    found = _in_folders(folders, kinds)
    return _in_order(_without_the_band(found))


def load_band() -> Level:
    """The level that the steadiness band is measured in. Raises LevelError where it is spoilt."""
    return _read(BAND, KINDS, "")


def stage_of(path: Path, folder: Path) -> str:
    """The stage of a level file: its own folder's name in words, without a number before it."""
    inside = path.parent.relative_to(folder)
    return " ".join(re.sub(r"^\d+[-_. ]*", "", inside.name).replace("_", "-").split("-")).strip()


def check_level(path: Path, folders: Sequence[Path], kinds: Mapping[str, Kind] = KINDS) -> Level:
    """One level file by itself, then beside the others in the folders; it may be in one of them.

    Raises LevelError for the first mistake found, an id that is taken or a need that is none.
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
    """Every level in the folders by its id, with its file; none from the file `without`."""
    found: dict[str, tuple[Level, str]] = {}
    for folder in folders:
        for path in _files(folder):
            if without is not None and _is_same(path, without):
                continue
            level = _read(path, kinds, stage_of(path, folder))
            if level.id in found:
                raise _taken(path, level, found[level.id][1])
            found[level.id] = (level, str(path))
    return found


def _without_the_band(found: dict[str, tuple[Level, str]]) -> dict[str, tuple[Level, str]]:
    """Those levels that can be climbed, needed and drawn."""
    return {name: one for name, one in found.items() if not _is_same(Path(one[1]), BAND)}


def _taken(path: Path, level: Level, where: str) -> LevelError:
    return LevelError(str(path), "id", "an id of its own", f"'{level.id}' of {where} too")


def _is_same(path: Path, other: Path) -> bool:
    """Whether two paths lead to one file, however they are written."""
    try:
        return path.samefile(other)
    except OSError:
        return False


def _files(folder: Path) -> list[Path]:
    """Whatever is called as a level file in a folder and in those in it, in order."""
    found, waiting = [], [folder]
    while waiting:
        inside = waiting.pop()
        try:
            entries = list(os.scandir(inside))
            folders = [Path(entry) for entry in entries if entry.is_dir(follow_symlinks=False)]
        except OSError as error:
            missing = isinstance(error, FileNotFoundError | NotADirectoryError)
            if missing and not inside.exists():
                continue
            found_there = f"{error.strerror}"
            raise LevelError(str(inside), "the folder", "a readable folder", found_there) from error
        found += [Path(entry) for entry in entries if fnmatch(entry.name, "*.toml")]
        waiting += folders
    return sorted(found)


def _read(path: Path, kinds: Mapping[str, Kind], stage: str) -> Level:
    where = str(path)
    try:
        raw = _bytes(path)
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise LevelError(where, "the file", "UTF-8 text", f"{error.reason}") from error
    except OSError as error:
        raise LevelError(where, "the file", "a readable file", f"{error.strerror}") from error
    return parse_level(text, where, kinds, stage)


def _bytes(path: Path) -> bytes:
    """What is in a level file. Raises OSError, and LevelError unread where it is none."""
    expected = "a regular file of at most 1 MB"
    status = path.stat()
    other = _OTHER.get(stat.S_IFMT(status.st_mode))
    if other is not None:
        raise LevelError(str(path), "the file", expected, other)
    if status.st_size > LARGEST:
        found = f"{status.st_size / 1e6:.1f} MB"
        raise LevelError(str(path), "the file", expected, found)
    return path.read_bytes()


def _in_order(found: dict[str, tuple[Level, str]]) -> list[Level]:
    for level, where in found.values():
        for need in level.needs:
            if need not in found:
                raise LevelError(where, "needs", "ids of other levels", f"'{need}'")
    ordered: dict[str, Level] = {}
    waiting = {level.id: level for level, _ in found.values()}
    while waiting:
        ready = (level for level in waiting.values() if all(n in ordered for n in level.needs))
        following = next(ready, None)
        if following is None:
            stuck = next(iter(waiting))
            raise LevelError(found[stuck][1], "needs", "no circle", ", ".join(waiting))
        ordered[following.id] = waiting.pop(following.id)
    return list(ordered.values())
