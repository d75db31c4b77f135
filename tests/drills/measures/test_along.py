"""Chords that follow a line: known notches beside lines that bend, and straight lines as ever."""

import random
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.measures.along import chord_along
from drills.measures.blip import find_blips, resting_throttle
from drills.measures.chord import AFTER_MEAN, FROM, ChordDisturbance, chord_of
from drills.measures.distance import Stop
from drills.measures.disturbance import Unscored, pulses_of
from drills.measures.joined import measure_joined
from drills.measures.zone import asked_at
from drills.trace import SECOND, STEP, Grid, Trace
from tests.drills.kinds.made import CUE, TIME, bump, square
from tests.drills.measures.zone_feet import line_of
from tests.drills.shapes import Values

POINT = 1000
"""Grid index of the braking point."""
NUMBERS = [field.name for field in fields(ChordDisturbance) if field.name != "lag"]
ABOUT_THE_CHORD = [*("early", "dip", "surge", "shortfall", "excess", "coupling"), "stop"]
"""Names of the numbers that say nothing of the height of the chord itself."""

seeds = st.integers(0, 10_000)
spacings = st.sampled_from([0.22, 0.3, 0.45, 0.7])


def line_from(seed: int) -> Values:
    """Brake that some corner asks at each grid point, in %."""
    points = np.arange(TIME.size, dtype=np.int64)
    return asked_at(line_of(random.Random(seed)), points, POINT)


def measured(
    brake: Values, at: list[float], line: Values | None = None
) -> tuple[Grid, list[ChordDisturbance]]:
    """What short blips at these times in s each did, and the grid they were measured on."""
    throttle = np.max([square(one, 0.15) for one in at], axis=0)
    grid = Grid.of(Trace(np.arange(TIME.size, dtype=np.int64) * STEP, brake, throttle))
    found = find_blips(grid)
    pulses = pulses_of(grid, found)
    assert not isinstance(pulses, Unscored)
    run = measure_joined(grid, pulses, resting_throttle(grid, found[0]), Stop(), 0, line)
    return grid, [done for _, done in run.blips if isinstance(done, ChordDisturbance)]


def notches(at: list[float], depths: list[float]) -> Values:
    """Brake that is lost at each blip, in points, 0.1 s long."""
    lost: Values = np.sum(
        [bump(-depth, one, 0.1) for depth, one in zip(depths, at, strict=True)], axis=0
    )
    return lost


@settings(max_examples=25)
@given(seeds, spacings, st.floats(0.6, 1.4), st.floats(-6, 6))
def test_a_foot_that_keeps_its_distance_from_any_line_reads_its_notches_alone(
    seed: int, apart: float, first: float, away: float
) -> None:
    at, depths, line = (
        [1.0 + first + apart * k for k in range(3)],
        [4.0, 15.0, 8.0],
        line_from(seed),
    )
    line = line + 20.0

    _, done = measured(line + away + notches(at, depths), at, line)

    assert [one.dip for one in done] == pytest.approx(depths, abs=0.2)
    assert [one.surge for one in done] == pytest.approx([0, 0, 0], abs=0.1)


@settings(max_examples=25)
@given(st.floats(-15, 15), st.floats(30, 90), spacings)
def test_beside_a_straight_line_every_number_is_that_of_a_straight_chord(
    slope: float, high: float, apart: float
) -> None:
    at = [1.0, 1.0 + apart]
    line = high + slope * (TIME - 1.0)
    brake = 60.0 - 8.0 * TIME + notches(at, [12.0, 7.0])

    _, along = measured(brake, at, line)

    for one, other in zip(along, measured(brake, at)[1], strict=True):
        for name in NUMBERS:
            value = getattr(other, name)
            expected = None if value is None else pytest.approx(value, abs=1e-6)
            assert getattr(one, name) == expected, name


@settings(max_examples=25)
@given(seeds, spacings, st.floats(-20, 20))
def test_the_numbers_about_a_chord_are_those_of_a_straight_one_with_the_bend_taken_away(
    seed: int, apart: float, slope: float
) -> None:
    # The line bends at both; the same brake without that bend has straight chords.
    at, line = [1.5, 1.5 + apart], line_from(seed) + 20.0
    held = 40.0 + slope * (TIME - 1.5) / 10 + notches(at, [12.0, 7.0])

    _, along = measured(line + held, at, line)

    for one, other in zip(along, measured(held, at)[1], strict=True):
        for name in ABOUT_THE_CHORD:
            value = getattr(other, name)
            # A mean lies half a grid step beside its place: 0.05 points on a slope of 100 a second.
            expected = None if value is None else pytest.approx(value, abs=0.1)
            assert getattr(one, name) == expected, name


@settings(max_examples=25)
@given(seeds, spacings, st.floats(0, 12))
def test_the_chord_that_is_drawn_is_the_one_that_was_measured(
    seed: int, apart: float, sag: float
) -> None:
    at, line = [2.0, 2.0 + apart], line_from(seed) + 20.0
    brake = line + notches(at, [12.0, 7.0]) - sag * np.clip((TIME - 1.75) / 0.1, 0, 1)

    grid, done = measured(brake, at, line)

    pulses = pulses_of(grid, find_blips(grid))
    assert not isinstance(pulses, Unscored)
    for pulse, one in zip(pulses, done, strict=True):
        inside = np.arange(pulse.first - FROM, grid.index(round(one.stop * SECOND)), dtype=np.int64)
        seconds = (grid.start + inside * STEP) / SECOND
        chord = chord_along(lambda at: np.interp(at, CUE + TIME, line), pulse, one, seconds)
        assert one.dip == pytest.approx(max(0.0, float((chord - brake[inside]).max())), abs=1e-6)
        if not one.is_early:
            assert one.before == pytest.approx(chord[0], abs=1e-6)
            assert one.after == pytest.approx(chord[-AFTER_MEAN // 2], abs=1e-6)
            assert one.surge == pytest.approx(
                max(0.0, float((brake[inside] - chord).max())), abs=1e-6
            )


def test_a_chord_along_a_level_line_is_the_straight_one() -> None:
    at, seconds = [2.0], np.linspace(3.9, 4.4, 50)
    grid, [done] = measured(60.0 + notches(at, [12.0]) - 3.0 * TIME, at)
    pulses = pulses_of(grid, find_blips(grid))
    assert not isinstance(pulses, Unscored)
    [pulse] = pulses

    along = chord_along(lambda at: np.full(at.shape, 33.0), pulse, done, seconds)
    assert along == pytest.approx(chord_of(pulse, done, seconds))
