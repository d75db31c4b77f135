"""Ends of the pedals that moved since they were set up, noticed from repetition to repetition."""

from collections.abc import Sequence

import pytest

from drills.trace import Pedal, Sample
from engine.pedals.moved_ends import End, LastingEnds, MovedEnd, MovedEnds

STEP = 1_000_000


def played(brake: Sequence[float], throttle: Sequence[float] = (0.0,)) -> LastingEnds:
    """Ends of a repetition; each position is kept for half a second."""
    ends = LastingEnds()
    for number in range(500 * max(len(brake), len(throttle))):
        at = number // 500
        here = [course[min(at, len(course) - 1)] for course in (brake, throttle)]
        ends.feed(Sample(number * STEP, here[0], here[1]))
    return ends


def noticed(*repetitions: LastingEnds) -> list[MovedEnd | None]:
    """What is noticed first after each of some repetitions."""
    watch = MovedEnds()
    return [next(iter(watch.take(one)), None) for one in repetitions]


def resting(brake: float = 0.0, throttle: float = 0.0) -> LastingEnds:
    """Repetition of a brake of 60 % and a blip, with pedals that rest at these positions."""
    return played([brake, 60.0, 60.0, brake], [throttle, throttle, 65.0, throttle])


def pressed(most: float) -> LastingEnds:
    """Repetition in which the brake is pressed to a position."""
    return played([0.0, most, 0.0])


@pytest.mark.parametrize(
    ("pedal", "percent"),
    [(Pedal.BRAKE, 5.5), (Pedal.BRAKE, -6.0), (Pedal.THROTTLE, 4.0)],
)
def test_a_rest_that_is_off_in_three_repetitions_in_a_row_is_noticed(
    pedal: Pedal, percent: float
) -> None:
    off = resting(**{pedal.value: percent})

    assert noticed(off, off, off) == [None, None, MovedEnd(pedal, End.REST, percent)]


def test_rests_within_their_limits_are_not_noticed() -> None:
    assert noticed(*[resting(4.9, 3.4)] * 12) == [None] * 12


def test_a_pedal_that_came_back_once_in_three_has_not_moved() -> None:
    off = resting(throttle=6.0)

    assert noticed(off, off, resting(), off, off) == [None] * 5


def test_a_foot_left_on_the_brake_is_no_rest_as_it_is_another_each_time() -> None:
    assert noticed(resting(6.0), resting(9.5), resting(7.0), resting(11.0)) == [None] * 4


def test_a_rest_that_creeps_up_is_noticed_before_a_repetition_cannot_begin() -> None:
    for creep in (0.1, 0.3, 0.5):
        until = round(5.0 / creep)
        found = noticed(*(resting(throttle=creep * number) for number in range(until)))

        first = next(one for one in found if one is not None)

        assert (first.pedal, first.end) == (Pedal.THROTTLE, End.REST)
        assert first.percent < 5.0


def test_a_repetition_that_never_found_its_target_suffices() -> None:
    watch = MovedEnds()

    found = watch.take(played([0.0], [8.0] * 20), found_target=False)

    assert found == [MovedEnd(Pedal.THROTTLE, End.REST, 8.0)]


def test_every_end_that_moved_is_named_so_that_none_hides_another() -> None:
    watch = MovedEnds()
    for _ in range(3):
        found = watch.take(played([6.0, 120.0, 6.0], [7.0]))

    assert found == [
        MovedEnd(Pedal.BRAKE, End.REST, 6.0),
        MovedEnd(Pedal.THROTTLE, End.REST, 7.0),
        MovedEnd(Pedal.BRAKE, End.FULL, 120.0),
    ]


def test_a_full_that_is_passed_in_three_of_ten_repetitions_is_noticed() -> None:
    soft, hard = pressed(80.0), pressed(118.0)

    found = noticed(hard, soft, soft, hard, soft, hard)

    assert found == [*[None] * 5, MovedEnd(Pedal.BRAKE, End.FULL, 118.0)]


def test_presses_past_full_that_are_rare_are_not_noticed() -> None:
    soft, hard = pressed(80.0), pressed(118.0)

    assert noticed(*[hard, *[soft] * 4] * 4) == [None] * 20
    assert noticed(*[pressed(109.0)] * 12) == [None] * 12


def test_a_brake_that_is_pressed_again_at_once_did_not_rest() -> None:
    ends = LastingEnds()
    for number in range(3000):
        brake = 60.0 if number < 2000 else 20.0 + abs(number - 2400) / 10
        ends.feed(Sample(number * STEP, brake, 0.0))

    assert ends.rest(Pedal.BRAKE) is None
    assert noticed(*[ends] * 5) == [None] * 5


def test_a_pedal_that_was_not_read_for_a_moment_did_not_rest_there() -> None:
    ends = LastingEnds()
    for number in range(40):
        ends.feed(Sample(number * 100 * STEP, (60.0, 12.0)[number % 2], 0.0))

    assert (ends.rest(Pedal.BRAKE), ends.press(Pedal.BRAKE)) == (None, None)


@pytest.mark.parametrize("jump", [200.0, -200.0])
def test_a_jump_of_the_device_moves_no_end(jump: float) -> None:
    ends = LastingEnds()
    for number in range(3000):
        is_jump = number % 400 < 100
        ends.feed(Sample(number * STEP, jump if is_jump else 50.0, 0.0))

    assert (ends.rest(Pedal.BRAKE), ends.press(Pedal.BRAKE)) == (50.0, 50.0)


def test_a_repetition_that_was_left_at_once_says_nothing() -> None:
    ends = LastingEnds()
    ends.feed(Sample(0, 7.0, 7.0))

    assert ends.rest(Pedal.BRAKE) is None
    assert noticed(*[ends] * 5) == [None] * 5


@pytest.mark.parametrize(
    ("end", "declined", "now", "worse"),
    [
        (End.REST, 6.0, 7.9, False),
        (End.REST, 6.0, 8.0, True),
        (End.REST, -6.0, -8.0, True),
        (End.FULL, 112.0, 116.9, False),
        (End.FULL, 112.0, 117.0, True),
    ],
)
def test_an_end_is_worse_once_it_moved_on(
    end: End, declined: float, now: float, worse: bool
) -> None:
    assert MovedEnd(Pedal.BRAKE, end, now).is_worse(declined) is worse
