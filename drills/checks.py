"""Checks of values from outside: a level file, the settings, the history file.

A check returns the value, typed, or raises the error type of its caller, whose text is one line:
`where: expected this, found that`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection
from dataclasses import dataclass

from drills.refusal import Refusal


class ValueRefusal(Refusal):
    """A value from a file or the settings that cannot be used."""

    def __init__(self, where: str, expected: str, found: str) -> None:
        super().__init__(one_line(where, expected, found))


@dataclass(frozen=True)
class Checks:
    """Checks of values from a file or the settings, all raising one type of error.

    `where` names the place of the value, as the person who reads the line knows it.
    """

    error: Callable[[str, str, str], Exception]
    """Makes the error from where, expected and found: a ValueRefusal or one like it."""

    def whole(self, where: str, value: object, low: int, high: int | None = None) -> int:
        """The value as a whole number of at least `low` and at most `high`, if given."""
        limits = f"of at least {low}" if high is None else f"from {low} to {high}"
        most = math.inf if high is None else high
        if isinstance(value, int) and not isinstance(value, bool) and low <= value <= most:
            return value
        raise self.error(where, f"a whole number {limits}", show(value))

    def number(self, where: str, value: object, low: float, high: float) -> float:
        """The value as a number from `low` to `high`."""
        if isinstance(value, int | float) and not isinstance(value, bool) and low <= value <= high:
            return float(value)
        raise self.error(where, f"a number from {low:g} to {high:g}", show(value))

    def text(self, where: str, value: object, expected: str = "text") -> str:
        """The value as text; `expected` says what text."""
        if isinstance(value, str):
            return value
        raise self.error(where, expected, show(value))

    def truth(self, where: str, value: object) -> bool:
        """The value as true or false."""
        if isinstance(value, bool):
            return value
        raise self.error(where, "true or false", show(value))

    def choice(self, where: str, value: object, options: Collection[str]) -> str:
        """The value as one of the words allowed."""
        if isinstance(value, str) and value in options:
            return value
        raise self.error(where, f"one of {', '.join(options)}", show(value))


def one_line(where: str, expected: str, found: str) -> str:
    """One-line text of an error about a value; `where` is empty if it is about all of the data."""
    return f"{where}: " * bool(where) + f"expected {expected}, found {found}"


def show(value: object, longest: int = 60) -> str:
    """A refused value as text for an error: one line, cut after so many characters."""
    try:
        return cut(_written(value, longest), longest)
    except ValueError:
        return "a value too large to show"


def _written(value: object, depth: int) -> str:
    """The value as Python writes it, lists and tables in each other down to `depth` only.

    A level of nesting takes a character at least, so a text cut after `depth` shows no deeper one.
    """
    if depth < 0:
        return ""
    if isinstance(value, dict):
        items = (f"{key!r}: {_written(inner, depth - 1)}" for key, inner in value.items())
        return f"{{{', '.join(items)}}}"
    if isinstance(value, list):
        return f"[{', '.join(_written(inner, depth - 1) for inner in value)}]"
    return repr(value)


def cut(text: str, longest: int = 60) -> str:
    """Beginning of a text that is too long for an error, unprintable characters escaped."""
    line = "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text
    )
    return line if len(line) <= longest else line[: longest - 3] + "..."
