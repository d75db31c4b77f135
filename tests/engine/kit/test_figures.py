"""Row of figures: columns alike where there is room, and as wide as their numbers where not."""

from itertools import pairwise

import pygame
import pytest

from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.figures import CLOSE, Figure, draw_figures
from tests.engine.kit.recording_canvas import RecordingCanvas, Text

WIDTH = theme.WIDTH - 2.0 * theme.MARGIN
SHORT = [Figure(name, "12") for name in ("one", "two", "three", "four", "five")]
LONG = [Figure("typical dip", "12.9 points"), Figure("middle half", "10.9 to 14.9"), *SHORT[2:]]


def values(row: list[Figure]) -> list[Text]:
    """The numbers of a row as they are drawn, from left to right."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    draw_figures(canvas, (theme.MARGIN, 100.0), WIDTH, row)
    return canvas.texts[1::2]


def test_columns_are_alike_where_numbers_are_short() -> None:
    lefts = [value.ink.left for value in values(SHORT)]

    assert [right - left for left, right in pairwise(lefts)] == pytest.approx(
        [WIDTH / 5] * 4, abs=1
    )


def test_long_numbers_do_not_read_as_one() -> None:
    inks = [value.ink for value in values(LONG)]

    gaps = [after.left - before.right for before, after in pairwise(inks)]
    assert min(gaps) >= CLOSE - 5
    assert inks[-1].right <= theme.WIDTH - theme.MARGIN
    assert {value.size for value in values(LONG)} == {theme.LARGE}
