"""One repetition of every kind in a real window, with pedals whose every movement is known."""

import sqlite3
from collections.abc import Mapping

import pytest

from drills.measures.catalogue import CATALOGUE
from drills.trace import Trace
from engine.store import open_history
from engine.store.history import FILE
from engine.store.repetitions import measures_of
from engine.store.traces import trace_of
from tests.game.days import Day, Plays
from tests.game.foot_log import Kept, judged_as_written, kept, longest_unread
from tests.game.kinds import BLIP, KINDS, Scripted
from tests.stored import all_results, sampling_of

GRID = 0.001  # s, a grid step
READ = 0.002  # s, as finely as the loop reads
POINT = 1.0  # %, and points of any sort
SHARE = 0.02  # of what has no unit
OFTEN = 0.005  # s, the scripted pedals report at least so often
FLAT = {"dip_at", "surge_at"}  # a half-sine is flat where it is greatest: no ms is told there

MIXED = "known-mixed"
LEVELS = [*(one.id for one in KINDS), MIXED]


def the_trace(day: Day, one: Kept) -> Trace:
    """The pedals as they were read."""
    with open_history(day.data, []) as history:
        trace = trace_of(history, one.number)
    assert trace is not None
    return trace


def off(
    day: Day, one: Kept, expected: Mapping[str, float | None]
) -> dict[str, tuple[float | None, float | None]]:
    """What was measured otherwise than expected, with that.

    A time may be off by what it is read by, a grid step, and what lay between two reports.
    """
    with open_history(day.data, []) as history:
        found, interval = (
            measures_of(history, one.number),
            sampling_of(history, one.number).report_interval,
        )
    assert interval is not None
    assert interval <= OFTEN
    times = READ + GRID + max(interval, longest_unread(the_trace(day, one)))
    allowed = {"s": times, "": SHARE}

    def agrees(name: str) -> bool:
        was, value = found[name], expected[name]
        if was is None or value is None:
            return was is value
        return abs(was - value) <= allowed.get(CATALOGUE[name].unit, POINT)

    return {name: (found[name], expected[name]) for name in expected if not agrees(name)}


@pytest.mark.parametrize("scripted", KINDS, ids=lambda one: one.kind)
def test_a_repetition_is_measured_as_it_was_made(scripted: Scripted, plays: Plays) -> None:
    day = plays.day("every_kind")

    one = kept(day.data, day.events, scripted.id)

    assert off(day, one, scripted.known) == {}


@pytest.mark.parametrize("level", LEVELS)
def test_what_was_read_is_worth_what_was_written(level: str, plays: Plays) -> None:
    day = plays.day("every_kind")
    one = kept(day.data, day.events, level)

    lasted = int(the_trace(day, one).time[-1])
    written = judged_as_written(day.data, day.events, one, lasted)

    sharp = {name: value for name, value in written.measures.items() if name not in FLAT}
    assert off(day, one, sharp) == {}
    assert written.clean


def test_a_mixed_level_draws_the_one_blip_that_is_passed(plays: Plays) -> None:
    day = plays.day("every_kind")
    one = kept(day.data, day.events, MIXED)

    with sqlite3.connect(day.data / FILE) as database:
        query = "SELECT kind, drawn FROM repetition WHERE id = ?"
        drawn = database.execute(query, (one.number,)).fetchone()

    assert off(day, one, BLIP.known) == {}
    assert drawn == ("blip", BLIP.id)


def test_every_repetition_was_clean(plays: Plays) -> None:
    with open_history(plays.day("every_kind").data, []) as history:
        counted = [result for result in all_results(history) if not result.void]

    assert [result.level for result in counted if not result.clean] == []
    assert {result.level for result in counted} == set(LEVELS)
