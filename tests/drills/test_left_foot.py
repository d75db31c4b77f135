"""Strokes of the simulated clutch: straight down and up, all the way, and dropped on request."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.left_foot import TRAVEL, LeftFoot

DT = 0.001
TAKES = round(TRAVEL / DT)
"""Steps from rest to the floor."""


def course(foot: LeftFoot, steps: int, begins: int = 0) -> list[float]:
    """Clutch at each of so many steps."""
    return [foot.at(step) for step in range(begins, begins + steps)]


def test_a_stroke_goes_straight_down_stays_and_comes_straight_up() -> None:
    foot = LeftFoot(DT)
    foot.plan(100, 400)

    clutch = course(foot, 600)

    assert clutch[100] == 0.0
    assert clutch[100 + TAKES // 2] == pytest.approx(50)
    assert set(clutch[100 + TAKES : 400]) == {100.0}
    assert clutch[400 + TAKES // 2] == pytest.approx(50)
    assert clutch[400 + TAKES :] == [0.0] * (200 - TAKES)


def test_a_stroke_that_would_come_up_at_once_still_goes_all_the_way_down() -> None:
    foot = LeftFoot(DT)
    foot.plan(10, 12)

    assert max(course(foot, 300)) == 100.0


def test_what_was_still_to_come_does_not_and_a_clutch_that_is_down_comes_up() -> None:
    foot = LeftFoot(DT)
    foot.plan(10, 500)
    foot.plan(700, 900)
    course(foot, 300)

    foot.drop(300)

    clutch = course(foot, 700, begins=300)
    assert clutch[0] == 100.0
    assert set(clutch[TAKES:]) == {0.0}


@given(st.lists(st.tuples(st.integers(0, 1500), st.integers(1, 600)), min_size=1, max_size=4))
def test_a_clutch_never_jumps_whatever_strokes_come_together(
    strokes: list[tuple[int, int]],
) -> None:
    foot = LeftFoot(DT)
    for down, lasts in strokes:
        foot.plan(down, down + lasts)

    clutch = course(foot, 2400)

    steps = [abs(after - before) for before, after in pairwise(clutch)]
    assert max(steps) <= 100 / TAKES + 1e-9
    assert clutch[-1] == 0.0
