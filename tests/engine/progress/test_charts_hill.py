"""The hill of days practised: a step for each week, a layer for each day, a ridge for each year."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

import pygame
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.kit.hill import hill
from engine.kit.hill_weeks import MOST_YEARS, ridges
from engine.progress.days_words import days_words
from engine.progress.progress import Progress
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.progress.pictures import TODAY

AREA = Area(theme.MARGIN, 330.0, theme.WIDTH - 2 * theme.MARGIN, 540.0)
MONDAY = TODAY - timedelta(days=TODAY.weekday())
Days = Sequence[tuple[date, int]]


def shown(days: Days) -> Progress:
    """Progress of these days of practice."""
    return Progress(TODAY, days=tuple(days))


def drawn(days: Days) -> RecordingCanvas:
    """The hill of some days, at one pixel a canvas unit."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    hill(canvas, AREA, shown(days))
    return canvas


def ago(**weeks_and_days: int) -> date:
    """A day so long before this week's Monday."""
    return MONDAY - timedelta(**weeks_and_days)


def test_a_step_is_as_high_as_its_repetitions_and_a_week_of_rest_is_flat() -> None:
    canvas = drawn([(ago(weeks=3), 40), (ago(weeks=2), 20), (MONDAY, 10)])

    [edge] = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    heights = [edge[2 * week][1] for week in range(4)]
    ground = max(y for (_, y), _ in canvas.lines)
    risen = [round((ground - height) / (ground - heights[0]), 6) for height in heights]
    assert risen == [1.0, 0.5, 0.0, 0.25]
    assert all(edge[2 * week][1] == edge[2 * week + 1][1] for week in range(4))


def test_a_step_has_a_layer_for_each_day_practised_as_thick_as_its_repetitions() -> None:
    canvas = drawn([(MONDAY, 10), (MONDAY + timedelta(days=1), 30), (TODAY, 20)])

    [edge] = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    seams = sorted({start[1] for start, _ in canvas.lines if start[0] == edge[0][0]}, reverse=True)
    ground, first, second = seams
    top = edge[0][1]
    assert (ground - first) / (ground - top) == pytest.approx(10 / 60)
    assert (ground - second) / (ground - top) == pytest.approx(40 / 60)


def test_one_hill_begins_at_the_first_day_and_says_how_high_its_highest_step_is() -> None:
    canvas = drawn([(ago(weeks=30), 25), (ago(weeks=30, days=-2), 25), (TODAY, 15)])

    words = [text.text for text in canvas.texts]
    assert "50 repetitions in a week" in words
    assert {"16 Oct 2023", "today"} <= set(words)
    [edge] = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    assert edge[0][0] == AREA.left


def test_more_than_a_year_has_a_ridge_for_each_year_with_its_days_and_this_one_in_front() -> None:
    canvas = drawn([(date(2022, 3, 4), 30), (date(2024, 1, 2), 30), (TODAY, 30)])

    words = [text.text for text in canvas.texts]
    labels = [words[2 * number : 2 * number + 2] for number in range(3)]
    assert labels == [["2022", "1 day"], ["2023", "0 days"], ["2024", "2 days"]]
    assert words[6:] == [f"{date(2024, month, 1):%b}" for month in range(1, 13)]
    outlines = [colour for colour, _ in canvas.curves]
    assert outlines == [theme.EARLIER, theme.EARLIER, theme.BRAKE]


def test_a_day_is_in_the_week_and_the_year_it_was_practised_in() -> None:
    split = [(date(2022, 12, 31), 7), (date(2023, 1, 1), 9), (TODAY, 1)]

    found = {one.first.year: one for one in ridges(split, TODAY, 8)}

    assert [found[year].days for year in (2022, 2023, 2024)] == [1, 1, 1]
    assert found[2022].weeks[-1].total == 7
    assert found[2023].weeks[0].total == 9


def test_of_more_years_than_there_is_room_for_the_newest_are_drawn_and_the_rest_counted() -> None:
    days = [(date(year, 5, 2), 20) for year in range(2009, 2025)]

    canvas = drawn(days)

    years = [text.text for text in canvas.texts if text.text.isdigit()]
    assert years == [str(year) for year in range(2015, 2025)]
    assert len(years) == MOST_YEARS
    assert "Not drawn: 6 days of earlier years." in days_words(shown(days)).figures


@settings(max_examples=30, deadline=None)
@given(st.sets(st.integers(0, 4000), min_size=1, max_size=40), st.integers(1, 90))
def test_every_day_drawn_is_counted_once_and_no_two_words_touch(back: set[int], most: int) -> None:
    days = [
        (TODAY - timedelta(days=number), 1 + number % most) for number in sorted(back, reverse=True)
    ]

    canvas = drawn(days)

    hills = ridges(days, TODAY, 8)
    counted = [count for one in hills for week in one.weeks for count in week.counts]
    assert counted == [count for day, count in days if day >= hills[0].first]
    inks = [text.ink for text in canvas.texts]
    assert not any(one.colliderect(other) for one, other in pairwise(inks))
    assert all(canvas.picture.contains(ink) for ink in inks)
