"""Finding a pedal while the foot is on it though it should be off."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import Range
from engine.pedals.at_rest import AtRest
from engine.pedals.identity import Axis
from engine.pedals.trouble import Motion, Trouble
from tests.engine.pedals.feet import Rig

BRAKE = Axis(device=3, axis=1)
OTHER = Axis(device=3, axis=0)
WAYS = [Range(-1.0, 1.0), Range(1.0, -1.0), Range(0.0, 1.0), Range(0.9, -0.2)]
LIKE_A_WHEEL = (Range(0.0, 1.0), 60)
"""A pedal that rests in the middle of its axis, and is let go from this % of its travel."""
SPEEDS = [0.02, 0.1, 0.4, 1.0]
LOOK = 0.004


def on_pedal(ends: Range, percent: float) -> Rig:
    """Rig whose finder starts while the brake is pressed to a % of its travel."""
    return Rig({BRAKE: ends.raw(percent), OTHER: 0.0})


def follow(rig: Rig, ends: Range, took: float, hold: float) -> None:
    """Follow the screen until the pedal is found or after twenty movements."""
    for _ in range(20):
        if rig.finder.motion is Motion.FOUND:
            return
        down = rig.finder.motion in (Motion.FIND, Motion.FULL)
        rig.move(BRAKE, ends.full if down else ends.rest, then=hold, took=took)


def found(rig: Rig) -> Range:
    """Ends that were found."""
    assert rig.finder.found is not None
    assert rig.finder.found.axis == BRAKE
    return rig.finder.found.range


@pytest.mark.parametrize("ends", WAYS)
@pytest.mark.parametrize("percent", [10, 30, 40])
@pytest.mark.parametrize("took", SPEEDS)
def test_a_pedal_that_starts_half_pressed_is_found_with_its_true_rest(
    ends: Range, percent: float, took: float
) -> None:
    rig = on_pedal(ends, percent)

    follow(rig, ends, took, hold=0.7)

    assert found(rig).rest == pytest.approx(ends.rest, abs=0.04)
    assert found(rig).full == pytest.approx(ends.full, abs=0.04)


@pytest.mark.parametrize(
    ("ends", "percent"),
    [(ends, percent) for ends in WAYS for percent in (60, 100) if (ends, percent) != LIKE_A_WHEEL],
)
@pytest.mark.parametrize("took", SPEEDS)
def test_a_foot_that_is_lifted_instead_is_reported_and_the_search_starts_over(
    ends: Range, percent: float, took: float
) -> None:
    rig = on_pedal(ends, percent)

    rig.move(BRAKE, ends.rest, then=2.8, took=took)
    early = (rig.finder.motion, rig.finder.trouble)
    rig.stay(0.4)
    doubted = (rig.finder.motion, rig.finder.trouble)
    rig.stay(5.0)
    anew = (rig.finder.motion, rig.finder.trouble)
    follow(rig, ends, took, hold=0.7)

    assert early == (Motion.RELEASE, None)
    assert doubted == (Motion.RELEASE, Trouble.PRESSED)
    assert anew == (Motion.FIND, Trouble.PRESSED)
    assert rig.finder.trouble is None
    assert abs(found(rig).percent(ends.rest)) < 4
    assert abs(found(rig).percent(ends.full) - 100) < 4


@pytest.mark.parametrize("took", SPEEDS)
def test_a_pedal_that_comes_to_rest_in_the_middle_as_a_wheel_does_is_found_from_there(
    took: float,
) -> None:
    ends, percent = LIKE_A_WHEEL
    rig = on_pedal(ends, percent)

    rig.move(BRAKE, ends.rest, then=2.8, took=took)
    let_go = (rig.finder.motion, rig.finder.trouble)
    follow(rig, ends, took, hold=0.7)

    assert let_go == (Motion.FIND, None)
    assert found(rig).percent(ends.rest) == pytest.approx(0, abs=4)
    assert found(rig).percent(ends.full) == pytest.approx(100, abs=4)


def test_a_pedal_that_is_not_released_is_reported_after_3_s_and_given_up_after_8() -> None:
    rig = Rig({BRAKE: -1.0})
    rig.jump(BRAKE, 1.0, then=LOOK)
    seen = []

    rig.jump(BRAKE, 0.9, then=3.0)
    for wait in (LOOK, 5.0 - LOOK, LOOK):
        seen.append((rig.finder.motion, rig.finder.trouble))
        rig.stay(wait)
    seen.append((rig.finder.motion, rig.finder.trouble))

    assert seen == [
        (Motion.RELEASE, None),
        (Motion.RELEASE, Trouble.PRESSED),
        (Motion.RELEASE, Trouble.PRESSED),
        (Motion.FIND, Trouble.PRESSED),
    ]


def test_a_pedal_that_is_not_released_the_second_time_is_reported_and_given_up_too() -> None:
    rig = Rig({BRAKE: -1.0})
    for to in (1.0, -1.0):
        rig.move(BRAKE, to)
    seen = []

    rig.move(BRAKE, 1.0, then=0.7)
    for wait in (3.2, 5.5):
        seen.append((rig.finder.motion, rig.finder.trouble))
        rig.stay(wait)
    seen.append((rig.finder.motion, rig.finder.trouble))

    assert seen == [
        (Motion.AGAIN, None),
        (Motion.AGAIN, Trouble.PRESSED),
        (Motion.FIND, Trouble.PRESSED),
    ]


def test_the_report_disappears_when_the_pedal_moves() -> None:
    rig = Rig({BRAKE: -1.0})
    rig.move(BRAKE, 1.0, then=4.0)
    doubted = rig.finder.trouble

    rig.move(BRAKE, 0.5, then=0.1)
    moved = rig.finder.trouble
    rig.stay(3.2)
    again = rig.finder.trouble
    rig.move(BRAKE, -1.0)

    assert (doubted, moved, again) == (Trouble.PRESSED, None, Trouble.PRESSED)
    assert (rig.finder.motion, rig.finder.trouble) == (Motion.FULL, None)


def test_a_player_slow_to_press_fully_is_told_so_but_need_not_start_over() -> None:
    rig = Rig({BRAKE: -1.0})
    for to in (1.0, -1.0):
        rig.move(BRAKE, to)

    early = rig.said
    rig.stay(4.0)
    told = rig.said
    rig.stay(30.0)

    assert early == (Motion.FULL, None)
    assert told == rig.said == (Motion.FULL, Trouble.NOTHING)


def test_a_player_who_holds_every_end_for_five_seconds_need_not_start_over() -> None:
    rig = Rig({BRAKE: -1.0})

    for to in (1.0, -1.0, 1.0, -1.0):
        rig.move(BRAKE, to, then=5.0)

    assert found(rig).rest == pytest.approx(-1.0)
    assert found(rig).full == pytest.approx(1.0)


COURSES = st.lists(
    st.tuples(
        st.sampled_from([0.0, 0.0, 30.0, 60.0, 100.0, 100.0]),
        st.sampled_from([0.1, 0.6, 2.0]),
        st.sampled_from(SPEEDS),
    ),
    max_size=8,
)


def check(rig: Rig, ends: Range) -> AtRest:
    """Check after a pedal was found: the foot comes off and stays off for 7 s."""
    at_rest = AtRest({BRAKE: found(rig)})
    rig.fed = [at_rest]
    rig.move(BRAKE, ends.rest, then=7.0)
    return at_rest


@pytest.mark.parametrize("ends", WAYS)
@pytest.mark.parametrize("took", SPEEDS)
def test_a_foot_that_does_the_opposite_of_what_is_asked_is_detected(
    ends: Range, took: float
) -> None:
    rig = on_pedal(ends, 100)

    for to in (ends.rest, ends.full, ends.rest, ends.full):
        rig.move(BRAKE, to, took=took)
    at_rest = check(rig, ends)

    assert found(rig).percent(ends.rest) == pytest.approx(100, abs=4)
    assert (at_rest.rested, at_rest.pressed, at_rest.contradicts) == (False, BRAKE, True)


@given(ends=st.sampled_from(WAYS), start=st.sampled_from([0.0, 30.0, 100.0]), course=COURSES)
def test_swapped_ends_are_detected_however_the_foot_moves(
    ends: Range, start: float, course: list[tuple[float, float, float]]
) -> None:
    rig = on_pedal(ends, start)
    for percent, then, took in course:
        rig.move(BRAKE, ends.raw(percent), then=then, took=took)
    follow(rig, ends, took=0.1, hold=0.7)
    if rig.finder.found is None:
        return

    inverted = (found(rig).full > found(rig).rest) != (ends.full > ends.rest)
    at_rest = check(rig, ends)

    assert at_rest.contradicts == inverted
    assert at_rest.rested != inverted
