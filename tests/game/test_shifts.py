"""Shifts on a virtual button in a real window, read back from the stored traces."""

import json

import numpy as np
import pytest

from drills.trace import SECOND
from engine.setup.saved_rigs import saved_binding
from engine.store import open_history
from engine.store.traces import trace_of
from tests.game.days import Day, ScriptedDays
from tests.game.foot_log import counted_of, longest_unread
from tests.game.shifting import HELD, LEVER, PRESSED, RUNS

READ = 0.002
"""Seconds between two reads of the loop."""
GRID = 0.001
"""Seconds in one step of the grid."""


@pytest.fixture
def day(days: ScriptedDays) -> Day:
    """The day of six shifts."""
    return days.day("six_shifts")


def test_the_button_is_bound_by_pressing_it_and_chooses_nothing_after_that(day: Day) -> None:
    with open_history(day.data, []) as history:
        binding = saved_binding(history)

    assert binding is not None
    assert binding.shift is not None
    assert (binding.shift.device.name, binding.shift.button) == ("Quiet Works Shifter", LEVER)


def test_six_shifts_are_stored_with_the_times_at_which_the_button_went_down(day: Day) -> None:
    pressed = np.array(json.loads((day.events.parent / PRESSED).read_text(encoding="utf-8")))
    runs = counted_of(day.data, day.events, "known-run")[-RUNS:]
    late = []

    for run in runs:
        with open_history(day.data, []) as history:
            trace = trace_of(history, run.number)
        assert trace is not None
        assert trace.shift is not None
        down = trace.time[1:][np.diff(trace.shift) > 0] + run.opened
        assert down.size == len(HELD)
        allowed = READ + GRID + longest_unread(trace)
        for moment in down.tolist():
            _, after = pressed[pressed[:, 0] <= moment][-1]
            late.append((moment - after) / SECOND - allowed)

    assert len(late) == RUNS * len(HELD)
    assert max(late) <= 0
