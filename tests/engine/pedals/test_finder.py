"""Finding a pedal by its movement, on axes of every kind."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import COUNTS, Range
from engine.pedals.identity import Axis
from engine.pedals.trouble import Motion, Trouble
from tests.engine.pedals.feet import Rig

BRAKE = Axis(device=3, axis=1)
OTHER = Axis(device=3, axis=0)
APART = Axis(device=9, axis=0)


def found(rig: Rig) -> tuple[Axis, float, float]:
    """Axis that was found, with its two ends."""
    found = rig.finder.found
    assert found is not None
    return found.axis, found.range.rest, found.range.full


def about(raw: float) -> Any:
    """Raw value within a count."""
    return pytest.approx(raw, abs=0.5 / COUNTS)


@pytest.mark.parametrize("odd", [-29999, -30000])
def test_the_ends_that_are_found_lie_on_whole_counts(odd: int) -> None:
    # Only a rest on a whole count lets a trace through it be kept as counts.
    rig = Rig({BRAKE: -30000 / COUNTS})

    for counts in (20000, -30000, 20000, odd):
        rig.move(BRAKE, counts / COUNTS)

    _, rest, full = found(rig)
    assert (rest * COUNTS).is_integer()
    assert (full * COUNTS).is_integer()


@pytest.mark.parametrize(
    ("rest", "full"),
    [(-1.0, 1.0), (1.0, -1.0), (0.0, 1.0), (0.0, -1.0), (-0.98, -0.2), (0.5, -0.5)],
)
def test_a_pedal_is_found_with_its_ends_whichever_way_it_goes(rest: float, full: float) -> None:
    rig = Rig({OTHER: 0.0, BRAKE: rest, APART: -1.0})

    rig.press(BRAKE, rest, full)

    assert found(rig) == (BRAKE, about(rest), about(full))


def test_each_step_waits_for_its_movement() -> None:
    rig = Rig({BRAKE: -1.0})
    steps = [rig.finder.motion]

    for to in (1.0, -1.0, 1.0, -1.0):
        rig.stay(5.0)
        rig.move(BRAKE, to)
        steps.append(rig.finder.motion)

    assert steps == [Motion.FIND, Motion.RELEASE, Motion.FULL, Motion.AGAIN, Motion.FOUND]


@pytest.mark.parametrize(("rest", "full"), [(-1.0, 1.0), (1.0, -1.0)])
def test_a_device_that_is_silent_until_moved_is_found_with_its_true_rest(
    rest: float, full: float
) -> None:
    rig = Rig({OTHER: 0.0, BRAKE: 0.0})
    first = rest + (full - rest) * 0.04

    rig.jump(BRAKE, first, then=0.0)
    rig.press(BRAKE, rest, full)

    assert found(rig) == (BRAKE, about(rest), about(full))


def test_a_half_axis_whose_first_report_comes_late_in_the_press_is_found() -> None:
    rig = Rig({BRAKE: 0.0})

    rig.jump(BRAKE, 0.4, then=0.0)
    rig.press(BRAKE, 0.0, 1.0)

    assert found(rig) == (BRAKE, 0.0, 1.0)


def test_a_pedal_on_a_second_device_is_found_there() -> None:
    rig = Rig({BRAKE: -1.0, APART: 1.0})

    rig.press(APART, 1.0, -1.0)

    axis, *ends = found(rig)
    assert axis == APART
    assert ends == pytest.approx([1.0, -1.0])


def test_a_noisy_axis_is_not_mistaken_for_the_pedal() -> None:
    rig = Rig({OTHER: 0.0, BRAKE: -1.0})
    rig.noise[OTHER] = lambda time: 0.2 * math.sin(97 * time)

    rig.press(BRAKE, -1.0, 1.0)

    axis, *ends = found(rig)
    assert axis == BRAKE
    assert ends == pytest.approx([-1.0, 1.0])


def test_a_noisy_pedal_is_found_with_ends_within_its_noise() -> None:
    rig = Rig({BRAKE: -0.9})
    rig.noise[BRAKE] = lambda time: 0.015 * math.sin(97 * time)

    rig.press(BRAKE, -0.9, 0.9)

    axis, *ends = found(rig)
    assert axis == BRAKE
    assert ends == pytest.approx([-0.9, 0.9], abs=0.016)


def test_a_small_movement_finds_no_pedal() -> None:
    rig = Rig({BRAKE: -1.0})

    rig.press(BRAKE, -1.0, -0.51)

    assert rig.finder.motion is Motion.FIND


def test_a_pedal_that_is_set_up_already_is_refused_until_another_is_pressed() -> None:
    rig = Rig({OTHER: -1.0, BRAKE: -1.0}, taken={BRAKE: Range(-1.0, 1.0)})
    finder = rig.finder

    rig.press(BRAKE, -1.0, 1.0)
    trouble, step = finder.trouble, finder.motion
    rig.press(OTHER, -1.0, 1.0)

    assert (trouble, step) == (Trouble.TAKEN, Motion.FIND)
    assert finder.trouble is None
    axis, *ends = found(rig)
    assert axis == OTHER
    assert ends == pytest.approx([-1.0, 1.0])


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_a_throttle_that_drives_the_axis_of_the_brake_the_other_way_shares_it(side: float) -> None:
    rig = Rig({BRAKE: 0.0}, taken={BRAKE: Range(0.0, side)})
    finder = rig.finder

    rig.press(BRAKE, 0.0, -side)

    assert finder.trouble is Trouble.SHARED
    assert finder.found is None


def test_after_a_stomp_a_softer_full_press_that_is_kept_sets_the_end() -> None:
    rig = Rig({BRAKE: -1.0})

    for to, then in ((1.0, 0.7), (-1.0, 0.7), (0.4, 3.2), (-1.0, 0.7)):
        rig.move(BRAKE, to, then)

    assert found(rig) == (BRAKE, about(-1.0), about(0.4))


def test_a_full_press_far_softer_than_the_first_is_not_accepted() -> None:
    rig = Rig({BRAKE: -1.0})

    for to in (1.0, -1.0, 0.1):
        rig.move(BRAKE, to)

    assert rig.finder.motion is Motion.FULL


def test_a_pedal_that_comes_nearly_all_the_way_back_rests_in_the_middle() -> None:
    rig = Rig({BRAKE: -1.0})

    for to in (1.0, -1.0, 1.0, -0.93):
        rig.move(BRAKE, to)

    assert found(rig) == (BRAKE, about(-0.965), about(1.0))


def test_a_pedal_that_comes_back_farther_than_before_rests_there() -> None:
    rig = Rig({BRAKE: -1.0})

    for to in (1.0, -0.8, 1.0, -1.0):
        rig.move(BRAKE, to)

    assert found(rig) == (BRAKE, about(-1.0), about(1.0))


@pytest.mark.parametrize("moves", [1, 2, 3])
def test_unplugging_the_device_midway_starts_the_search_over(moves: int) -> None:
    rig = Rig({BRAKE: -1.0, APART: -1.0})
    for to in (1.0, -1.0, 1.0)[:moves]:
        rig.move(BRAKE, to)

    del rig.values[BRAKE]
    rig.stay(0.1)
    step = rig.finder.motion
    rig.press(APART, -1.0, 1.0)

    assert step is Motion.FIND
    axis, *ends = found(rig)
    assert axis == APART
    assert ends == pytest.approx([-1.0, 1.0])


def test_unplugging_another_device_changes_nothing() -> None:
    rig = Rig({BRAKE: -1.0, APART: -1.0})
    rig.move(BRAKE, 1.0)

    del rig.values[APART]
    for to in (-1.0, 1.0, -1.0):
        rig.move(BRAKE, to)

    axis, *ends = found(rig)
    assert axis == BRAKE
    assert ends == pytest.approx([-1.0, 1.0])


def test_without_any_device_the_search_keeps_waiting() -> None:
    rig = Rig({})

    rig.stay(2.0)

    assert rig.finder.motion is Motion.FIND


def test_a_pedal_hardly_pressed_and_hardly_let_go_ends_the_search_without_an_error() -> None:
    rig = Rig({BRAKE: -1.0})

    for to in (-0.5, -0.876, -0.65, -0.82):
        rig.move(BRAKE, to)

    assert rig.finder.found is None


POSITIONS = st.lists(st.floats(-1.0, 1.0), max_size=6)


@given(opening=st.floats(-1.0, 1.0), positions=POSITIONS)
def test_however_a_pedal_is_moved_ends_that_are_found_make_a_scale(
    opening: float, positions: list[float]
) -> None:
    rig = Rig({BRAKE: opening})

    for position in positions:
        rig.move(BRAKE, position, then=0.6)

    assert (rig.finder.found is not None) == (rig.finder.motion is Motion.FOUND)
