"""Finding a pedal beside axes that are not it: a wheel, a refused axis, another pedal."""

import pytest

from engine.pedals.seeking import Seeker
from engine.pedals.trouble import Motion, Trouble
from tests.engine.pedals.feet import Rig
from tests.engine.pedals.searching import BRAKE, THROTTLE, WHEEL, about, at_full, ends, rig


def test_a_wheel_that_is_turned_a_little_to_both_sides_is_named() -> None:
    one = rig()

    for to in (0.3, -0.2):
        one.move(WHEEL, to, then=0.5)

    assert one.said == (Motion.FIND, Trouble.TURNS)
    assert one.finder.about == WHEEL


def test_a_brake_is_found_beside_a_wheel_that_is_turned() -> None:
    one = rig()
    one.move(WHEEL, 0.3)
    one.move(WHEEL, -0.2)

    one.press(BRAKE, -1.0, 1.0)

    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_wheel_that_goes_on_through_its_start_and_back_is_not_taken() -> None:
    one = rig()

    for to in (0.7, -0.6, 0.3):
        one.move(WHEEL, to, then=0.1)

    assert one.said == (Motion.FIND, Trouble.THROUGH)
    assert one.finder.about == WHEEL


def test_a_wheel_held_on_its_other_side_is_not_taken_once_it_is_turned_on() -> None:
    one = rig()

    for to in (0.6, -0.3, -0.9):
        one.move(WHEEL, to)

    assert one.said == (Motion.FIND, Trouble.THROUGH)


def test_a_brake_is_found_beside_a_wheel_that_never_rests() -> None:
    noise = {BRAKE: 0.0}
    seeker = Seeker(noise, {}, ())

    for step in range(1200):
        brake = -1.0 if step < 1100 else 1.0
        seeker.feed(step * 10_000_000, {BRAKE: brake, WHEEL: 0.3 * (-1) ** step})

    assert seeker.found == BRAKE
    assert WHEEL not in seeker.noise


@pytest.mark.parametrize("held", [0.6, -0.6, 0.8, 0.3])
@pytest.mark.parametrize("swing", [0.0, 0.3], ids=["at once", "through the middle and back"])
def test_a_wheel_that_was_turned_before_and_is_let_go_is_not_taken(
    held: float, swing: float
) -> None:
    one = Rig({BRAKE: -1.0, WHEEL: held})
    one.move(WHEEL, -swing if held > 0 else swing, then=0.0)

    one.move(WHEEL, 0.01, then=1.5)
    let_go = one.said
    one.press(BRAKE, -1.0, 1.0)

    assert let_go == (Motion.FIND, None)
    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_wheel_that_was_let_go_is_measured_from_the_middle() -> None:
    one = Rig({BRAKE: -1.0, WHEEL: 0.7})
    one.move(WHEEL, 0.0, then=1.0)

    for to in (0.3, -0.2):
        one.move(WHEEL, to, then=0.5)

    assert one.said == (Motion.FIND, Trouble.TURNS)


def test_a_wheel_that_is_let_go_while_the_brake_is_released_does_not_replace_it() -> None:
    one = Rig({BRAKE: -1.0, WHEEL: 0.7})
    one.move(BRAKE, 1.0)
    one.move(BRAKE, -1.0)

    one.move(WHEEL, 0.0, then=4.0)

    assert (one.finder.axis, one.finder.motion) == (BRAKE, Motion.FULL)


@pytest.mark.parametrize(("rest", "full"), [(-0.6, 0.7), (0.5, -0.9), (0.4, 1.0)])
def test_a_pedal_that_rests_where_a_turned_wheel_may_is_found(rest: float, full: float) -> None:
    one = Rig({BRAKE: rest, WHEEL: 0.0})

    one.press(BRAKE, rest, full)

    assert ends(one) == (BRAKE, about(rest), about(full))


def test_a_foot_that_rested_on_the_pedal_is_not_mistaken_for_a_wheel() -> None:
    one = Rig({BRAKE: -0.6})

    one.press(BRAKE, -1.0, 1.0)

    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_refused_axis_is_ignored() -> None:
    one = Rig({BRAKE: -1.0, WHEEL: 0.02}, refused=[WHEEL])

    one.move(WHEEL, 0.9, then=0.1)
    one.move(WHEEL, 0.02)
    first = one.said
    one.press(BRAKE, -1.0, 1.0)

    assert first == (Motion.FIND, None)
    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_refused_axis_that_is_held_down_is_taken_after_all() -> None:
    one = Rig({BRAKE: -1.0, WHEEL: 0.02}, refused=[BRAKE])

    one.move(BRAKE, 1.0, then=2.8)
    told = (one.said, one.finder.about)
    one.stay(0.4)

    assert told == ((Motion.FIND, Trouble.REFUSED), BRAKE)
    assert (one.finder.motion, one.finder.axis, one.finder.refused) == (
        Motion.RELEASE,
        BRAKE,
        set(),
    )


def test_another_pedal_that_is_held_down_replaces_the_one_that_was_found() -> None:
    one = rig()
    one.move(WHEEL, 0.7)
    one.move(WHEEL, 0.02)

    one.move(BRAKE, 1.0, then=2.8)
    told = (one.said, one.finder.about, one.finder.axis)
    one.stay(0.4)
    taken = (one.finder.motion, one.finder.axis, one.finder.refused)
    for to in (-1.0, 1.0, -1.0):
        one.move(BRAKE, to)

    assert told == ((Motion.FULL, Trouble.OTHER), BRAKE, WHEEL)
    assert taken == (Motion.RELEASE, BRAKE, {WHEEL})
    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_throttle_that_goes_down_with_the_brake_is_not_taken_instead() -> None:
    one = at_full(0.3)

    one.move(THROTTLE, 1.0, then=4.0)

    assert one.finder.axis == BRAKE
