"""Takes checked values out of the TOML of a level, each mistake named with what was expected."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Any
from unicodedata import category

from drills.refusal import Refusal
from drills.targets import Targets

Table = Mapping[str, Any]


class LevelError(Refusal):
    """A level file that cannot be used; the text is one line for the person who wrote it."""

    def __init__(self, where: str, key: str, expected: str, found: str) -> None:
        known = key if key.isprintable() else ascii(key)
        super().__init__(f"{where}: {cut(known)}: expected {expected}, found {found}")


_BLANK = "\u115f\u1160\u2800\u3164\uffa0"
"""Fillers and the empty braille cell: letters and signs by their category, and nothing to see."""
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class Reader:
    """Takes checked values out of one TOML table and remembers which keys were asked for."""

    def __init__(self, data: Table, where: str, prefix: str) -> None:
        self.data = data
        self.where = where
        self._prefix = prefix
        self._asked: set[str] = set()

    def error(self, key: str, expected: str, found: str) -> LevelError:
        return LevelError(self.where, self._prefix + key, expected, found)

    def number(self, key: str, low: float, high: float, default: float | None = None) -> float:
        expected = f"a number from {low:g} to {high:g}"
        value = self._take(key, default, expected)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.error(key, expected, _show(value))
        if not low <= value <= high:
            raise self.error(key, expected, _show(value))
        return float(value)

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        expected = f"a whole number from {low} to {high}"
        value = self._take(key, default, expected)
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise self.error(key, expected, _show(value))
        return value

    def text(self, key: str, longest: int) -> str:
        expected = f"one line of 1 to {longest} characters"
        value = self._take(key, None, expected)
        if not isinstance(value, str) or not value.strip() or len(value.splitlines()) != 1:
            raise self.error(key, expected, _show(value))
        if len(value) > longest:
            raise self.error(key, expected, f"{len(value)} characters")
        if not _visible(value):
            raise self.error(key, "visible text", cut(ascii(value)))
        return value

    def identifier(self, key: str) -> str:
        expected = "lower-case words, digits and single hyphens"
        value = self._take(key, None, expected)
        if not isinstance(value, str) or not _ID.fullmatch(value):
            raise self.error(key, expected, _show(value))
        return value

    def choice(self, key: str, options: Collection[str], default: str | None = None) -> str:
        expected = f"one of {', '.join(options)}"
        value = self._take(key, default, expected)
        if not isinstance(value, str) or value not in options:
            raise self.error(key, expected, _show(value))
        return value

    def truth(self, key: str, default: bool) -> bool:
        value = self._take(key, default, "true or false")
        if not isinstance(value, bool):
            raise self.error(key, "true or false", _show(value))
        return value

    def targets(self, key: str) -> Targets:
        expected = "a list of numbers from 10 to 95, or { least, most }"
        value = self._take(key, None, expected)
        if isinstance(value, dict):
            between = Reader(value, self.where, f"{self._prefix}{key}.")
            least = between.whole("least", 10, 95)
            most = between.whole("most", least, 95)
            between.refuse_the_rest()
            return Targets((float(least), float(most)), drawn=True)
        if not isinstance(value, list) or not value:
            raise self.error(key, expected, _show(value))
        items = Reader(
            {f"{key}[{n}]": item for n, item in enumerate(value)}, self.where, self._prefix
        )
        return Targets(tuple(items.number(name, 10, 95) for name in items.data))

    def words(
        self, key: str, options: Collection[str] | None = None, default: tuple[str, ...] = ()
    ) -> tuple[str, ...]:
        among = f" among {', '.join(options)}" if options else ""
        expected = f"a list of words{among}"
        value = self._take(key, list(default), expected)
        if not isinstance(value, list):
            raise self.error(key, expected, _show(value))
        for item in value:
            if not isinstance(item, str) or (options is not None and item not in options):
                raise self.error(key, expected, _show(item))
        return tuple(value)

    def table(self, key: str, *, required: bool = False) -> Reader:
        value = self._take(key, None if required else {}, "a table")
        if not isinstance(value, dict) or (required and not value):
            raise self.error(key, "a table", _show(value))
        return Reader(value, self.where, f"{self._prefix}{key}.")

    def refuse_the_rest(self) -> None:
        for key in self.data:
            if key not in self._asked:
                raise self.error(key, f"one of {', '.join(sorted(self._asked))}", "an unknown key")

    def _take(self, key: str, default: object, expected: str) -> object:
        self._asked.add(key)
        value = self.data.get(key, default)
        if value is None:
            raise self.error(key, expected, "nothing")
        return value


def _visible(text: str) -> bool:
    """Whether there is something to see in a text, and nothing in it that cannot be drawn."""
    kinds = [category(sign) for sign in text if sign not in _BLANK]
    drawn = any(kind[0] in "LNPS" for kind in kinds)
    return drawn and not {"Cc", "Cs", "Zl", "Zp"}.intersection(kinds)


def _show(value: object) -> str:
    try:
        return cut(repr(value).replace("\n", " "))
    except (ValueError, RecursionError):
        return "a value too large to show"


def cut(text: str, longest: int = 60) -> str:
    """The beginning of a text that is too long for an error."""
    return text if len(text) <= longest else text[: longest - 3] + "..."
