"""The saved shape of the window: read back, fitted to the screen, and refused if invalid."""

import pytest

from engine.stage.window_shape import SMALLEST_SIZE, Shape, ShapeError, at_least


@pytest.mark.parametrize("shape", [Shape(), Shape((640, 360), full=True), Shape((16_384, 360))])
def test_a_saved_shape_is_read_back(shape: Shape) -> None:
    assert Shape.from_data(shape.as_data()) == shape


@pytest.mark.parametrize(
    ("screens", "size"),
    [
        ([], (2560, 1440)),
        ([(3840, 2160)], (2560, 1440)),
        ([(1920, 1080)], (1920, 1080)),
        ([(1920, 1080), (1200, 1920)], (1920, 1440)),
    ],
)
def test_a_window_saved_on_a_larger_screen_shrinks_to_fit(
    screens: list[tuple[int, int]], size: tuple[int, int]
) -> None:
    assert Shape((2560, 1440), full=True).within(screens) == Shape(size, full=True)


def test_no_side_is_smaller_than_that_of_the_smallest_size() -> None:
    assert at_least((100, 2000)) == (SMALLEST_SIZE[0], 2000)
    assert at_least((2000, 100)) == (2000, SMALLEST_SIZE[1])


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ([1, 2], "expected an object of width, height and full, found [1, 2]"),
        (
            {"width": 800, "height": 600, "full": "yes"},
            "full: expected true or false, found 'yes'",
        ),
        (
            {"width": 800, "height": 6, "full": False},
            "expected whole pixels from 640x360 to 16384x16384, found 800 by 6",
        ),
        (
            {"width": 8e2, "height": 600, "full": False},
            "expected whole pixels from 640x360 to 16384x16384, found 800.0 by 600",
        ),
    ],
)
def test_an_invalid_shape_is_refused_with_one_line(data: object, message: str) -> None:
    with pytest.raises(ShapeError) as refused:
        Shape.from_data(data)

    assert str(refused.value) == message
