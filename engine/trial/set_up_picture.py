"""Picture of a set-up of the foot: its name, its features, marked where they differ, its note."""

from __future__ import annotations

from collections.abc import Sequence

from drills.remark import Headline
from engine.kit import theme
from engine.kit.base import title
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_figure
from engine.kit.typeface import Weight
from engine.trial.trial import Arm, SetUp
from engine.trial.words import set_up_words

FEATURE = 62
"""Height of the features in which a set-up differs from the other, in canvas units."""


def draw_set_up(
    canvas: Canvas, when: str, arm: Arm, place: str, set_up: SetUp, changes: Sequence[bool]
) -> float:
    """Draw a set-up and its large letter; returns the top of what comes below, in canvas units.

    `when` is what the heading says before its name, such as "Now"; `place` stands under the letter;
    `changes` tells which of its features the other set-up differs in.
    """
    left = theme.MARGIN
    width = draw_figure(canvas, Headline(arm.value, place))
    name = canvas.cut(f"{when}: {set_up.name}", width, theme.LARGE, Weight.BOLD)
    y = title(canvas, name) + 10
    for line, differs in zip(set_up_words(set_up), changes, strict=True):
        size = FEATURE if differs else theme.BODY
        if differs:
            middle = y + 0.32 * size
            corners = [(left, middle - 18), (left, middle + 18), (left + 28, middle)]
            canvas.shape(corners, theme.BRAKE)
        colour = theme.TEXT if differs else theme.QUIET
        y = canvas.text(line, (left + 56, y), size, colour) + 14
    if set_up.note:
        note = canvas.cut(f'Your note: "{set_up.note}"', theme.WIDTH - 2 * left, theme.SMALL)
        y = canvas.text(note, (left, y + 6), theme.SMALL) + 10
    return y + 24
