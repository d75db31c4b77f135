"""The levels that ship with the game and the player's own, checked as a whole."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from drills.kinds import NAMES
from drills.level import Level, LevelError, parse_level

SHIPPED = Path(__file__).resolve().parent.parent / "levels"
"""The folder of levels beside this package, in the source tree and when installed."""
OWN = "levels"
"""Name of the folder of the player's own levels in the data folder."""


def load_levels(folders: Sequence[Path]) -> list[Level]:
    """Every level in the folders, in an order where each comes after those it needs.

    A folder that is not there holds none. Raises LevelError for the first mistake found.
    """
    found: dict[str, tuple[Level, str]] = {}
    for folder in folders:
        for path in sorted(folder.rglob("*.toml")):
            level = _read(path)
            if level.id in found:
                raise LevelError(
                    str(path), "id", "an id of its own", f"'{level.id}' of {found[level.id][1]} too"
                )
            found[level.id] = (level, str(path))
    return _in_order(found)


def _read(path: Path) -> Level:
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise LevelError(str(path), "the file", "UTF-8 text", f"{error.reason}") from error
    except OSError as error:
        raise LevelError(str(path), "the file", "a readable file", f"{error.strerror}") from error
    return parse_level(text, str(path), NAMES)


def _in_order(found: dict[str, tuple[Level, str]]) -> list[Level]:
    for level, where in found.values():
        for need in level.needs:
            if need not in found:
                raise LevelError(where, "needs", "ids of other levels", f"'{need}'")
    ordered: dict[str, Level] = {}
    waiting = {level.id: level for level, _ in found.values()}
    while waiting:
        ready = [level for level in waiting.values() if all(n in ordered for n in level.needs)]
        if not ready:
            stuck = next(iter(waiting))
            raise LevelError(found[stuck][1], "needs", "no circle", ", ".join(waiting))
        for level in ready:
            ordered[level.id] = waiting.pop(level.id)
    return list(ordered.values())
