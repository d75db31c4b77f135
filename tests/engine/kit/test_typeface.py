"""Letter spacing: proportional at every size, and without wide gaps."""

from collections.abc import Callable

import numpy as np
import pygame
import pytest
from numpy.typing import NDArray

from engine.kit.surface_cache import SurfaceCache
from engine.kit.typeface import Face, LetterSpacing

WHITE = (255, 255, 255)
SIZES = [15, 19, 22, 29, 37, 44, 56, 84, 134]


def face(pixels: int) -> Face:
    """Typeface at a height in pixels."""
    pygame.font.init()
    return Face(pixels, LetterSpacing(), SurfaceCache())


def ink(picture: pygame.Surface) -> NDArray[np.float64]:
    """Sum of alpha in each column of pixels."""
    alpha: NDArray[np.float64] = pygame.surfarray.array_alpha(picture).astype(float)
    columns: NDArray[np.float64] = alpha.sum(axis=1)
    return columns


def middles(render: Callable[[str], pygame.Surface], word: str) -> NDArray[np.float64]:
    """Centre of each letter's ink, in pixels."""
    found, mass, moment = [], 0.0, 0.0
    for length in range(1, len(word) + 1):
        columns = ink(render(word[:length]))
        mass_now = columns.sum()
        moment_now = float(columns @ (np.arange(columns.size) + 0.5))
        found.append((moment_now - moment) / (mass_now - mass))
        mass, moment = mass_now, moment_now
    return np.array(found)


def gap(pair: str) -> int:
    """Empty columns between two letters of 400 pixels height."""
    inked = np.flatnonzero(ink(face(400).render(pair, WHITE)) > 255)
    return int(np.diff(inked).max()) - 1


@pytest.mark.parametrize("pixels", SIZES)
def test_letters_are_spaced_as_in_a_very_large_line(pixels: int) -> None:
    large, small = face(960), face(pixels)

    wanted = middles(lambda text: large.render(text, WHITE), "handles") * pixels / 960
    found = middles(lambda text: small.render(text, WHITE), "handles")

    # Set letter by letter on whole pixels they stray by 0.7 to 4.3 pixels.
    assert np.abs(found - wanted).max() < 0.5


@pytest.mark.parametrize("pair", ["le", "an", "Cl", "ht", "30"])
def test_no_gap_is_wider_than_between_two_straight_letters(pair: str) -> None:
    assert gap(pair) <= gap("nn")


def test_kerning_brings_slanted_letters_closer() -> None:
    pygame.font.init()
    spacing = LetterSpacing()

    apart = spacing.width("A") + spacing.width("V")

    assert spacing.width("AV") < apart


@pytest.mark.parametrize("text", ["Sound and light", "ď", "ľ", "_", "Throttle tap"])
def test_no_letter_is_cut_off(text: str) -> None:
    alone, roomy = face(400).render(text, WHITE), face(400).render(f"{text} ", WHITE)

    assert ink(alone).sum() == ink(roomy).sum()


@pytest.mark.parametrize("pixels", SIZES)
def test_a_line_is_as_wide_as_it_says(pixels: int) -> None:
    one = face(pixels)

    assert one.render("Keep it there", WHITE).get_size() == one.size("Keep it there")


def test_a_line_is_proportionally_as_wide_at_every_size() -> None:
    widths = [face(pixels).size("Keep it there")[0] / pixels for pixels in SIZES]

    assert max(widths) - min(widths) < 1 / min(SIZES)


@pytest.mark.parametrize("text", ["a\u200bb", "\u0301", "a\u0301", "\ufeff", ""])
def test_characters_without_a_width_are_skipped(text: str) -> None:
    one = face(44)

    if one.size(text)[0] > 0:
        assert one.render(text, WHITE).get_size() == one.size(text)


def test_edges_keep_the_colour_of_the_letters() -> None:
    picture = face(44).render("colour", (10, 200, 90))

    seen = pygame.surfarray.array3d(picture)[pygame.surfarray.array_alpha(picture) > 8]

    assert np.abs(seen.astype(int) - (10, 200, 90)).max() <= 2


def test_a_mark_that_turns_the_direction_of_writing_is_drawn_as_an_escape() -> None:
    at = face(37)

    turned, escaped = "toes \u202eeel", "toes \\u202eeel"

    assert at.size(turned) == at.size(escaped)
    assert np.array_equal(ink(at.render(turned, WHITE)), ink(at.render(escaped, WHITE)))
