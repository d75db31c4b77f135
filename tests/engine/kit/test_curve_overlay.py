"""Curves on top of each other: only those of one scale, and only limits that hold for each."""

from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import Bound, Deviation
from engine.kit.curve_overlay import comparable, median_curve

DIP = Bound("dip 30", -30.0, None, (0.0, 1.0))
END = Bound("end ±8", -8.0, 8.0, (0.9, 1.2))
TIME = np.linspace(-0.5, 1.5, 21)


def picture(level: float, *bounds: Bound, span: tuple[float, float] = (-0.5, 1.5)) -> Deviation:
    """A level line, that many points off."""
    return Deviation(TIME, np.full(21, level), span, bounds=bounds)


def test_the_scale_that_most_have_is_shown() -> None:
    blips = [picture(1.0, DIP), picture(2.0, DIP)]
    hold = picture(3.0, DIP, span=(0.0, 5.0))

    assert comparable([blips[0], hold, blips[1]]) == blips


def test_of_two_scales_as_many_the_later_one_is_shown() -> None:
    blip, hold = picture(1.0, DIP), picture(3.0, DIP, span=(0.0, 5.0))

    assert comparable([blip, hold]) == [hold]


def test_what_was_not_measured_is_laid_over_nothing() -> None:
    assert comparable([picture(1.0)]) == []
    assert comparable([]) == []


def test_a_limit_that_holds_for_one_alone_is_not_drawn_over_the_others() -> None:
    closer = replace(DIP, label="dip 15", low=-15.0)

    middle = median_curve([picture(-20.0, DIP, END), picture(-10.0, closer, END)])

    assert [bound.label for bound in middle.bounds] == ["end ±8"]


def test_the_middle_is_the_median_on_a_scale_with_room_for_each() -> None:
    wide = replace(picture(-20.0, DIP), reach=55.0)

    middle = median_curve([wide, picture(-10.0, DIP), picture(-12.0, DIP)])

    assert middle.reach == 55.0
    assert middle.deviation == pytest.approx(np.full(21, -12.0))
