"""The charts of progress: round scales, marks at their values, and words outside the frames."""

import math
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import numpy as np
import pygame
import pytest

from drills.deviation import Deviation
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.kit.charts import GAP, Axes, framed, scale_across, scale_up, step_of, top_of
from engine.kit.charts_blips import STEPS, beyond_words, blips_chart, blips_reach
from engine.kit.charts_dates import day_marks
from engine.kit.charts_marks import dashed
from engine.kit.svg import SvgCanvas
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.changes import Change
from engine.progress.history_pages import PAGES
from engine.progress.progress import Progress
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.progress.made_weeks import blip
from tests.engine.progress.pictures import CHANGES, TODAY, progress

LEVELS = load_levels([SHIPPED])
AREA = Area(theme.MARGIN, 200.0, theme.WIDTH - 2 * theme.MARGIN, 620.0)
QUIET = "blips"


def drawn(progress: Progress, page: str) -> RecordingCanvas:
    """The chart of a page by its name, at one pixel a canvas unit."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    PAGES[page].paint(canvas, AREA, progress)
    return canvas


def frames(canvas: RecordingCanvas) -> list[pygame.Rect]:
    """Frame of each chart, from the lines at the numbers of its vertical scale."""
    found = dict[tuple[int, int], list[float]]()
    for (left, top), (right, bottom) in canvas.lines:
        if top == bottom and right - left > 300:
            found.setdefault((round(left), round(right)), []).append(top)
    return [
        pygame.Rect(left, min(ys), right - left, max(ys) - min(ys))
        for (left, right), ys in found.items()
    ]


def test_blips_beyond_the_scale_are_marked_and_put_in_words() -> None:
    quiet_ones = [blip(12.0)] * 60
    wild = [*quiet_ones, blip(70.0), blip(54.4)]

    reach = blips_reach(wild)

    assert reach == blips_reach(quiet_ones) == 15.0
    assert beyond_words(quiet_ones, reach) == ""
    assert beyond_words(wild, reach) == (
        "The largest leave the picture: 70 points down and 21 points up."
    )
    assert (arrows(quiet_ones, reach), arrows(wild, reach)) == (0, 4)


def arrows(pictures: list[Deviation], reach: float) -> int:
    """Number of arrows in a chart of some blips."""
    paper = SvgCanvas(theme.WIDTH, theme.HEIGHT)
    blips_chart(paper, AREA, "Blips", pictures, blip(12.0), reach)
    # One polygon is what the typical blip loses.
    return paper.done("Blips").count("<polygon") - 1


@pytest.mark.parametrize("most", [0.05, 0.31, 1.0, 2.4, 7.0, 19.9, 20.0, 33.0, 100.0, 4711.0])
def test_a_scale_ends_on_a_round_step_with_at_most_three_of_them(most: float) -> None:
    step, top = step_of(top_of(most)), top_of(most)

    digit = step / 10 ** math.floor(math.log10(step * 1.000001))
    assert round(digit, 6) in (1, 2, 5)
    assert round(top / step, 6) in (1, 2, 3)
    assert top >= most
    assert top - most < step or most < 0.3


@pytest.mark.parametrize(("height", "numbers"), [(620.0, 3), (240.0, 3), (170.0, 2)])
def test_the_numbers_of_a_low_chart_do_not_touch(height: float, numbers: int) -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    frame = framed(Area(theme.MARGIN, 200.0, 900.0, height))

    scale_up(canvas, Axes(frame, 0.0, 1.0, 0.0, 20.0), "points")

    inks = [text.ink for text in canvas.texts if text.text != "points"]
    assert len(inks) == numbers
    assert not any(one.colliderect(other) for one, other in pairwise(inks))


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (1, ["17 May"]),
        (7, ["11 May", "12 May", "13 May", "14 May", "15 May", "16 May", "17 May"]),
        (30, ["18 Apr", "25 Apr", "2 May", "9 May", "16 May"]),
        (365, ["Jul", "Sep", "Nov", "2024", "Mar", "May"]),
        (3650, ["2016", "2018", "2020", "2022", "2024"]),
    ],
)
def test_days_are_named_by_day_month_or_year_as_fits(days: int, words: list[str]) -> None:
    first = TODAY - timedelta(days=days - 1)

    marks = day_marks(first, TODAY)

    assert [word for _, word in marks] == words
    assert all(one[0] < other[0] for one, other in pairwise(marks))
    assert all(first.toordinal() <= day <= TODAY.toordinal() for day, _ in marks)


@pytest.mark.parametrize("days", [1, 2, 8, 15, 60, 120, 400, 900, 2000, 9000, 20000])
def test_there_are_never_more_words_than_fit_under_a_chart(days: int) -> None:
    assert 1 <= len(day_marks(TODAY - timedelta(days=days - 1), TODAY)) <= 9


def test_the_median_of_each_day_stands_at_its_height_and_its_day() -> None:
    shown = progress(LEVELS, 30)

    dots = [centre for centre, colour in drawn(shown, "dip").discs if colour == theme.BRAKE]

    x, y = np.array(dots).T
    medians = [one.middle for one in shown.dips.bins]
    days = [one.first.toordinal() for one in shown.dips.bins]
    assert len(dots) == 30
    assert np.corrcoef(y, medians)[0, 1] == pytest.approx(-1.0, abs=1e-9)
    assert np.corrcoef(x, days)[0, 1] == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    ("days", "page"),
    [
        *((days, page) for days in (1, 365, 3650) for page in (QUIET, "dip", "learning")),
        *((days, "steadiness") for days in (30, 365, 3650)),
    ],
)
def test_no_word_lies_in_the_frame_of_a_chart(days: int, page: str) -> None:
    shown = progress(LEVELS, days, CHANGES if days > 365 else ())

    canvas = drawn(shown, page)

    assert len(frames(canvas)) == (2 if page == QUIET and days > 13 else 1)
    assert not [
        one.text for one in canvas.texts for frame in frames(canvas) if frame.colliderect(one.ink)
    ]


@pytest.mark.parametrize(
    ("ago", "words"),
    [(12, "comes two weeks after the first blip"), (13, "comes with the next blips")],
)
def test_the_place_of_a_week_that_is_not_there_yet_says_when_it_comes(ago: int, words: str) -> None:
    alone = replace(progress(LEVELS, 30), weeks=progress(LEVELS, 30).weeks[:1])

    canvas = drawn(replace(alone, today=alone.weeks[0].first + timedelta(days=ago)), QUIET)

    assert words in [one.text for one in canvas.texts]


def test_a_change_is_a_dashed_line_at_its_day() -> None:
    without, changed = (drawn(progress(LEVELS, 365, some), "dip") for some in ((), CHANGES))

    upright = {points[0][0] for _, points in changed.curves if points[0][0] == points[1][0]}
    before = {points[0][0] for _, points in without.curves if points[0][0] == points[1][0]}
    first, last = TODAY.toordinal() - 364.5, TODAY.toordinal() + 0.5
    [frame] = frames(changed)
    shares = sorted((x - frame.left) / frame.width for x in upright - before)
    marked = [one.at.date().toordinal() for one in CHANGES[1:]]
    expected = [(day - first) / (last - first) for day in marked]
    assert shares == pytest.approx(expected, abs=0.002)


def test_a_change_after_the_newest_bin_of_a_learning_curve_is_in_its_frame() -> None:
    shown = progress(LEVELS, 365)
    kind = shown.kinds[0]
    late = replace(kind, changes=((kind.bins[-1].last + 40, CHANGES[0]),))

    without, changed = (
        drawn(replace(shown, kinds=(one, *shown.kinds[1:])), "learning") for one in (kind, late)
    )

    [frame] = frames(changed)
    upright, before = (
        {points[0][0] for _, points in canvas.curves if points[0][0] == points[1][0]}
        for canvas in (changed, without)
    )
    [x] = upright - before
    assert x == pytest.approx(frame.right, abs=1)


@pytest.mark.parametrize("changes", [(), CHANGES])
def test_the_curve_begins_at_its_first_repetition_at_floor_plus_gain(
    changes: tuple[Change, ...],
) -> None:
    shown = progress(LEVELS, 365, changes)
    kind = shown.kinds[0]

    canvas = drawn(shown, "learning")

    [frame] = frames(canvas)
    count, curve = kind.bins[-1].last, kind.learning.curve
    begun = (points[0] for _, points in canvas.curves if points[0][0] != points[-1][0])
    x, y = next(point for point in begun if point[1] >= frame.top)  # the legend is above
    assert curve is not None
    assert (x - frame.left) / frame.width == pytest.approx(kind.curve_begins / count, abs=0.002)
    top = top_of(max(bin_.high for bin_ in kind.bins))
    assert (frame.bottom - y) / frame.height * top == pytest.approx(
        curve.floor + curve.gain, abs=0.1
    )


def test_the_first_median_is_dashed_beside_the_bold_one_of_this_week() -> None:
    canvas = drawn(progress(LEVELS, 30), QUIET)

    middle = AREA.left + AREA.width / 2
    dashes = [points for colour, points in canvas.curves if colour == theme.TEXT]
    bold = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    assert len(dashes) > 20
    assert min(x for points in dashes for x, _ in points) > middle
    lowest_first, lowest_this = (
        max(y for points in curves for _, y in points) for curves in (dashes, bold[2:])
    )
    assert lowest_first > lowest_this  # further down the picture, so a deeper dip


def test_dashes_follow_a_line_with_gaps_between() -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())

    dashed(canvas, [(100.0, 100.0), (740.0, 100.0), (740.0, 420.0)], theme.TEXT, 3)

    lengths = [
        sum(math.dist(one, other) for one, other in pairwise(points)) for _, points in canvas.curves
    ]
    assert lengths == pytest.approx([18.0] * 30)  # 960 units in dashes of 18 and gaps of 14


def test_values_outside_a_scale_are_placed_at_its_edge() -> None:
    axes = Axes(Area(100.0, 100.0, 400.0, 200.0), 0.0, 10.0, -5.0, 5.0)

    assert axes.place(-3.0, 99.0) == (100.0, 100.0)
    assert axes.place(10.0, -99.0) == (500.0, 300.0)
    assert axes.place(5.0, 0.0) == (300.0, 200.0)


def test_labels_under_a_chart_are_left_out_where_they_would_touch() -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    axes = Axes(Area(200.0, 100.0, 500.0, 400.0), 0.0, 8.0, 0.0, 1.0)

    scale_across(canvas, axes, [(float(n), "a month") for n in range(9)])

    row = sorted((text.ink.left, text.ink.right) for text in canvas.texts)
    assert 3 <= len(row) < 9
    assert all(following[0] - one[1] >= GAP for one, following in pairwise(row))


def test_labelled_times_are_one_two_or_five_of_a_power_of_ten_apart() -> None:
    assert {f"{step:.0e}"[0] for step in STEPS} == {"1", "2", "5"}
