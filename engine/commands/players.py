"""Players on one computer: the name of each, and the folder of a player in the data folder."""

from __future__ import annotations

import argparse
import unicodedata
from pathlib import Path

from drills.checks import show
from drills.refusal import Refusal
from engine.errors import reason_of
from engine.store.history import FILE

PLAYERS = "players"
"""Name of the folder, in the data folder, that holds one folder for each player with a name."""
NAME_LONGEST = 20
"""Longest name of a player, in characters: it stands beside the name of the game on home."""
NAMELESS = "player without a name"
"""Words on home for the player whose data lies in the data folder itself."""

_FORBIDDEN = frozenset('<>:"/\\|?*')
"""Characters that no file name may have on Windows, the separators of every system included."""
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul"}
    | {f"{port}{digit}" for port in ("com", "lpt") for digit in "0123456789¹²³"}
)
"""Names that Windows keeps for devices, in any case and with any ending ("Naming Files, Paths, and
Namespaces", Microsoft)."""


class PlayerError(Refusal):
    """A player's folder cannot be used; the text is one line for the user."""


def player_name(text: str) -> str:
    """Argument type for argparse: the name of a player, which can be a folder on every system."""
    name = unicodedata.normalize("NFC", text)
    drawable = name.isprintable() and all(letter <= "\uffff" for letter in name)
    if not drawable or not 1 <= len(name) <= NAME_LONGEST or name != name.strip():
        raise _refusal(f"a name of 1 to {NAME_LONGEST} letters, without blanks at its ends", text)
    if _FORBIDDEN & set(name) or name.startswith(".") or name.endswith("."):
        raise _refusal(f"a name without {' '.join(sorted(_FORBIDDEN))} or a dot at its ends", text)
    if name.partition(".")[0].rstrip().lower() in _DEVICES:
        raise _refusal("a name that Windows does not reserve", text)
    return name


def folder_of(data: Path, name: str) -> Path:
    """Folder of the player with a name, which need not exist yet.

    `data` is the data folder. Raises PlayerError where there is a player whose name differs by
    case alone: some systems would take the two for one.
    """
    folders = _folders(data)
    for other in folders:
        if other != name and other.casefold() == name.casefold():
            raise PlayerError(f"--player: expected {show(other)}, as before, found {show(name)}")
    return folders.get(name, data / PLAYERS / name)


def names(data: Path) -> list[str]:
    """Names of the players that have a folder, in order. Raises PlayerError."""
    return sorted(_folders(data))


def _folders(data: Path) -> dict[str, Path]:
    """Folder of each player that has one, by the name in composed letters (Unicode's NFC).

    A folder that came from another system may spell the same name in other characters; of two that
    do, the one in composed letters is the player's. Raises PlayerError.
    """
    folder = data / PLAYERS
    try:
        found = [entry for entry in folder.iterdir() if entry.is_dir()]
    except FileNotFoundError:
        return {}
    except OSError as error:
        raise PlayerError(
            f"{folder}: expected a folder with one for each player, found: {reason_of(error)}"
        ) from error
    named = [(unicodedata.normalize("NFC", entry.name), entry) for entry in found]
    return dict(sorted(named, key=lambda one: one[0] == one[1].name))


def whose(data: Path, name: str | None) -> str:
    """Words on home for the player; empty where this one is the only player. Raises PlayerError."""
    others = [other for other in names(data) if other != name]
    alone = not others and (name is None or not (data / FILE).exists())
    return "" if alone else name or NAMELESS


def _refusal(expected: str, found: str) -> argparse.ArgumentTypeError:
    return argparse.ArgumentTypeError(f"expected {expected}, found {show(found)}")
