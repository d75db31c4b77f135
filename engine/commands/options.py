"""Option readers that commands share: numbers, paths, levels, data folder, local time."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar

from drills.level import Level
from drills.refusal import Refusal
from engine.commands.players import folder_of

DATA_VARIABLE = "STILLFOOT_DATA"
"""Name of the environment variable that sets the data folder."""

Number = TypeVar("Number", int, float)

LONGEST_QUOTE = 60
"""Longest part of a refused argument that an error quotes, in characters."""


class UsageError(Refusal):
    """The command line cannot be understood; the text is one line for the user."""


def quoted(text: str) -> str:
    """An argument in quotes for an error, cut where it is long."""
    return f"'{text}'" if len(text) <= LONGEST_QUOTE else f"'{text[:LONGEST_QUOTE]}...'"


def within(kind: Callable[[str], Number], low: Number, high: Number) -> Callable[[str], Number]:
    """Argument type for argparse: a number of type `kind` from `low` to `high`."""
    name = "a whole number" if kind is int else "a number"

    def read(text: str) -> Number:
        try:
            value = kind(text)
        except ValueError:
            value = None
        if value is None or not low <= value <= high:
            raise argparse.ArgumentTypeError(
                f"expected {name} from {low} to {high}, found {quoted(text)}"
            )
        return value

    return read


def path_of(what: str) -> Callable[[str], Path]:
    """Argument type for argparse: a path; `what` names it in errors, such as "a folder"."""

    def read(text: str) -> Path:
        if not text.strip() or "\0" in text:
            raise argparse.ArgumentTypeError(f"expected {what}, found {quoted(text)}")
        return Path(text)

    return read


def data_folder(options: argparse.Namespace) -> Path:
    """Folder of the player's history and own levels. Raises PlayerError."""
    folder = shared_folder(options)
    return folder if options.player is None else folder_of(folder, options.player)


def shared_folder(options: argparse.Namespace) -> Path:
    """Folder of the player without a name, with a folder in it for each player with one."""
    if options.data is not None:
        return Path(options.data)
    named = os.environ.get(DATA_VARIABLE, "")
    if named.strip():
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("stillfoot", appauthor=False)


def level_called(name: str, levels: Sequence[Level]) -> Level:
    """The level with the id `name`. Raises UsageError if there is none."""
    for level in levels:
        if level.id == name:
            return level
    ids = "the id of a level, as stillfoot levels lists them"
    raise UsageError(f"--level: expected {ids}, found {quoted(name)}")


def local_now() -> datetime:
    """Local date and time with its offset from UTC."""
    return datetime.now(UTC).astimezone()
