"""A level: TOML text in, a checked Level out, every mistake named by file, key, expected, found."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any
from unicodedata import category

from drills.foreperiod import Foreperiod
from drills.refusal import Refusal
from drills.score import Limit
from drills.trace import Pedal

Table = Mapping[str, Any]


class Aid(StrEnum):
    """What helps to find the target before the dark; once it is dark nothing does."""

    BUBBLE = "bubble"
    TONE = "tone"


class Feedback(StrEnum):
    """After which repetitions the reveal is shown."""

    EVERY = "every"
    SUMMARY = "summary"
    OUTSIDE = "outside"
    NONE = "none"


@dataclass(frozen=True)
class PassRule:
    """How many clean repetitions of the last ones pass a level."""

    clean: int = 8
    """count, clean ones needed."""
    of: int = 10
    """count, the latest ones looked at."""


@dataclass(frozen=True)
class Level:
    """One level, as data."""

    id: str
    """Lower-case words joined by hyphens; the name results are kept under."""
    title: str
    """A few words for the screen."""
    purpose: str
    """One line: what it trains."""
    kind: str
    """Name of the drill kind."""
    targets: tuple[float, ...]
    """%, brake targets, taken in turn."""
    tolerance: float
    """%, how far the brake may be from where it was held."""
    limits: Mapping[str, Limit]
    """Largest clean value and weight, by name of the measure."""
    band: float = 5.0
    """%, half-width of the band the brake settles in; the target is found within it."""
    duration: float | None = None
    """s, length of a measured hold; None for kinds without one."""
    foreperiod: Foreperiod = field(default_factory=Foreperiod)
    """The wait in the dark before the cue."""
    aid: Aid = Aid.TONE
    """Help in finding the target."""
    feedback: Feedback = Feedback.EVERY
    """When the reveal is shown."""
    summary: int = 5
    """count, repetitions a summary covers (Feedback.SUMMARY)."""
    repetitions: int = 10
    """count, length of a set."""
    rule: PassRule = field(default_factory=PassRule)
    """What passes the level."""
    needs: tuple[str, ...] = ()
    """Ids of the levels to pass first."""
    pedals: tuple[Pedal, ...] = (Pedal.BRAKE,)
    """Pedals it cannot do without."""

    @property
    def approach_band(self) -> float:
        """%, half-width within which the brake counts as brought to the target."""
        return min(self.band, self.tolerance)


@dataclass(frozen=True)
class KindNames:
    """What a level file may say for one drill kind."""

    limited: Collection[str]
    """Names that may have a limit."""
    windowed: bool
    """Whether a duration is needed."""


class LevelError(Refusal):
    """A level file that cannot be used; the text is one line for the person who wrote it."""

    def __init__(self, where: str, key: str, expected: str, found: str) -> None:
        known = key if key.isprintable() else ascii(key)
        super().__init__(f"{where}: {_cut(known)}: expected {expected}, found {found}")


_BLANK = "\u115f\u1160\u2800\u3164\uffa0"
"""Fillers and the empty braille cell: letters and signs by their category, and nothing to see."""
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def parse_level(text: str, where: str, kinds: Mapping[str, KindNames]) -> Level:
    """The level in a TOML text; `where` names the file in errors.

    Raises LevelError for the first mistake found.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LevelError(where, "the file", "TOML", _cut(str(error), 100)) from error
    except RecursionError as error:
        raise LevelError(where, "the file", "TOML", "it nested too deeply") from error
    except ValueError as error:
        raise LevelError(where, "the file", "TOML", "a number of too many digits") from error
    top = _Reader(data, where, "")
    kind = top.choice("kind", kinds)
    names = kinds[kind]
    foreperiod, rule = top.table("foreperiod"), top.table("pass")
    usual = Foreperiod()
    level = Level(
        id=top.identifier("id"),
        title=top.text("title", 40),
        purpose=top.text("purpose", 120),
        kind=kind,
        targets=top.targets("targets"),
        tolerance=top.number("tolerance", 0.5, 50),
        limits=_limits(top.table("limits", required=True), names.limited),
        band=top.number("band", 0.5, 50, 5.0),
        duration=top.number("duration", 1, 60) if names.windowed else None,
        foreperiod=Foreperiod(
            shift=foreperiod.number("shift", 1, 10, usual.shift),
            mean=foreperiod.number("mean", 0.1, 10, usual.mean),
            cut=foreperiod.number("cut", 0.1, 20, usual.cut),
        ),
        aid=Aid(top.choice("aid", list(Aid), Aid.TONE)),
        feedback=Feedback(top.choice("feedback", list(Feedback), Feedback.EVERY)),
        summary=top.whole("summary", 2, 20, 5),
        repetitions=top.whole("repetitions", 1, 50, 10),
        rule=PassRule(clean=rule.whole("clean", 1, 100, 8), of=rule.whole("of", 1, 100, 10)),
        needs=top.words("needs"),
        pedals=tuple(Pedal(name) for name in top.words("pedals", list(Pedal), ("brake",))),
    )
    if level.rule.clean > level.rule.of:
        raise LevelError(
            where, "pass.clean", f"at most pass.of = {level.rule.of}", str(level.rule.clean)
        )
    for reader in (foreperiod, rule, top):
        reader.refuse_the_rest()
    return level


def _limits(table: _Reader, names: Collection[str]) -> Mapping[str, Limit]:
    limits = {}
    for name in table.data:
        if name not in names:
            raise table.error(name, f"one of {', '.join(names)}", "a limit on something else")
        entry = table.table(name)
        limits[name] = Limit(entry.number("at", 0.001, 1000), entry.number("weight", 0.001, 1))
        entry.refuse_the_rest()
    total = sum(limit.weight for limit in limits.values())
    if not math.isclose(total, 1.0, abs_tol=1e-6):
        raise LevelError(table.where, "limits", "weights that sum to 1", f"a sum of {total:g}")
    return limits


class _Reader:
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

    def whole(self, key: str, low: int, high: int, default: int) -> int:
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
            raise self.error(key, "visible text", _cut(ascii(value)))
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

    def targets(self, key: str) -> tuple[float, ...]:
        expected = "a list of numbers from 10 to 95"
        value = self._take(key, None, expected)
        if not isinstance(value, list) or not value:
            raise self.error(key, expected, _show(value))
        items = _Reader(
            {f"{key}[{n}]": item for n, item in enumerate(value)}, self.where, self._prefix
        )
        return tuple(items.number(name, 10, 95) for name in items.data)

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

    def table(self, key: str, *, required: bool = False) -> _Reader:
        value = self._take(key, None if required else {}, "a table")
        if not isinstance(value, dict) or (required and not value):
            raise self.error(key, "a table", _show(value))
        return _Reader(value, self.where, f"{self._prefix}{key}.")

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
        return _cut(repr(value).replace("\n", " "))
    except (ValueError, RecursionError):
        return "a value too large to show"


def _cut(text: str, longest: int = 60) -> str:
    return text if len(text) <= longest else text[: longest - 3] + "..."
