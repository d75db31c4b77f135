"""Writer of a commented example level file of any kind: every key with its range and default."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from drills.example_values import ExampleValues
from drills.fault import Fault
from drills.foreperiod import Foreperiod
from drills.level import Aid, Feedback, Kind
from drills.level_key import Key
from drills.measures.catalogue import CATALOGUE
from drills.trace import Pedal

LIMITS: Mapping[str, float] = {"points": 15, "points/s": 2, "points·s": 5, "s": 1, "m": 10}
"""Limits in the example level file, by the unit of the measure: loose, to be tightened."""
PLAIN = 1.0
"""Limit in the example level file for a measure without a unit."""


@dataclass(frozen=True)
class _Line:
    """One key of the example level file, with its comments."""

    name: str
    """Name of the key in level files."""
    value: str
    """Value of the key in the example, as TOML."""
    about: str
    """What the key means."""
    takes: str
    """What values the key takes, in the words of the error for anything else."""
    default: str = ""
    """Default of the key, as TOML; empty where a level must have the key."""
    is_left_out: bool = False
    """Whether the key itself is a comment, to be taken in instead of another one."""

    def written(self) -> str:
        """The key as TOML, under comments with what it means and what values it takes."""
        about = f"# {self.about}\n" if self.about else ""
        usual = f"; {self.default} where left out" if self.default else ""
        mark = "# " if self.is_left_out else ""
        return f"{about}# {self.takes}{usual}\n{mark}{self.name} = {self.value}\n"


def example(kind: Kind, kinds: Collection[str], values: ExampleValues | None = None) -> str:
    """Example level file of a kind as TOML, a comment above each key; `kinds` names all kinds.

    `values` are those of the kind where left out. The file is plain ASCII: a shell that writes it
    may do so in an encoding of its own.
    """
    said = values or kind.example
    tables = dict.fromkeys(["", "foreperiod", "pass", *(key.table for key in kind.keys)])
    lines = {
        "": _common(kind, kinds, said),
        "foreperiod": _foreperiod(kind.foreperiod),
        "pass": _PASS,
    }
    return "\n".join(
        [
            _HEAD.format(kind.name),
            *(
                part
                for table in tables
                for part in (
                    *([f"[{table}]\n"] if table else []),
                    *(line.written() for line in lines.get(table, ())),
                    *(_own(kind, key, said).written() for key in kind.keys if key.table == table),
                )
            ),
            *_limits(kind, said),
        ]
    )


_HEAD = """\
# A level of the kind "{}" to start from: change what you like.
# Save it as NAME.toml in the folder "levels" of the data folder.
# "stillfoot levels --check FILE" says whether it can be played.
# The line above a key says what it is and may be.
"""


def _common(kind: Kind, kinds: Collection[str], values: ExampleValues) -> tuple[_Line, ...]:
    """Lines of the example for the keys that every level has, in the order of reading."""
    none = "" if kind.guess_measure else " (only false: nothing of this kind is guessed)"
    asked = ", the last of the stage that says so"
    if not kind.measures:
        asked = " (only false: this kind asks nothing of its own)"
    added = ", ".join(kind.pedals)
    title, purpose = values.title or f"My {kind.name}", values.purpose or "What it trains."
    return (
        _Line(
            "id",
            f'"{values.id or f"my-{kind.name}"}"',
            "Its own, and never changed: results are stored under it",
            "lower-case words, digits and single hyphens",
        ),
        _Line("title", f'"{title}"', "For the screen", "one line of 1 to 40 characters"),
        _Line("purpose", f'"{purpose}"', "What it trains", "one line of 1 to 120 characters"),
        _Line("kind", f'"{kind.name}"', "What drill it is", f"one of {', '.join(kinds)}"),
        _Line(
            kind.targets_key,
            _numbers(values.targets),
            "%, where the brake is to be brought to: taken in turn, or drawn between two",
            "a number from 10 to 95, a list of them, or { least, most }",
        ),
        _Line(
            "tolerance",
            "15",
            "points, how far the brake may be from where it should be",
            "a number from 0.5 to 50",
        ),
        _Line(
            "band",
            "5",
            "points, what the brake settles in; the target is found within the smaller of both",
            "a number from 0.5 to 50",
            "5",
        ),
        _Line(
            "aid",
            f'"{Aid.TONE}"',
            "What helps to find the target before the dark",
            f"one of {', '.join(Aid)}",
            f'"{Aid.TONE}"',
        ),
        _Line(
            "feedback",
            f'"{Feedback.EVERY}"',
            "After which repetitions it is shown what happened",
            f"one of {', '.join(Feedback)}",
            f'"{Feedback.EVERY}"',
        ),
        _Line(
            "summary",
            "5",
            'Repetitions that a summary covers (feedback = "summary")',
            "a whole number from 2 to 20",
            "5",
        ),
        _Line("repetitions", "10", "Length of a set", "a whole number from 1 to 50", "10"),
        _Line(
            "guess",
            "false",
            f"Whether what happened is guessed before it is shown{none}",
            "true or false",
            "false",
        ),
        _Line(
            "placing",
            "false",
            f"Whether a placing set asks its stage by it{asked}",
            "true or false",
            "false",
        ),
        _Line(
            "answers",
            "[]",
            "Faults it is good for",
            f"a list of words among {', '.join(Fault)}",
            "[]",
        ),
        _Line(
            "reach",
            "0.5",
            "Share of its limits that the best feet stay within",
            "a number from 0.05 to 1",
            "0.5",
        ),
        _Line("needs", "[]", "Ids of the levels to pass first", "a list of words", "[]"),
        _Line(
            "pedals",
            "[]",
            f"Pedals that it needs beside its own ({added})",
            f"a list of words among {', '.join(Pedal)}",
            "[]",
        ),
    )


def _foreperiod(usual: Foreperiod) -> tuple[_Line, ...]:
    """Lines of the example for the wait before the cue."""
    shift, mean, cut = f"{usual.shift:g}", f"{usual.mean:g}", f"{usual.cut:g}"
    return (
        _Line(
            "shift", shift, "s, the shortest wait before the cue", "a number from 1 to 10", shift
        ),
        _Line(
            "mean",
            mean,
            "s past the shift, the mean wait before it is cut",
            "a number from 0.1 to 10",
            mean,
        ),
        _Line("cut", cut, "s past the shift, the longest wait", "a number from 0.1 to 20", cut),
    )


_PASS = (
    _Line(
        "clean",
        "8",
        'Clean repetitions that pass it, no more than "of"',
        "a whole number from 1 to 100",
        "8",
    ),
    _Line("of", "10", "Of how many, the latest ones", "a whole number from 1 to 100", "10"),
)


def _own(kind: Kind, key: Key, values: ExampleValues) -> _Line:
    """Line of the example for a key that only levels of one kind have."""
    between = f"from {key.low:g} to {key.high:g}"
    if key.many:
        takes = f"a list of 1 to {key.many} falling numbers {between}"
        listed = values.listed.get(key.path, (key.high,))
        return _Line(key.name, _numbers(listed), key.about, takes, is_left_out=True)
    what = "a whole number" if key.whole else "a number"
    most = f', and no more than "{key.most}"' if key.most else ""
    instead = f', none beside "{key.instead}"' if key.instead else ""
    default = "" if key.default is None or key.path in values.own else f"{key.default:g}"
    off = "" if key.off is None else f"{key.off:g}, or "
    takes = f"{off}{what} {between}{most}{instead}"
    return _Line(key.name, f"{_value(kind, key, values):g}", key.about, takes, default)


def _numbers(numbers: Iterable[float]) -> str:
    return f"[{', '.join(f'{number:g}' for number in numbers)}]"


def _value(kind: Kind, key: Key, values: ExampleValues) -> float:
    """Value of a key in the example: what is said of it, else its default, else the middle.

    That is the geometric middle of its range to 2 digits, and at most the value of the key that it
    may not exceed.
    """
    value = values.own.get(key.path, key.default)
    if value is None:
        middle = math.sqrt(key.low * key.high) if key.low > 0 else (key.low + key.high) / 2
        value = float(round(middle)) if key.whole else float(f"{middle:.2g}")
        value = min(max(value, key.low), key.high)
    above = (
        one for one in kind.keys if key.most and (one.table, one.name) == (key.table, key.most)
    )
    return min([value, *(_value(kind, one, values) for one in above)])


def _limits(kind: Kind, values: ExampleValues) -> Iterator[str]:
    """Table of limits in the example: what the kind says as keys, else the most telling measure.

    The others are comments.
    """
    if not kind.limitable:
        return
    first = next(
        (name for name in kind.reveal_measures if name in kind.limitable), kind.limitable[0]
    )
    limited = values.limits or {first: _loose(first)}
    others = [name for name in kind.limitable if name not in limited]
    keys = "".join(_limit(name, limit) for name, limit in limited.items())
    yield f"{_LIMITED}{keys}" + "".join(f"# {_limit(name, _loose(name))}" for name in others)


_LIMITED = """\
# Largest clean values, at least one, each in the unit beside it; a value with a sign counts by its
# size. Take the # away to limit that too.
# a number from 0.001 to 1000
[limits]
"""


def _loose(name: str) -> float:
    """Limit of a measure where the kind says none."""
    return LIMITS.get(CATALOGUE[name].unit, PLAIN)


def _limit(name: str, limit: float) -> str:
    measure = CATALOGUE[name]
    unit = f"{measure.unit.replace('·', '*')}, " if measure.unit else ""
    return f"{name} = {limit:g}  # {unit}{measure.label}\n"
