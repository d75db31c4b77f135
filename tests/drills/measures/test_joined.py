"""Close blips that share one chord: known notches, and lone blips that are measured as ever."""

from dataclasses import replace

import numpy as np
import pytest

from drills.measures.blip import find_blips, resting_throttle
from drills.measures.chord import (
    ChordDisturbance,
    ChordRun,
    Unchorded,
    Unscorable,
    measure_chords,
)
from drills.measures.distance import Stop
from drills.measures.disturbance import Unscored, pulses_of
from drills.measures.joined import measure_joined
from drills.trace import STEP, Grid, Trace
from tests.drills.kinds.made import TIME, bump, lines, square
from tests.drills.measures import plain
from tests.drills.measures.cases import cases
from tests.drills.measures.early_cases import early_cases
from tests.drills.shapes import Values

FIRST = 1.0
"""When the first blip comes, in s."""
DOWN = lines((0.0, 80.0), (4.0, 20.0))
"""A brake on its way down: 15 points a second."""


def run_of(
    brake: Values, at: list[float], length: float = 0.15, cut: float = 9.0
) -> ChordRun | Unscorable:
    """The blips that come at these times in s, each against its chord, close ones on one."""
    throttle = np.max([square(one, length) for one in at], axis=0)
    size = min(int((cut + 2.0) * 1000), TIME.size)
    time = np.arange(size, dtype=np.int64) * STEP
    grid = Grid.of(Trace(time, brake[:size], throttle[:size]))
    found = find_blips(grid)
    pulses = pulses_of(grid, found)
    assert not isinstance(pulses, Unscored)
    return measure_joined(grid, pulses, resting_throttle(grid, found[0]), Stop())


def parts(run: ChordRun | Unscorable) -> list[ChordDisturbance]:
    """What each blip did, of a run in which all are measured."""
    done = [one for _, one in run.blips if isinstance(one, ChordDisturbance)]
    assert len(done) == len(run.blips)
    return done


@pytest.mark.parametrize("apart", [0.2, 0.28, 0.36, 0.5, 0.8])
@pytest.mark.parametrize("blips", [2, 3, 4])
def test_blips_however_close_are_all_measured_and_each_reads_its_own_notch(
    apart: float, blips: int
) -> None:
    at = [FIRST + apart * k for k in range(blips)]
    depths = [6.0, 14.0, 3.0, 9.0][:blips]
    notches = np.sum(
        [bump(-depth, one, 0.1) for depth, one in zip(depths, at, strict=True)], axis=0
    )

    done = parts(run_of(DOWN + notches, at))

    assert [one.dip for one in done] == pytest.approx(depths, abs=0.2)
    assert [one.surge for one in done] == pytest.approx([0] * blips, abs=0.2)


def test_a_shared_chord_runs_on_from_blip_to_blip() -> None:
    at = [FIRST, FIRST + 0.25, FIRST + 0.5]

    done = parts(run_of(DOWN, at))

    # The way down is straight, and so the chord of each blip is that way: 15 points a second from
    # 0.1 s before the onset to 0.025 s before the end of its window.
    for one, onset in zip(done, at, strict=True):
        assert one.before == pytest.approx(80 - 15 * (onset - 0.1), abs=0.05)
        assert one.carry == pytest.approx(-15 * (one.stop - 2.0 - 0.025 - (onset - 0.1)), abs=0.05)


def test_a_brake_pulled_off_its_way_by_close_blips_together_is_a_dip_of_each() -> None:
    # A chord of its own would begin and end in the notch, and read no dip at all.
    at = [FIRST, FIRST + 0.25]
    notch = np.where((TIME > FIRST + 0.02) & (TIME < FIRST + 0.45), -12.0, 0.0)

    done = parts(run_of(DOWN + notch, at))

    assert [one.dip for one in done] == pytest.approx([12, 12], abs=0.3)


@pytest.mark.parametrize(
    ("brake", "cut", "reason"),
    [
        (np.where(TIME > FIRST + 0.4, 0.0, DOWN), 9.0, Unchorded.RELEASED),
        (DOWN, FIRST + 0.45, Unchorded.ENDS),
    ],
)
def test_close_blips_whose_last_leaves_nothing_to_measure_are_all_told_why(
    brake: Values, cut: float, reason: Unchorded
) -> None:
    run = run_of(brake, [FIRST, FIRST + 0.25], cut=cut)

    assert [done for _, done in run.blips] == [reason, reason]


def test_blips_that_leave_a_moment_between_them_have_a_chord_each() -> None:
    # The brake gives way at the first blip and stays there: 12 points that only the chord of the
    # first takes for intention.
    at = [FIRST, FIRST + 0.45]

    first, second = parts(run_of(DOWN + np.where(TIME > FIRST + 0.02, -12.0, 0.0), at))

    assert first.carry < -12
    assert second.before == pytest.approx(68 - 15 * (at[1] - 0.1), abs=0.05)
    assert second.dip == pytest.approx(0, abs=0.2)


def test_a_brake_released_between_close_blips_leaves_the_first_alone() -> None:
    gap = (TIME > FIRST + 0.16) & (TIME < FIRST + 0.21)

    run = run_of(np.where(gap, 0.0, DOWN), [FIRST, FIRST + 0.25])

    (_, first), (_, second) = run.blips
    assert first is Unchorded.RELEASED
    assert isinstance(second, ChordDisturbance)


def test_the_dips_of_close_blips_cost_the_road_of_one_stop() -> None:
    # The second begins at the speed that the first left, and so costs a little less.
    at = [FIRST, FIRST + 0.25]
    notches = bump(-20, at[0], 0.1) + bump(-20, at[1], 0.1)

    first, second = (one.extra_distance for one in parts(run_of(lines((0, 60.0)) + notches, at)))

    assert 0 < second < first


@pytest.mark.parametrize(
    "samples", [pytest.param(case, id=name) for name, case in (*cases(), *early_cases())]
)
def test_blips_that_are_not_close_are_measured_exactly_as_on_the_road(
    samples: plain.Samples,
) -> None:
    time, brake, throttle = zip(*samples, strict=True)
    grid = Grid.of(Trace(np.array(time, dtype=np.int64), np.array(brake), np.array(throttle)))
    found = find_blips(grid)
    pulses = pulses_of(grid, found) if found else Unscored.NO_BASE
    if isinstance(pulses, Unscored):
        return
    rest, road = resting_throttle(grid, found[0]), replace(Stop(), v0=45.0)

    alone = measure_chords(grid, pulses, rest, road)

    if all(done is not Unchorded.NEXT for _, done in alone.blips):
        assert measure_joined(grid, pulses, rest, road) == alone
