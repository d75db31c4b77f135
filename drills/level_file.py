"""Reader of a level's TOML file; every mistake names file, key, expected and found."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
from typing import Any
from unicodedata import category

from drills.checks import Checks, ValueRefusal, cut, show
from drills.direction import turns
from drills.fault import Fault
from drills.foreperiod import Foreperiod
from drills.level import Aid, Feedback, Kind, Level, PassRule
from drills.level_key import Key
from drills.targets import Targets
from drills.trace import Pedal

Table = Mapping[str, Any]


class LevelError(ValueRefusal):
    """A level file cannot be used; the text is one line for whoever wrote the file."""

    def __init__(self, where: str, key: str, expected: str, found: str) -> None:
        printable = key if key.isprintable() else ascii(key)
        super().__init__(f"{where}: {cut(printable)}", expected, found)


_BLANK = "\u115f\u1160\u2800\u3164\uffa0"
"""Letters and symbols that show nothing on the screen: fillers, empty braille."""
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


DEEPEST = 20
"""Levels of tables and lists in each other that a level file may have; no key needs more than 3."""
_TOO_DEEP = "it nested too deeply"


class Reader:
    """Reader of checked values from one TOML table; it notes which keys were never asked for."""

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

    def number_or_off(self, key: Key, off: float) -> float:
        """A number in the range of a key, or the value `off` beside it that asks for nothing."""
        expected = f"{off:g}, or a number from {key.low:g} to {key.high:g}"
        value = self._take(key.name, key.default, expected)
        if not isinstance(value, int | float) or isinstance(value, bool):
            raise self.error(key.name, expected, show(value))
        if value != off and not key.low <= value <= key.high:
            raise self.error(key.name, expected, show(value))
        return float(value)

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
        if turns(value):
            raise self.error(key, "text that does not turn the direction of writing", show(value))
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
        expected = "a number from 10 to 95, a list of them, or { least, most }"
        value = self._take(key, None, expected)
        if isinstance(value, int | float) and not isinstance(value, bool):
            return Targets((self.number(key, 10, 95),))
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

    def falling(self, key: Key) -> tuple[float, ...]:
        """Numbers that a key lists, each under the one before; none where it is left out."""
        expected = f"a list of 1 to {key.many} falling numbers from {key.low:g} to {key.high:g}"
        value = self._take(key.name, [], expected)
        is_empty = key.name in self.data and not value
        if not isinstance(value, list) or is_empty or len(value) > key.many:
            raise self.error(key.name, expected, show(value))
        items = Reader(
            {f"{key.name}[{n}]": item for n, item in enumerate(value)}, self.where, self._prefix
        )
        numbers = tuple(items.number(name, key.low, key.high) for name in items.data)
        if any(after >= before for before, after in pairwise(numbers)):
            raise self.error(key.name, expected, show(value))
        return numbers

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
    """Whether a text shows something on the screen, and holds nothing that cannot be drawn."""
    kinds = [category(sign) for sign in text if sign not in _BLANK]
    drawn = any(kind[0] in "LNPS" for kind in kinds)
    return drawn and not {"Cc", "Cs", "Zl", "Zp"}.intersection(kinds)


def _fits(value: object, depth: int) -> bool:
    """Whether tables and lists lie in each other no deeper than `depth`, from 0."""
    parts = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return depth >= 0 and all(_fits(part, depth - 1) for part in parts)


def parse_level(text: str, where: str, kinds: Mapping[str, Kind], stage: str = "") -> Level:
    """Level from the TOML text of its file; `where` names the file in errors, `stage` its stage.

    Raises LevelError for the first mistake found.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LevelError(where, "the file", "TOML", cut(str(error), 100)) from error
    except RecursionError as error:
        raise LevelError(where, "the file", "TOML", _TOO_DEEP) from error
    except ValueError as error:
        raise LevelError(where, "the file", "TOML", "a number of too many digits") from error
    if not _fits(data, DEEPEST):
        raise LevelError(where, "the file", "TOML", _TOO_DEEP)
    top = Reader(data, where, "")
    kind = kinds[top.choice("kind", kinds)]
    foreperiod, rule = top.table("foreperiod"), top.table("pass")
    tables = {name: top.table(name) for name in sorted({key.table for key in kind.keys} - {""})}
    usual = kind.foreperiod
    level = Level(
        id=top.identifier("id"),
        title=top.text("title", 40),
        purpose=top.text("purpose", 120),
        kind=kind,
        targets=top.targets(kind.targets_key),
        tolerance=top.number("tolerance", 0.5, 50),
        limits=_limits(top.table("limits", required=bool(kind.limitable)), kind.limitable),
        band=top.number("band", 0.5, 50, 5.0),
        own=_own(kind.keys, {"": top, **tables}),
        listed=_listed(kind.keys, {"": top, **tables}),
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
        pedals=_pedals(kind, top.words("pedals", list(Pedal))),
        guess=top.truth("guess", False),
        placing=top.truth("placing", False),
        answers=tuple(map(Fault, top.words("answers", list(Fault)))),
        reach=top.number("reach", 0.05, 1, 0.5),
        stage=stage,
    )
    if level.guess and not kind.guess_measure:
        raise LevelError(where, "guess", f"false, as nothing of a {kind.name} is guessed", "true")
    if level.placing and not kind.measures:
        expected = f"false, as a {kind.name} level asks nothing of its own"
        raise LevelError(where, "placing", expected, "true")
    if level.rule.clean > level.rule.of:
        raise LevelError(
            where, "pass.clean", f"at most pass.of = {level.rule.of}", str(level.rule.clean)
        )
    wrong = kind.wrong(level)
    if wrong is not None:
        raise LevelError(where, *wrong)
    for reader in (foreperiod, rule, *tables.values(), top):
        reader.refuse_the_rest()
    return level


def _own(keys: Sequence[Key], tables: Mapping[str, Reader]) -> Mapping[str, float]:
    """Values of the keys that only levels of one kind have, by key path such as `blip.least`."""
    own = {key.path: _number(tables[key.table], key) for key in keys if not key.many}
    for key in (key for key in keys if not key.many):
        most = key.path.removesuffix(key.name) + key.most
        if key.most and own[key.path] > own[most]:
            expected = f"at most {most} = {own[most]:g}"
            raise tables[key.table].error(key.name, expected, f"{own[key.path]:g}")
        instead = key.path.removesuffix(key.name) + key.instead
        if key.instead and key.name in tables[key.table].data and own[instead]:
            expected = f"none, as {instead} = {own[instead]:g} is asked"
            raise tables[key.table].error(key.name, expected, f"{own[key.path]:g}")
    return own


def _listed(keys: Sequence[Key], tables: Mapping[str, Reader]) -> Mapping[str, tuple[float, ...]]:
    """Values of those keys that list numbers, by key path."""
    return {key.path: tables[key.table].falling(key) for key in keys if key.many}


def _number(reader: Reader, key: Key) -> float:
    if key.off is not None:
        return reader.number_or_off(key, key.off)
    if not key.whole:
        return reader.number(key.name, key.low, key.high, key.default)
    default = None if key.default is None else int(key.default)
    return reader.whole(key.name, int(key.low), int(key.high), default)


def _pedals(kind: Kind, named: Collection[str]) -> tuple[Pedal, ...]:
    return tuple(pedal for pedal in Pedal if pedal in kind.pedals or pedal in named)


def _limits(table: Reader, names: Collection[str]) -> Mapping[str, float]:
    for name in table.data:
        if name not in names:
            raise table.error(name, f"one of {', '.join(names)}", "a limit on something else")
    return {name: table.number(name, 0.001, 1000) for name in table.data}
