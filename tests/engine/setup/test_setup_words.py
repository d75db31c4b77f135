"""Words about an end that moved, and about an axis that keeps moving."""

import re
from itertools import product

import pytest

from drills.trace import Pedal
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.trouble import Motion, Trouble
from engine.setup import words
from engine.setup.words import moved_end_words, moving_axis_words, trouble_words

LONGEST = 12
"""Most words of a sentence on a screen."""
CONSTANTS = {name: text for name, text in vars(words).items() if isinstance(text, str)}
"""Texts of the setup that stand for themselves."""


def sentences(text: str) -> list[str]:
    """Sentences of a text, with what stands after a colon as one of its own."""
    return [part for part in re.split(r"(?<=[.?:])\s", text) if part]


@pytest.mark.parametrize("pedal", Pedal)
def test_no_sentence_about_a_pedal_in_trouble_is_long(pedal: Pedal) -> None:
    told = [
        trouble_words(trouble, motion, pedal, "axis 1", 0.5)
        for trouble, motion in product(Trouble, Motion)
    ]
    fixed = [text for name, text in CONSTANTS.items() if name.isupper()]

    long = [
        one for text in [*told, *fixed] for one in sentences(text) if len(one.split()) > LONGEST
    ]

    assert len(told) > 50
    assert long == []


def test_a_foot_is_asked_about_only_where_one_may_be_on_the_pedal() -> None:
    _, above, _ = moved_end_words(MovedEnd(Pedal.THROTTLE, End.REST, 6.25))
    _, below, _ = moved_end_words(MovedEnd(Pedal.THROTTLE, End.REST, -4.0))

    assert "Is a foot on it" in above
    assert "foot" not in below
    assert "when it was set up" in below


def test_an_axis_that_keeps_moving_may_be_noisy() -> None:
    assert "is it noisy?" in moving_axis_words("axis 1")
