"""What commands ask of their options: numbers, paths, the data folder; and the local time."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar

from drills.level import Level
from drills.refusal import Refusal

DATA_VARIABLE = "STILLFOOT_DATA"
"""Environment variable that names the data folder."""

Number = TypeVar("Number", int, float)

SHOWN = 60
"""Characters shown of an argument that is refused."""


class UsageError(Refusal):
    """The command line cannot be understood; the text is one line for the person."""


def quoted(text: str) -> str:
    """An argument as an error shows it: its beginning where it is long."""
    return f"'{text}'" if len(text) <= SHOWN else f"'{text[:SHOWN]}...'"


def within(kind: Callable[[str], Number], low: Number, high: Number) -> Callable[[str], Number]:
    """A reader of numbers from `low` to `high`, for argparse."""
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
    """A reader of paths of `what`, such as "a folder", for argparse."""

    def read(text: str) -> Path:
        if not text.strip() or "\0" in text:
            raise argparse.ArgumentTypeError(f"expected {what}, found {quoted(text)}")
        return Path(text)

    return read


def data_folder(options: argparse.Namespace) -> Path:
    """Where the history and the player's own levels are."""
    if options.data is not None:
        return Path(options.data)
    named = os.environ.get(DATA_VARIABLE, "")
    if named.strip():
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("stillfoot", appauthor=False)


def level_called(name: str, levels: Sequence[Level]) -> Level:
    """The level of an id. Raises UsageError where there is none."""
    for level in levels:
        if level.id == name:
            return level
    ids = ", ".join(level.id for level in levels)
    raise UsageError(f"--level: expected one of {ids}, found {quoted(name)}")


def local_now() -> datetime:
    """Local date and time with its offset from UTC."""
    return datetime.now(UTC).astimezone()
