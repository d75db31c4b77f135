"""Reading numbers out of the command line, and the error for one that cannot be understood."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import TypeVar

from drills.refusal import Refusal

Number = TypeVar("Number", int, float)


class UsageError(Refusal):
    """The command line cannot be understood; the text is one line for the person."""


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
                f"expected {name} from {low} to {high}, found '{text}'"
            )
        return value

    return read
