"""One thing said large in the middle of a screen: centred, whole, and never out of its room."""

import pygame
import pytest

from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.statement import LARGEST, even_lines, fitting_size, statement
from tests.engine.kit.recording_canvas import RecordingCanvas

FULL = (theme.WIDTH, theme.HEIGHT)
SENTENCE = "Bring it back and try again, or all of it is written there once more."


@pytest.fixture(scope="module")
def fonts() -> Fonts:
    """Typeface, loaded without a window."""
    pygame.font.init()
    return Fonts()


@pytest.mark.parametrize("count", [0, 1, 3, 7])
@pytest.mark.parametrize("room", [(theme.TITLE, theme.BAR), (theme.TITLE, 620)])
def test_it_stands_in_the_middle_of_its_room_with_every_word(
    fonts: Fonts, count: int, room: tuple[float, float]
) -> None:
    canvas = RecordingCanvas(FULL, fonts)
    lines = [SENTENCE] * count

    statement(canvas, "The history is gone", *lines, note="a file", top=room[0], bottom=room[1])

    inks = [text.ink for text in canvas.texts]
    above, below = inks[0].top - room[0], room[1] - inks[-1].bottom
    assert " ".join(text.text for text in canvas.texts) == " ".join(
        ["The history is gone", *lines, "a file"]
    )
    assert min(above, below) >= 0
    assert abs(above - below) < 60
    assert {abs(ink.centerx - theme.WIDTH / 2) <= 4 for ink in inks} == {True}


def test_a_long_heading_shrinks_until_it_fits_its_line(fonts: Fonts) -> None:
    canvas = RecordingCanvas(FULL, fonts)

    short, long = (fitting_size(canvas, text, LARGEST) for text in ("Short", SENTENCE))

    assert short == LARGEST
    assert theme.SMALL <= long < LARGEST


def test_lines_are_as_few_as_can_be_and_about_equally_long(fonts: Fonts) -> None:
    canvas = RecordingCanvas(FULL, fonts)
    text = " ".join([SENTENCE] * 2)

    lines = even_lines(canvas, text, theme.BODY)

    widths = [canvas.measure(line, theme.BODY) for line in lines]
    assert " ".join(lines) == text
    assert len(lines) == 3 or (len(lines) == 2 and max(widths) <= theme.ACROSS)
    assert min(widths) > 0.75 * max(widths)
    assert even_lines(canvas, SENTENCE, theme.SMALL) == [SENTENCE]


def test_a_path_that_fits_a_line_is_not_broken(fonts: Fonts) -> None:
    canvas = RecordingCanvas(FULL, fonts)
    path = "/home/somebody/.local/share/stillfoot/history-damaged-2026-05-06.sqlite3"

    lines = even_lines(canvas, f"The damaged file is set aside, unchanged, and is now {path}", 56)

    assert path in " ".join(lines).split()
