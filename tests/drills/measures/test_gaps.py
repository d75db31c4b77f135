"""Blips of a recording with a gap in what they are measured over."""

import numpy as np
import pytest

from drills.measures.chord import ChordRun, Unchorded, Unscorable
from drills.measures.runs import measure_recording, without_gaps
from drills.trace import Trace, nanoseconds
from tests.drills.shapes import half_sine

DIPS = {2.0: 10.0, 3.0: 20.0}  # points off the brake by the blip that begins so many s in


def trace(*gaps: tuple[float, float]) -> Trace:
    """A run of two blips while 60 % are held, without the samples inside the gaps."""
    time = np.arange(0, 5, 0.001)
    throttle = np.sum([80 * half_sine(0.25)(time - onset) for onset in DIPS], axis=0)
    brake = 60 - np.sum([dip * half_sine(0.2)(time - at) for at, dip in DIPS.items()], axis=0)
    outside = np.all([(time <= begin) | (time >= end) for begin, end in gaps], axis=0)
    outside = outside if gaps else np.ones(time.size, dtype=bool)
    ns = np.array([nanoseconds(at) for at in time[outside].tolist()], dtype=np.int64)
    return Trace(ns, brake[outside], throttle[outside])


def runs(*gaps: tuple[float, float]) -> list[ChordRun | Unscorable]:
    """What is left of it."""
    return without_gaps(trace(*gaps), measure_recording(trace(*gaps)))


def test_without_gaps_nothing_changes() -> None:
    assert runs() == measure_recording(trace())


def test_a_run_is_made_of_the_blips_that_no_gap_falls_into() -> None:
    [run] = runs((3.1, 3.3))

    assert isinstance(run, ChordRun)
    (_, first), (_, second) = run.blips
    assert second is Unchorded.GAP
    assert not isinstance(first, Unchorded)
    assert run.dip == run.mean_dip == first.dip == pytest.approx(10, abs=0.02)
    assert (run.shortfall, run.extra_distance) == (first.shortfall, first.extra_distance)


def test_a_run_with_a_gap_in_every_blip_is_not_scored() -> None:
    [run] = runs((2.1, 2.25), (3.4, 3.55))

    assert isinstance(run, Unscorable)
    assert run.reason is Unchorded.GAP
    assert [why for _, why in run.blips] == [Unchorded.GAP, Unchorded.GAP]


# The first blip's throttle passes a tenth of its peak 0.008 s in (computed): its window begins
# 0.15 s before that.
@pytest.mark.parametrize(
    ("gap", "scored"),
    [
        ((1.70, 1.85), True),
        ((1.70, 1.87), False),
        ((2.0, 2.1), True),
        ((2.0, 2.102), False),
    ],
)
def test_a_gap_counts_where_it_is_longer_than_a_tenth_of_a_second_and_reaches_in(
    gap: tuple[float, float], scored: bool
) -> None:
    [run] = runs(gap)

    assert (run.blips[0][1] is not Unchorded.GAP) is scored
