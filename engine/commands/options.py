"""Reading numbers and paths out of the command line, and the error for what is not understood."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from drills.refusal import Refusal

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
