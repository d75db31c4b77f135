"""One repetition of every kind in a real window, with pedals whose every movement is known."""

import sqlite3
from collections.abc import Mapping
from contextlib import closing

import pytest

from drills.measures.catalogue import CATALOGUE
from drills.trace import Trace
from engine.store import open_history
from engine.store.history import FILE
from engine.store.repetitions import measures_of
from engine.store.traces import trace_of
from tests.game.days import Day, ScriptedDays
from tests.game.foot_log import PlayedRepetition, judged_as_written, last_counted, longest_unread
from tests.game.kinds import BLIP, KINDS, Scripted
from tests.stored import all_results, sampling_of

GRID = 0.001
"""Seconds in one step of the grid."""
READ = 0.002
"""Seconds between two reads of the loop."""
POINT = 1.0
"""Points by which a measure in percent or points may be off."""
SHARE = 0.02
"""Amount by which a measure without a unit may be off."""
OFTEN = 0.005
"""Longest time in seconds between two reports of the scripted pedals."""
FLAT = {"dip_at", "surge_at"}
"""Measures left out: a half-sine is flat at its top, so the time of its top is not exact."""

MIXED = "known-mixed"
"""Id of the mixed level."""
LEVELS = [*(scripted.id for scripted in KINDS), MIXED]
"""Ids of all levels that are played."""


def stored_trace(day: Day, repetition: PlayedRepetition) -> Trace:
    """Trace of a repetition."""
    with open_history(day.data, []) as history:
        trace = trace_of(history, repetition.number)
    assert trace is not None
    return trace


def wrong_measures(
    day: Day, repetition: PlayedRepetition, expected: Mapping[str, float | None]
) -> dict[str, tuple[float | None, float | None]]:
    """Measures that differ from what is expected: found and expected value, by name.

    A time may be off by the time between two reads, a grid step, and the time between two reports.
    """
    with open_history(day.data, []) as history:
        found, interval = (
            measures_of(history, repetition.number),
            sampling_of(history, repetition.number).report_interval,
        )
    assert interval is not None
    assert interval <= OFTEN
    times = READ + GRID + max(interval, longest_unread(stored_trace(day, repetition)))
    allowed = {"s": times, "": SHARE}

    def agrees(name: str) -> bool:
        measured, value = found[name], expected[name]
        if measured is None or value is None:
            return measured is value
        return abs(measured - value) <= allowed.get(CATALOGUE[name].unit, POINT)

    return {name: (found[name], expected[name]) for name in expected if not agrees(name)}


@pytest.mark.parametrize("scripted", KINDS, ids=lambda scripted: scripted.kind)
def test_a_scripted_repetition_has_the_measures_that_were_scripted(
    scripted: Scripted, days: ScriptedDays
) -> None:
    day = days.day("every_kind")

    repetition = last_counted(day.data, day.events, scripted.id)

    assert wrong_measures(day, repetition, scripted.known) == {}


@pytest.mark.parametrize("level", LEVELS)
def test_what_was_read_has_the_measures_of_what_was_written(level: str, days: ScriptedDays) -> None:
    day = days.day("every_kind")
    repetition = last_counted(day.data, day.events, level)

    lasted = int(stored_trace(day, repetition).time[-1])
    written = judged_as_written(day.data, day.events, repetition, lasted)

    sharp = {name: value for name, value in written.measures.items() if name not in FLAT}
    assert wrong_measures(day, repetition, sharp) == {}
    assert written.clean


def test_a_mixed_level_draws_the_only_blip_that_is_passed(days: ScriptedDays) -> None:
    day = days.day("every_kind")
    repetition = last_counted(day.data, day.events, MIXED)

    with closing(sqlite3.connect(day.data / FILE)) as database:
        query = "SELECT kind, drawn FROM repetition WHERE id = ?"
        drawn = database.execute(query, (repetition.number,)).fetchone()

    assert wrong_measures(day, repetition, BLIP.known) == {}
    assert drawn == ("blip", BLIP.id)


def test_every_repetition_was_clean(days: ScriptedDays) -> None:
    with open_history(days.day("every_kind").data, []) as history:
        counted = [result for result in all_results(history) if not result.void]

    assert [result.level for result in counted if not result.clean] == []
    assert {result.level for result in counted} == set(LEVELS)
