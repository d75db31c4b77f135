"""Colours of the theme: text has contrast, and colour-blind eyes tell the pedals apart."""

from itertools import combinations

import numpy as np
import pytest

from engine.kit import theme
from tests.colour_vision import TYPES, apart, contrast, linear, seen_by

READ = [
    ("text", theme.TEXT, theme.GROUND),
    ("quiet text", theme.QUIET, theme.GROUND),
    ("text on a chart", theme.TEXT, theme.RAISED),
    ("quiet text on a chart", theme.QUIET, theme.RAISED),
    ("brake", theme.BRAKE, theme.GROUND),
    ("throttle", theme.THROTTLE, theme.GROUND),
    ("clutch", theme.CLUTCH, theme.GROUND),
    ("label of the selected choice", theme.GROUND, theme.TEXT),
    ("note of the selected choice", theme.INK, theme.TEXT),
    ("label of a choice being held", theme.GROUND, theme.BRAKE),
]
"""Colours that text has, and what it stands on."""
DRAWN = {
    "outline": theme.FAINT,
    "earlier": theme.EARLIER,
    "brake": theme.BRAKE,
    "throttle": theme.THROTTLE,
    "clutch": theme.CLUTCH,
}
"""Colours of lines and marks that mean something on the background."""
APART = 15.0
"""Least distance in CIE Lab of two colours that mean different things: 6 times what is noticed."""
MEANING = {
    "brake": theme.BRAKE,
    "throttle": theme.THROTTLE,
    "clutch": theme.CLUTCH,
    "text": theme.TEXT,
    "ground": theme.GROUND,
}


@pytest.mark.parametrize(("name", "text", "ground"), READ)
def test_text_has_contrast(
    name: str, text: tuple[int, int, int], ground: tuple[int, int, int]
) -> None:
    # WCAG 2.2, success criterion 1.4.3.
    assert contrast(text, ground) >= 4.5, name


@pytest.mark.parametrize("name", DRAWN)
def test_lines_that_mean_something_have_contrast(name: str) -> None:
    # WCAG 2.2, success criterion 1.4.11.
    assert contrast(DRAWN[name], theme.GROUND) >= 3.0


def test_nothing_is_as_bright_as_white_in_a_dark_room() -> None:
    brightest = max(contrast(colour, (0, 0, 0)) for colour in (theme.TEXT, theme.BRAKE))

    assert brightest < 0.9 * contrast((255, 255, 255), (0, 0, 0))


@pytest.mark.parametrize("kind", TYPES)
@pytest.mark.parametrize(("one", "other"), list(combinations(MEANING, 2)))
def test_colour_blind_eyes_tell_colours_apart(kind: str, one: str, other: str) -> None:
    assert apart(seen_by(kind, MEANING[one]), seen_by(kind, MEANING[other])) >= APART


@pytest.mark.parametrize("kind", TYPES)
@pytest.mark.parametrize("grey", [0, 40, 128, 255])
def test_the_simulation_keeps_grey_grey(kind: str, grey: int) -> None:
    same = (grey, grey, grey)

    assert np.allclose(seen_by(kind, same), linear(same), atol=2e-3)


def test_the_simulation_finds_red_and_green_alike() -> None:
    red, green = (200, 60, 40), (110, 120, 40)

    seen = apart(seen_by("protanopia", red), seen_by("protanopia", green))

    assert seen < 0.5 * apart(linear(red), linear(green))


def test_contrast_of_black_and_white_is_that_of_the_standard() -> None:
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21.0)
    # A grey of 4.48 to 1 on white is the well-known lightest that just fails criterion 1.4.3.
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.48, abs=0.005)
