"""The deviation plot at any curve: what it writes, marks and fills, and that nothing overlaps."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.deviation import Average, MarkedTime, WorstPlace
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.deviation_plot import RING, deviation
from tests.engine.kit.plots import (
    ALLOWED,
    CORNER,
    SIZE,
    TIME,
    Drawn,
    dipped,
    misplaced,
    one_thing,
    random_picture,
)


@pytest.fixture(scope="module")
def fonts() -> Fonts:
    """Typeface, loaded without a window."""
    pygame.font.init()
    return Fonts()


@pytest.mark.parametrize("seed", range(60))
def test_whatever_the_curve_all_words_are_inside_and_none_on_another(
    seed: int, fonts: Fonts
) -> None:
    assert misplaced(fonts, random_picture(seed)) == []


@pytest.mark.parametrize("seed", range(60))
def test_whatever_the_curve_the_worst_number_and_the_limit_are_written(
    seed: int, fonts: Fonts
) -> None:
    picture = random_picture(seed)

    said = one_thing(fonts, picture).said

    if picture.worst is not None and picture.worst.label:
        assert picture.worst.label in said
    if picture.decides is not None:
        assert picture.decides.label in said
    if picture.timing is not None:
        assert picture.timing.label in said
    if picture.average is not None:
        assert {picture.average.label, picture.average.limit} <= {*said}
    is_of_middle = picture.average is not None and picture.average.middle
    assert ("average" if is_of_middle else picture.zero) in said


@pytest.mark.parametrize("seed", range(60))
def test_whatever_the_curve_it_stays_between_the_edges_of_its_picture(
    seed: int, fonts: Fonts
) -> None:
    drawing = one_thing(fonts, random_picture(seed))

    points = [at for _, line in [*drawing.curves, *drawing.shapes] for at in line]
    right, bottom = CORNER[0] + SIZE[0], CORNER[1] + SIZE[1]
    assert all(CORNER[0] <= x <= right and CORNER[1] <= y <= bottom for x, y in points)


def test_the_worst_place_is_marked_on_the_curve_itself(fonts: Fonts) -> None:
    drawing = one_thing(fonts, dipped())

    [curve] = [line for colour, line in drawing.curves if colour == theme.BRAKE]
    lowest = max(curve, key=lambda at: at[1])
    assert drawing.discs
    assert all(centre == pytest.approx(lowest, abs=2) for centre, _ in drawing.discs)
    [number] = [text.ink for text in drawing.texts if text.text == "22"]
    assert abs(number.centery - lowest[1]) < 100
    assert RING < abs(number.centerx - lowest[0]) < 200


def test_only_the_limit_that_decided_is_drawn_and_named(fonts: Fonts) -> None:
    drawing = one_thing(fonts, dipped())

    dots = {box.centery for box in drawing.boxes if box.size == (7, 4)}
    assert len(dots) == 1
    assert drawing.said == ["held", "cue", "0.5 s", "1 s", "blip", "22", "15 allowed"]


@pytest.mark.parametrize(("worst", "below"), [(-22.0, True), (6.0, False)])
def test_of_a_limit_to_both_sides_only_that_of_the_worst_place_is_drawn(
    worst: float, below: bool, fonts: Fonts
) -> None:
    both = replace(ALLOWED, low=-5.0, high=5.0)

    drawing = one_thing(fonts, dipped(worst=WorstPlace(0.1, worst, ""), decides=both))

    zero = next(text.ink.centery for text in drawing.texts if text.text == "held")
    [dots] = {box.centery for box in drawing.boxes if box.size == (7, 4)}
    assert (dots > zero) == below


def test_nothing_is_filled_that_the_deciding_limit_does_not_judge(fonts: Fonts) -> None:
    late = replace(ALLOWED, during=(0.1, 1.0))

    drawing = one_thing(fonts, dipped(decides=late))

    [fill] = [points for colour, points in drawing.shapes if colour == theme.DIP]
    [curve] = [line for colour, line in drawing.curves if colour == theme.BRAKE]
    lowest = max(curve, key=lambda at: at[1])
    assert min(x for x, _ in fill) == pytest.approx(lowest[0], abs=10)


@pytest.mark.parametrize(("worst", "below"), [(-22.0, True), (6.0, False)])
def test_only_the_failing_side_near_the_worst_place_is_filled(
    worst: float, below: bool, fonts: Fonts
) -> None:
    at = 0.1 if below else 0.6
    drawing = one_thing(fonts, dipped(worst=WorstPlace(at, worst, "")))

    [fill] = [points for colour, points in drawing.shapes if colour == theme.DIP]
    zero = fill[0][1]
    assert all((y >= zero) == below or y == zero for _, y in fill)


@pytest.mark.parametrize(("area", "parts"), [(0, 0), (-1, 1), (1, 2)])
def test_an_area_that_decided_is_filled_wherever_the_brake_was_on_its_side(
    area: int, parts: int, fonts: Fonts
) -> None:
    curve = np.interp(TIME, [-0.5, 0.0, 0.3, 0.6, 1.0, 1.5], [-0.0, 5.0, -9.0, 4.0, 6.0, 7.0])

    drawing = one_thing(fonts, dipped(deviation=curve, worst=None, decides=None, area=area))

    assert [colour for colour, _ in drawing.shapes].count(theme.DIP) == parts


@pytest.mark.parametrize("size", [2.0, -2.0, 4.0, -4.0])
def test_an_average_is_one_solid_line_beside_the_one_allowed(size: float, fonts: Fonts) -> None:
    most = np.sign(size) * 3.0
    average = Average(
        line=(size, size),
        allowed=(most, most),
        during=((-0.5, 1.5),),
        label=f"{abs(size):g}",
        limit="3 allowed",
        sides=(round(np.sign(size)),),
    )
    picture = dipped(worst=None, decides=None, average=average, throttle=None)

    drawing = one_thing(fonts, picture)

    ink = {text.text: text.ink for text in drawing.texts}
    zero, number, limit = ink["held"].centery, ink[average.label], ink["3 allowed"]
    [dots] = {box.centery for box in drawing.boxes if box.size == (7, 4)}
    [solid] = [start[1] for start, end in drawing.lines[-1:]]
    fills = [points for colour, points in drawing.shapes if colour == theme.DIP]
    out = -np.sign(size)
    assert out * (solid - zero) > 5
    assert (out * (solid - dots) > 0) == (abs(size) > 3.0)
    assert (out * (number.centery - limit.centery) > 0) == (abs(size) > 3.0)
    assert fills
    assert all(out * (y - zero) >= -4 for points in fills for _, y in points)
    curve = max(x for _, line in drawing.curves for x, _ in line)
    assert curve < min(number.left, limit.left)


def test_wander_is_drawn_about_its_own_average(fonts: Fonts) -> None:
    average = Average(
        (4.0, 4.0),
        (5.0, 5.0),
        ((-0.5, 1.5),),
        "4",
        "5 allowed",
        (-1, 1),
        middle=8.0,
        zero="average",
    )
    wander = 8.0 + 4.0 * np.sign(np.sin(20.0 * TIME))

    drawing = one_thing(fonts, dipped(deviation=wander, worst=None, decides=None, average=average))

    [curve] = [line for colour, line in drawing.curves if colour == theme.BRAKE]
    middle = next(text.ink.centery for text in drawing.texts if text.text == "average")
    heights = [y for _, y in curve]
    assert (min(heights) + max(heights)) / 2 == pytest.approx(middle, abs=8)


@pytest.mark.parametrize("throttle", [True, False])
def test_a_time_is_marked_from_its_beginning_to_its_end(throttle: bool, fonts: Fonts) -> None:
    timed = dipped(worst=None, decides=None, timing=MarkedTime(-0.25, 0.25, "0.50 s"))
    drawing = one_thing(fonts, timed if throttle else replace(timed, throttle=None))

    level = [(start, end) for start, end in drawing.lines[-3:] if start[1] == end[1]]
    [(start, end)] = level
    second = SIZE[0] / 2.0
    assert start[0] - CORNER[0] == pytest.approx(0.25 * second, abs=130)
    assert end[0] - start[0] == pytest.approx(0.5 * second, rel=0.1)
    pulse = [y for colour, points in drawing.shapes if colour == theme.THROTTLE for _, y in points]
    assert start[1] < min(pulse, default=CORNER[1] + SIZE[1])
    assert "0.50 s" in drawing.said


def test_a_median_has_neither_a_worst_place_nor_a_deciding_limit(fonts: Fonts) -> None:
    drawing = Drawn(fonts)

    deviation(drawing, CORNER, SIZE, dipped(), [dipped(), dipped()])

    assert drawing.discs == []
    assert drawing.said == ["held", "cue", "0.5 s", "1 s", "blip"]
    assert [colour for colour, _ in drawing.curves] == [theme.EARLIER] * 2 + [theme.BRAKE]


def test_blip_is_written_once_in_a_run_and_beside_the_plot_where_there_is_no_room(
    fonts: Fonts,
) -> None:
    spaced = np.where(np.sin(TIME * 12) > 0.6, 80.0, 0.0)
    pressed = np.full(TIME.size, 70.0)

    drawings = [one_thing(fonts, dipped(throttle=pedal)) for pedal in (spaced, pressed)]

    assert [drawing.said.count("blip") for drawing in drawings] == [1, 1]
    inside, beside = (
        next(text.ink for text in drawing.texts if text.text == "blip") for drawing in drawings
    )
    assert inside.left > CORNER[0] > beside.right


def test_a_clutch_is_drawn_over_the_whole_picture(fonts: Fonts) -> None:
    pressed = np.where(TIME < 0.5, 100.0, 0.0)

    drawing = one_thing(fonts, dipped(clutch=pressed))

    [line] = [points for colour, points in drawing.curves if colour == theme.CLUTCH]
    assert "clutch" in drawing.said
    assert line[0][0] == min(x for x, _ in line)
    assert line[-1][0] - line[0][0] > SIZE[0] / 2
    assert line[0][1] < line[-1][1]  # pressed stands higher than released
