"""Drives over kerbs, which shake the pedals: no blip is found that no foot made, and none is lost.

A spike is a half sine of 5 to 25 ms, as a pedal shows that a kerb has thrown about; shaking is a
row of them.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from drills.measures import blip
from drills.trace import SECOND
from tests.drills.measures.drive import Drive, drive
from tests.drills.measures.test_trail import against_the_chord
from tests.drills.shapes import Values, grid_of, half_sine

MINUTES = 22
RATE = 333  # samples a second, about as `stillfoot record` reads
CLEAR = 0.5  # s, how far spikes stay from the middle of a blip where its dip is to stay true


@cache
def smooth() -> Drive:
    """The drive without kerbs."""
    return drive(7, MINUTES, RATE)


@cache
def shaken(clear: float) -> Drive:
    """The same drive over kerbs: spikes in both pedals while braking, alone and in rows.

    They stay so many s from the middle of each blip.
    """
    made, rng = smooth(), np.random.default_rng(8)
    time = made.trace.time / SECOND
    brake, throttle = made.trace.brake.copy(), made.trace.throttle.copy()
    braked = np.flatnonzero(brake > 20)
    for at in rng.choice(time[braked], 150):
        for row in range(int(rng.choice([1, 1, 1, 6]))):
            spike = float(at) + row * rng.uniform(0.035, 0.06)
            if np.abs(made.onsets + 0.1 - spike).min() >= clear:
                _strike(rng, time, spike, throttle, brake)
    trace = replace(made.trace, brake=np.clip(brake, 0, 100), throttle=np.clip(throttle, 0, 100))
    return replace(made, trace=trace)


def _strike(
    rng: np.random.Generator, time: Values, at: float, throttle: Values, brake: Values
) -> None:
    """One kerb: both pedals are thrown up, or the brake down, for some milliseconds."""
    shape = half_sine(rng.uniform(0.005, 0.025))(time - at)
    throttle += rng.uniform(12, 45) * shape
    brake += rng.choice([-1, 1]) * rng.uniform(5, 25) * shape


def test_no_kerb_is_taken_for_a_blip_and_no_blip_is_lost() -> None:
    without, over = against_the_chord(smooth()), against_the_chord(shaken(CLEAR))

    assert (over.false, over.missed) == (0, 0)
    assert over.scored == without.scored > 300
    assert over.error < 2.5


def test_a_kerb_in_the_middle_of_a_blip_neither_hides_it_nor_makes_two_of_it() -> None:
    over = against_the_chord(shaken(0.0))

    assert (over.false, over.missed) == (0, 0)


def test_the_same_spikes_were_blips_if_a_foot_could_be_so_quick(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(blip, "NARROWEST", 0)

    assert against_the_chord(shaken(CLEAR)).false > 20


@pytest.mark.parametrize(("width", "found"), [(29, 0), (30, 1)])
def test_a_pulse_counts_from_three_hundredths_of_a_second_at_half_its_height(
    width: int, found: int
) -> None:
    time = np.arange(0, 2, 0.001)
    brake, throttle = np.full(time.size, 60.0), np.full(time.size, 4.0)
    throttle[1000:1060] = 40.0
    throttle[1010 : 1010 + width] = 84.0

    assert len(blip.find_blips(grid_of(brake, throttle), floor=4.0)) == found
