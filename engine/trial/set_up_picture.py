"""Picture of a set-up of the foot: its name, its features, marked where they differ, its note."""

from __future__ import annotations

from collections.abc import Sequence

from engine.kit import theme
from engine.kit.base import title
from engine.kit.canvas import Canvas
from engine.trial.trial import SetUp
from engine.trial.words import set_up_words


def draw_set_up(canvas: Canvas, when: str, set_up: SetUp, changes: Sequence[bool]) -> float:
    """Draw a set-up under its heading; returns the top of what comes below, in canvas units.

    `when` is what the heading says before its name, such as "Now B"; `changes` tells which of its
    features the other set-up differs in.
    """
    left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
    y = title(canvas, canvas.cut(f"{when}: {set_up.name}", width, theme.LARGE))
    for line, differs in zip(set_up_words(set_up), changes, strict=True):
        if differs:
            canvas.shape([(left, y + 6), (left, y + 34), (left + 22, y + 20)], theme.BRAKE)
        colour = theme.TEXT if differs else theme.QUIET
        y = canvas.text(line, (left + 48, y), theme.BODY, colour) + 12
    if set_up.note:
        note = canvas.cut(f'Your note: "{set_up.note}"', width, theme.SMALL)
        y = canvas.text(note, (left, y + 6), theme.SMALL) + 10
    return y + 24
