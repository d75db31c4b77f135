"""Takes checked values out of the TOML of a level, each mistake named with what was expected."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Any
from unicodedata import category

from drills.checks import Checks, ValueRefusal, cut, show
from drills.targets import Targets

Table = Mapping[str, Any]


class LevelError(ValueRefusal):
    """A level file that cannot be used; the text is one line for the person who wrote it."""

    def __init__(self, where: str, key: str, expected: str, found: str) -> None:
        known = key if key.isprintable() else ascii(key)
        super().__init__(f"{where}: {cut(known)}", expected, found)


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
        self._check = Checks(self.error)

    def error(self, key: str, expected: str, found: str) -> LevelError:
        return LevelError(self.where, self._prefix + key, expected, found)

    def number(self, key: str, low: float, high: float, default: float | None = None) -> float:
        value = self._take(key, default, f"a number from {low:g} to {high:g}")
        return self._check.number(key, value, low, high)

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        value = self._take(key, default, f"a whole number from {low} to {high}")
        return self._check.whole(key, value, low, high)

    def text(self, key: str, longest: int) -> str:
        expected = f"one line of 1 to {longest} characters"
        value = self._check.text(key, self._take(key, None, expected), expected)
        if not value.strip() or len(value.splitlines()) != 1:
            raise self.error(key, expected, show(value))
        if len(value) > longest:
            raise self.error(key, expected, f"{len(value)} characters")
        if not _visible(value):
            raise self.error(key, "visible text", cut(ascii(value)))
        return value

    def identifier(self, key: str) -> str:
        expected = "lower-case words, digits and single hyphens"
        value = self._check.text(key, self._take(key, None, expected), expected)
        if not _ID.fullmatch(value):
            raise self.error(key, expected, show(value))
        return value

    def choice(self, key: str, options: Collection[str], default: str | None = None) -> str:
        value = self._take(key, default, f"one of {', '.join(options)}")
        return self._check.choice(key, value, options)

    def truth(self, key: str, default: bool) -> bool:
        return self._check.truth(key, self._take(key, default, "true or false"))

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
            raise self.error(key, expected, show(value))
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
            raise self.error(key, expected, show(value))
        for item in value:
            if not isinstance(item, str) or (options is not None and item not in options):
                raise self.error(key, expected, show(item))
        return tuple(value)

    def table(self, key: str, *, required: bool = False) -> Reader:
        value = self._take(key, None if required else {}, "a table")
        if not isinstance(value, dict) or (required and not value):
            raise self.error(key, "a table", show(value))
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
