"""Table of everything that was measured of the health of pedals, for the terminal."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drills.health.pedal import PedalHealth
from drills.health.reports import Timing
from drills.health.words import number, rate_words

UNKNOWN = "-"
"""Cell of an amount that is not known."""


def _points(value: float | None) -> str:
    return UNKNOWN if value is None else number(value)


def _ms(value: Callable[[Timing], float]) -> Callable[[PedalHealth], str]:
    def text(health: PedalHealth) -> str:
        return UNKNOWN if health.timing is None else number(1000 * value(health.timing))

    return text


_ROWS: tuple[tuple[str, Callable[[PedalHealth], str]], ...] = (
    ("a step, %", lambda one: _points(one.step)),
    ("steps in its travel", lambda one: UNKNOWN if one.steps is None else f"{one.steps:.0f}"),
    ("noise at rest, points", lambda one: _points(one.rest)),
    ("noise while held, points", lambda one: _points(one.held)),
    ("reports a second", rate_words),
    ("  usual interval, ms", _ms(lambda timing: timing.interval)),
    ("  99 of 100 under, ms", _ms(lambda timing: timing.p99)),
    ("  jitter, ms", _ms(lambda timing: timing.jitter)),
    ("  late ones", lambda one: UNKNOWN if one.timing is None else f"{one.timing.late}"),
    ("dead or late start, %", lambda one: f"{one.dead_low:.0f}"),
    ("dead or early end, %", lambda one: f"{one.dead_high:.0f}"),
    ("travel used, %", lambda one: f"{one.lowest:.0f} to {one.highest:.0f}"),
    ("share of its axis, %", lambda one: f"{one.axis_used:.0f}"),
    ("jumps", lambda one: f"{one.jumps}"),
    ("stalls", lambda one: f"{one.stalls}"),
    ("leaps when pressed, points", lambda one: "none" if one.leap is None else number(one.leap)),
    ("longest on one value, s", lambda one: f"{one.still:.2f}"),
)
"""Rows of the table: what is measured with its unit, and the text of it for a pedal."""


def health_table(healths: Sequence[PedalHealth]) -> list[str]:
    """Lines of the table, a column for each pedal."""
    names = ["", *(name for name, _ in _ROWS)]
    columns = [names]
    for health in healths:
        cells = [text(health) if health.seen else UNKNOWN for _, text in _ROWS]
        columns.append([health.pedal.value, *cells])
    widths = [max(map(len, column)) for column in columns]
    first, *rest = zip(*columns, strict=True)
    return [
        f"{row[0]:<{widths[0]}}"
        + "".join(f"  {cell:>{width}}" for cell, width in zip(row[1:], widths[1:], strict=True))
        for row in (first, *rest)
    ]
