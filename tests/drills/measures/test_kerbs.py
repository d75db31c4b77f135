"""Drives over kerbs, which shake the pedals: no false blip is found, and no true one is lost."""

from functools import cache

import numpy as np
import pytest

from drills.measures import blip
from tests.drills.measures.drive import Drive, drive
from tests.drills.measures.kerbs import CLEAR, over_kerbs
from tests.drills.measures.test_trail import against_the_chord
from tests.drills.shapes import grid_of


@cache
def smooth() -> Drive:
    """The drive without kerbs: 22 minutes, read about as often as `stillfoot record` reads."""
    return drive(7, 22, 333)


def test_no_kerb_is_taken_for_a_blip_and_no_blip_is_lost() -> None:
    without, over = against_the_chord(smooth()), against_the_chord(over_kerbs(smooth(), CLEAR, 8))

    assert (over.false, over.missed) == (0, 0)
    assert over.scored == without.scored > 300
    assert over.error < 2.5


def test_a_kerb_in_the_middle_of_a_blip_neither_hides_it_nor_makes_two_of_it() -> None:
    over = against_the_chord(over_kerbs(smooth(), 0.0, 8))

    assert (over.false, over.missed) == (0, 0)


def test_the_same_spikes_were_blips_if_a_foot_could_be_so_quick(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(blip, "NARROWEST", 0)

    assert against_the_chord(over_kerbs(smooth(), CLEAR, 8)).false > 20


@pytest.mark.parametrize(("width", "found"), [(29, 0), (30, 1)])
def test_a_pulse_counts_from_three_hundredths_of_a_second_at_half_its_height(
    width: int, found: int
) -> None:
    brake, throttle = np.full(2000, 60.0), np.full(2000, 4.0)
    throttle[1000:1060] = 40.0
    throttle[1010 : 1010 + width] = 84.0

    assert len(blip.find_blips(grid_of(brake, throttle), floor=4.0)) == found
