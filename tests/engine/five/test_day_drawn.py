"""Places in the pictures of a day: a row in its area, and steadiness over days."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pygame
import pytest

from engine.five.day import Day, Part
from engine.five.day_best import Better, better_of
from engine.five.day_end import LINES, DayEnd
from engine.five.day_figures import A_ROW, LINE, PAIR, STEP, draw_lines, draw_parts
from engine.five.day_figures import PITCH as APART
from engine.five.day_pictures import PITCH, DaySteadiness, draw_day, draw_row, draw_steadiness
from engine.five.day_words import Line
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.kit.repetition_marks import Mark
from tests.engine.five.day_pictures import views
from tests.engine.five.pictures import TODAY
from tests.engine.five.test_day_best import BEST, CLIMBED, DAYS
from tests.engine.kit.plots import dipped
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded

AREA = Area(200.0, 300.0, 1500.0, 500.0)


def canvas() -> RecordingCanvas:
    """Empty canvas at one pixel per canvas unit."""
    pygame.font.init()
    return RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())


@pytest.mark.parametrize(("count", "lines"), [(1, 1), (9, 1), (25, 1), (26, 3), (100, 6)])
def test_a_row_stands_in_even_lines_in_the_middle_of_its_area(count: int, lines: int) -> None:
    drawn = canvas()

    draw_row(drawn, AREA, count, 1.0)

    places = list(dict.fromkeys(centre for centre, _ in drawn.discs))
    columns, heights = (sorted(set(at)) for at in zip(*places, strict=True))
    pitch = 2 * (columns[0] - AREA.left)
    assert (len(places), len(heights)) == (count, lines)
    assert pitch <= PITCH
    assert columns == pytest.approx([AREA.left + (n + 0.5) * pitch for n in range(len(columns))])
    assert columns[-1] + pitch / 2 <= AREA.right + 1e-9
    middle = AREA.top + AREA.height / 2
    assert heights == pytest.approx([middle + (n + 0.5 - lines / 2) * pitch for n in range(lines)])
    assert heights[-1] + pitch / 2 <= AREA.top + AREA.height + 1e-9


def test_steadiness_is_drawn_by_its_days_and_lower_as_it_gets_narrower() -> None:
    drawn = canvas()
    values = ((40, 12.0), (10, 9.0), (0, 6.0))
    points = [DaySteadiness(TODAY - timedelta(days=ago), value) for ago, value in values]

    draw_steadiness(drawn, AREA, points, TODAY, 1.0)

    [(x1, y1), (x2, y2)] = next(at for colour, at in drawn.curves if colour == theme.BRAKE)
    (x0, y0), colour = drawn.discs[0]
    assert colour == theme.EARLIER
    assert (x1 - x0) / (x2 - x0) == pytest.approx(30 / 40)
    assert y1 - y0 == pytest.approx(y2 - y1)
    assert AREA.top < y0 < y1 < y2 < AREA.top + AREA.height
    assert (drawn.discs[-1][0], drawn.discs[-1][1]) == ((x2, y2), theme.TEXT)
    assert [text.text for text in drawn.texts] == ["±12.0 on 7 Apr", "now"]


def test_a_change_of_steadiness_by_a_little_is_not_drawn_as_a_fall() -> None:
    drawn = canvas()
    points = [DaySteadiness(TODAY - timedelta(days=9), 6.5), DaySteadiness(TODAY, 6.0)]

    draw_steadiness(drawn, AREA, points, TODAY, 0.0)

    (_, first), (_, now) = (disc[0] for disc in drawn.discs)
    assert 0 < now - first < AREA.height / 5
    assert len(drawn.discs) == 2


def test_a_best_score_whose_curves_are_not_measured_is_shown_over_the_hill() -> None:
    day = DAYS[Better.SCORE]
    unmeasured = replace(dipped(), bounds=())
    drawn = canvas()

    draw_day(drawn, AREA, replace(day, views=views(curves={BEST.level: [unmeasured]})), 1.0)

    assert better_of(day) is Better.SCORE
    assert any("in a week" in text.text for text in drawn.texts)


@pytest.mark.parametrize(("count", "pitch"), [(2, PAIR), (3, PAIR), (5, 100.0)])
def test_what_stands_beside_the_parts_is_apart_and_has_its_note_below(
    count: int, pitch: float
) -> None:
    drawn = canvas()

    draw_lines(drawn, (900.0, 300.0), 500.0, [Line(f"{n} days", f"note {n}") for n in range(count)])

    words, notes = drawn.texts[::2], drawn.texts[1::2]
    assert [text.text for text in notes] == [f"note {n}" for n in range(count)]
    tops = [text.ink.top for text in words]
    assert [top - tops[0] for top in tops] == pytest.approx(
        [n * pitch for n in range(count)], abs=1
    )
    assert all(text.ink.bottom < note.ink.top for text, note in zip(words, notes, strict=True))


@pytest.mark.parametrize("count", [3, 9])
def test_a_part_with_a_second_line_of_marks_moves_the_next_one_down_by_that_line(
    count: int,
) -> None:
    drawn = canvas()
    long = Part("long", (Mark.CLEAN,) * (A_ROW + 1))

    draw_parts(drawn, (100.0, 300.0), 500.0, [long] * count)

    tops = [text.ink.top for text in drawn.texts]
    pitch = min((500.0 - count * LINE) / count, APART)
    assert [top - tops[0] for top in tops] == pytest.approx(
        [n * (pitch + LINE) for n in range(count)], abs=1
    )


@pytest.mark.parametrize("count", range(1, A_ROW + 1))
def test_the_marks_of_a_part_keep_clear_of_what_is_said_beside_them(count: int) -> None:
    drawn = canvas()

    draw_parts(drawn, (theme.MARGIN, 300.0), 500.0, [Part("new", (Mark.CLEAN,) * count)])

    assert len(drawn.discs) == count
    assert max(centre[0] for centre, _ in drawn.discs) + 0.32 * STEP < LINES - theme.SMALL


def test_a_row_is_as_many_discs_as_its_figure_says() -> None:
    for row in (1, 2, 27, 28, 137, 400):
        day: Day = replace(DAYS[Better.ROW], row=row)
        drawn = recorded(DayEnd(day))

        centres = {centre for centre, _ in drawn.discs}
        assert len(centres) == row
        gaps = [math.dist(one, other) for one in centres for other in centres if one < other]
        assert min(gaps, default=99.0) > 10


@pytest.mark.parametrize("better", [Better.PASSED, Better.RETAINED])
def test_only_the_marks_that_changed_that_day_are_bright_on_the_climb(better: Better) -> None:
    rise = CLIMBED.rise
    assert rise is not None
    drawn = recorded(DayEnd(DAYS[better]))

    bright = {centre for centre, colour in drawn.discs if colour == theme.BRAKE}

    assert len(bright) == len(rise.marks) > 0
