"""Anti-aliased shapes: they cover their area, blend at their edges, and draw nothing else."""

import math

import numpy as np
import pygame
import pytest
from numpy.typing import NDArray

from engine.kit import theme
from engine.kit.canvas import Canvas, Fonts

SIZE = (1920, 1080)
INK = (255, 255, 255)


class Sheet(Canvas):
    """Black canvas at one pixel per canvas unit."""

    def __init__(self, size: tuple[int, int] = SIZE) -> None:
        pygame.font.init()
        self.paper = pygame.Surface(size)
        self.fonts = Fonts()
        super().__init__(self.paper, self.fonts)

    @property
    def ink(self) -> NDArray[np.float64]:
        """Share of each pixel that is covered, shape (width, height)."""
        return pygame.surfarray.array_red(self.paper).astype(float) / 255

    @property
    def between(self) -> int:
        """Number of partly covered pixels."""
        ink = self.ink
        return int(np.count_nonzero((ink > 0.05) & (ink < 0.95)))


@pytest.fixture
def sheet() -> Sheet:
    """Empty sheet."""
    return Sheet()


@pytest.mark.parametrize("radius", [3.0, 8.0, 20.5, 60.0])
@pytest.mark.parametrize("centre", [(200.0, 300.0), (200.25, 300.75), (201.5, 299.5)])
def test_a_disc_covers_its_area_about_its_centre(
    radius: float, centre: tuple[float, float], sheet: Sheet
) -> None:
    sheet.disc(centre, radius, INK)

    ink = sheet.ink
    columns, rows = ink.sum(axis=1), ink.sum(axis=0)
    middle = [
        float(cover @ (np.arange(cover.size) + 0.5) / cover.sum()) for cover in (columns, rows)
    ]
    assert ink.sum() == pytest.approx(math.pi * radius**2, rel=0.06)
    assert middle == pytest.approx(centre, abs=0.3)
    assert sheet.between >= 4 * radius


def test_a_ring_is_as_wide_as_its_line(sheet: Sheet) -> None:
    sheet.disc((200, 200), 50, INK, 6)

    assert sheet.ink.sum() == pytest.approx(math.pi * (50**2 - 44**2), rel=0.05)
    assert sheet.ink[200, 200] == 0


@pytest.mark.parametrize("line", [0, 3])
def test_a_box_with_round_corners_covers_its_area_and_no_more(line: int, sheet: Sheet) -> None:
    place = sheet.box((100, 100), (300, 80), INK, 20, line)

    ink = sheet.ink
    inside = ink[place.left : place.right, place.top : place.bottom]
    edges = [inside[150, 0], inside[150, -1], inside[0, 40], inside[-1, 40]]
    outer, inner = 300 * 80 - (4 - math.pi) * 20**2, 0.0
    if line:
        inner = 294 * 74 - (4 - math.pi) * 17**2
    assert ink.sum() == pytest.approx(inside.sum())
    assert ink.sum() == pytest.approx(outer - inner, rel=0.02)
    assert edges == [1, 1, 1, 1]
    assert inside[0, 0] == 0
    assert np.array_equal(inside, inside[::-1])
    assert np.array_equal(inside, inside[:, ::-1])
    assert sheet.between > 20


def test_a_box_without_corners_is_sharp(sheet: Sheet) -> None:
    sheet.box((100, 100), (300, 80), INK)

    assert sheet.ink.sum() == 300 * 80
    assert sheet.between == 0


@pytest.mark.parametrize("width", [2.0, 7.0])
@pytest.mark.parametrize("slope", [0.05, 0.6, 3.0])
def test_a_curve_is_as_thick_as_it_should_be_whichever_way_it_runs(
    slope: float, width: float, sheet: Sheet
) -> None:
    points = [(100 + step, 100 + slope * step) for step in range(0, 200, 2)]

    sheet.curve(points, INK, width)

    length = math.dist(points[0], points[-1])
    caps = math.pi * (width / 2) ** 2
    assert sheet.ink.sum() == pytest.approx(length * width + caps, rel=0.12)
    assert sheet.between > length


def test_a_curve_has_no_gaps_where_it_bends(sheet: Sheet) -> None:
    points = [(100, 100), (200, 100), (200, 200), (120, 130)]

    sheet.curve(points, INK, 9)

    for x, y in points:
        covered = sheet.ink[x - 2 : x + 2, y - 2 : y + 2]
        assert covered.min() > 0.95


def test_a_curve_is_clipped_at_the_edge_of_the_surface(sheet: Sheet) -> None:
    sheet.curve([(-5000.0, 500.0), (9000.0, 510.0)], INK, 4)

    assert (sheet.ink.sum(axis=1) > 3).all()


def test_a_curve_outside_the_surface_draws_nothing(sheet: Sheet) -> None:
    sheet.curve([(3000.0, 500.0), (9000.0, 510.0)], INK, 4)

    assert sheet.ink.sum() == 0


def test_a_line_across_or_down_is_sharp_and_a_slanted_one_is_smooth(sheet: Sheet) -> None:
    sheet.line((100, 100), (300, 100), INK, 4)
    sheet.line((400, 100), (400, 300), INK, 4)
    straight, sharp = sheet.ink.sum(), sheet.between

    sheet.line((500, 100), (700, 200), INK, 4)

    assert (straight, sharp) == (2 * 200 * 4, 0)
    assert sheet.between > 100


def test_a_shape_covers_its_area(sheet: Sheet) -> None:
    sheet.shape([(100, 100), (100, 128), (120, 114)], INK)

    assert sheet.ink.sum() == pytest.approx(28 * 20 / 2, rel=0.1)


def test_edges_blend_background_and_colour_and_are_never_darker(sheet: Sheet) -> None:
    sheet.clear()

    sheet.disc((200, 200), 40, theme.BRAKE)

    seen = pygame.surfarray.array3d(sheet.paper)[150:250, 150:250].reshape(-1, 3).astype(int)
    ground, colour = np.array(theme.GROUND), np.array(theme.BRAKE)
    share = (seen - ground) @ (colour - ground) / ((colour - ground) @ (colour - ground))
    mixed = ground + share[:, None] * (colour - ground)
    assert np.abs(seen - mixed).max() <= 3


def test_a_shape_drawn_again_comes_from_the_cache() -> None:
    sheet = Sheet()

    def draw() -> None:
        sheet.box((100, 100), (300, 80), INK, 20)
        sheet.curve([(100, 100), (200, 150), (300, 90)], INK, 5)
        sheet.disc((200, 200), 12, INK)
        sheet.text("Keep it there", (100, 400))

    draw()
    once = len(sheet.fonts.cache)
    draw()

    assert once >= 4
    assert len(sheet.fonts.cache) == once


@pytest.mark.parametrize("size", [(640, 360), (3440, 1440)])
def test_shapes_are_as_smooth_in_a_small_window_as_in_a_large_one(size: tuple[int, int]) -> None:
    sheet = Sheet(size)

    sheet.curve([(300.0 + step, 300.0 + step / 3) for step in range(900)], INK, 6)

    assert sheet.between > 600 * sheet.scale


@pytest.mark.parametrize("shift", [0.0, 0.3, 0.5, 0.8])
def test_a_moving_shape_covers_its_area_with_smooth_edges(shift: float, sheet: Sheet) -> None:
    turns = [math.radians(number * 15) for number in range(24)]
    sheet.moving_shape(
        [(200 + shift + 60 * math.cos(t), 300 + 60 * math.sin(t)) for t in turns], INK
    )

    ink = sheet.ink
    columns = ink.sum(axis=1)
    assert ink.sum() == pytest.approx(math.pi * 60**2, rel=0.03)
    assert float(columns @ (np.arange(columns.size) + 0.5) / columns.sum()) == pytest.approx(
        200 + shift, abs=0.3
    )
    assert ink[150:250, 290:310].min() == 1
    assert sheet.between >= 60


def test_a_moving_shape_is_not_cached(sheet: Sheet) -> None:
    sheet.moving_shape([(10, 10), (90, 20), (40, 80)], INK)

    assert len(sheet.fonts.cache) == 0


def test_a_glow_fades_from_its_centre_to_nothing_at_its_radius(sheet: Sheet) -> None:
    sheet.glow((200, 300), 50, INK, 1.0)

    ray = sheet.ink[200:260, 300]
    assert ray[0] > 0.9
    assert list(ray) == sorted(ray, reverse=True)
    assert ray[50:].max() == 0


def test_a_glow_is_as_strong_as_asked_from_one_cached_picture(sheet: Sheet) -> None:
    peaks = []
    for strength in (0.0, 0.25, 0.5, 1.0):
        sheet.clear()
        ground = sheet.ink.max()
        sheet.glow((200, 300), 50, INK, strength)
        peaks.append(float(sheet.ink.max() - ground))

    assert peaks[0] == 0
    assert peaks[1:] == pytest.approx([peaks[3] * share for share in (0.25, 0.5, 1.0)], abs=0.02)
    assert len(sheet.fonts.cache) == 1


def test_a_veil_tints_its_rectangle_alone(sheet: Sheet) -> None:
    sheet.veil((100, 200), (80, 40), INK, 10, 0.5)

    ink = sheet.ink
    assert ink[140, 220] == pytest.approx(0.5, abs=0.01)
    assert ink[100, 200] < 0.2
    ink[100:180, 200:240] = 0
    assert ink.max() == 0


@pytest.mark.parametrize("order", [1, -1])
def test_the_fill_of_a_moving_shape_stays_inside_its_edges(order: int, sheet: Sheet) -> None:
    sheet.moving_shape([(100, 100), (140, 100), (140, 140), (100, 140)][::order], INK)

    ink = sheet.ink
    across, down = ink[98:142, 120], ink[120, 98:142]
    for row in (across, down):
        assert list(row[[0, -1]]) == [0, 0]
        assert max(row[[1, -2]]) < 0.8
        assert row[3:-3].min() == 1
