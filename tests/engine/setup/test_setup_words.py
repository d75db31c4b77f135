"""Words about an end that moved, and about an axis that keeps moving."""

from drills.trace import Pedal
from engine.pedals.moved_ends import End, MovedEnd
from engine.setup.words import moved_end_words, moving_axis_words


def test_a_foot_is_asked_about_only_where_one_may_be_on_the_pedal() -> None:
    _, above, _ = moved_end_words(MovedEnd(Pedal.THROTTLE, End.REST, 6.25))
    _, below, _ = moved_end_words(MovedEnd(Pedal.THROTTLE, End.REST, -4.0))

    assert "Is a foot on it" in above
    assert "foot" not in below
    assert "when it was set up" in below


def test_an_axis_that_keeps_moving_may_be_noisy() -> None:
    assert "is it noisy?" in moving_axis_words("axis 1")
