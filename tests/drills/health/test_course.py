"""The half minute that a player is led through."""

from itertools import pairwise

import pytest

from drills.health.course import LENGTH, Step, course_of, part_at
from drills.trace import Pedal

TWO = (Pedal.BRAKE, Pedal.THROTTLE)


@pytest.mark.parametrize("pedals", [TWO, tuple(Pedal)], ids=["two", "three"])
def test_it_lasts_thirty_seconds_without_a_gap_and_begins_and_ends_with_the_feet_off(
    pedals: tuple[Pedal, ...],
) -> None:
    parts = course_of(pedals)

    assert (parts[0].begins, parts[-1].ends) == (0, LENGTH)
    assert all(before.ends == after.begins for before, after in pairwise(parts))
    assert parts[0].step is parts[-1].step is Step.OFF
    assert [(part.step, part.pedal) for part in parts[1:-1]] == [
        (step, pedal) for pedal in pedals for step in (Step.PRESS, Step.HOLD, Step.STABS)
    ]


@pytest.mark.parametrize(
    ("seconds", "step"),
    [
        *[(0.0, Step.OFF), (1.99, Step.OFF), (2.0, Step.PRESS), (6.99, Step.PRESS)],
        *[(7.0, Step.HOLD), (11.0, Step.STABS), (29.99, Step.OFF), (31.0, Step.OFF)],
    ],
)
def test_a_part_begins_at_its_beginning_and_the_last_one_stays(seconds: float, step: Step) -> None:
    assert part_at(course_of(TWO), seconds).step is step
