"""A level: TOML text in, a checked Level out, every mistake named by file, key, expected, found."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from drills.checks import cut
from drills.foreperiod import Foreperiod
from drills.reader import LevelError, Reader
from drills.targets import Targets
from drills.task import Band
from drills.trace import Pedal

if TYPE_CHECKING:
    from drills.kinds.base import Kind


class Aid(StrEnum):
    """What helps to find the target before the dark; once it is dark nothing does."""

    BUBBLE = "bubble"
    TONE = "tone"
    NONE = "none"
    """Only that it is found is said."""


class Feedback(StrEnum):
    """After which repetitions the reveal is shown."""

    EVERY = "every"
    SUMMARY = "summary"
    OUTSIDE = "outside"
    NONE = "none"


@dataclass(frozen=True)
class Key:
    """A number that the levels of one kind say beside what every level says."""

    name: str
    """As level files call it; its unit is its kind's to say."""
    low: float
    """Smallest value."""
    high: float
    """Largest value."""
    default: float | None = None
    """Value where a level does not say it; None where it must."""
    whole: bool = False
    """Whether only whole numbers will do."""
    table: str = ""
    """Name of the table of the level file that it stands in; empty at the top."""
    most: str = ""
    """Name of another key of its table that it may not be greater than; empty where none."""
    about: str = ""
    """What it is, with its unit, for whoever writes a level."""

    @property
    def path(self) -> str:
        """Its name with that of its table."""
        return f"{self.table}.{self.name}" if self.table else self.name


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
    kind: Kind
    """What drill it is a level of."""
    targets: Targets
    """Where the brake is to be brought to."""
    tolerance: float
    """%, how far the brake may be from where it was held."""
    limits: Mapping[str, float]
    """Largest clean value by name of the measure, in its unit."""
    band: float = 5.0
    """%, half-width of the band the brake settles in; the target is found within it."""
    own: Mapping[str, float] = field(default_factory=dict)
    """What its kind asks a level to say, by the path of the key."""
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
    """Pedals it cannot do without: those of its kind, and any that the level adds."""
    guess: bool = False
    """Whether the player guesses what happened before it is revealed."""
    placing: bool = False
    """Whether a placing set asks its stage by it."""
    stage: str = ""
    """What the foot learns in the stage it belongs to; empty for a level of the player's own."""

    @property
    def approach_band(self) -> float:
        """%, half-width within which the brake counts as brought to the target."""
        return min(self.band, self.tolerance)

    def around(self, target: float) -> Band:
        """%, where the brake counts as brought to a target."""
        return target - self.approach_band, target + self.approach_band


def parse_level(text: str, where: str, kinds: Mapping[str, Kind], stage: str = "") -> Level:
    """The level in a TOML text; `where` names the file in errors, `stage` the one it belongs to.

    Raises LevelError for the first mistake found.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LevelError(where, "the file", "TOML", cut(str(error), 100)) from error
    except RecursionError as error:
        raise LevelError(where, "the file", "TOML", "it nested too deeply") from error
    except ValueError as error:
        raise LevelError(where, "the file", "TOML", "a number of too many digits") from error
    top = Reader(data, where, "")
    kind = kinds[top.choice("kind", kinds)]
    foreperiod, rule = top.table("foreperiod"), top.table("pass")
    tables = {name: top.table(name) for name in sorted({key.table for key in kind.keys} - {""})}
    usual = Foreperiod()
    level = Level(
        id=top.identifier("id"),
        title=top.text("title", 40),
        purpose=top.text("purpose", 120),
        kind=kind,
        targets=top.targets("targets"),
        tolerance=top.number("tolerance", 0.5, 50),
        limits=_limits(top.table("limits", required=bool(kind.limited)), kind.limited),
        band=top.number("band", 0.5, 50, 5.0),
        own=_own(kind.keys, {"": top, **tables}),
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
        stage=stage,
    )
    if level.guess and not kind.guessed:
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
    """What the keys of a kind say, by their paths."""
    own = {key.path: _number(tables[key.table], key) for key in keys}
    for key in keys:
        most = key.path.removesuffix(key.name) + key.most
        if key.most and own[key.path] > own[most]:
            expected = f"at most {most} = {own[most]:g}"
            raise tables[key.table].error(key.name, expected, f"{own[key.path]:g}")
    return own


def _number(reader: Reader, key: Key) -> float:
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
