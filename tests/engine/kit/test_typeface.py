"""Typeface: figures of equal width, one baseline, no letter cut off, at every size."""

import importlib.metadata

import numpy as np
import pygame
import pytest

from engine.kit.canvas import Fonts
from engine.kit.typeface import BASELINE, PACKAGE, Face, TypefaceError, Weight, font_file

WHITE = (255, 255, 255)
SIZES = [15, 19, 22, 29, 37, 44, 56, 84, 134, 460]
WEIGHTS = list(Weight)


def face(pixels: int, weight: Weight = Weight.REGULAR) -> Face:
    """Typeface at a height in pixels."""
    pygame.font.init()
    return Fonts().of(pixels, weight)


def ink_rows(picture: pygame.Surface) -> tuple[int, int]:
    """First row of pixels with ink, and the one after the last."""
    box = picture.get_bounding_rect(min_alpha=128)
    return box.top, box.bottom


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("pixels", SIZES)
def test_figures_are_equally_wide(pixels: int, weight: Weight) -> None:
    widths = {face(pixels, weight).size(digit * 8)[0] for digit in "0123456789"}

    assert max(widths) - min(widths) <= 1


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("pixels", SIZES)
def test_capitals_stand_on_the_baseline_and_fill_half_the_line(pixels: int, weight: Weight) -> None:
    one = face(pixels, weight)

    top, bottom = ink_rows(one.render("H", WHITE))

    assert bottom - one.above == pytest.approx(BASELINE * pixels, abs=1.5)
    assert bottom - top == pytest.approx(pixels / 2, abs=0.06 * pixels + 1)


@pytest.mark.parametrize("pixels", SIZES)
def test_bold_is_plainly_heavier_than_regular(pixels: int) -> None:
    regular, bold = (
        int(pygame.surfarray.array_alpha(face(pixels, weight).render("Clean", WHITE)).sum())
        for weight in (Weight.REGULAR, Weight.BOLD)
    )

    assert bold > 1.15 * regular


@pytest.mark.parametrize("text", ["Ångström", "Ďábel", "Ж и Я", "Ωμέγα", "±5.8 − 2", "½ → ≤"])
def test_names_in_other_alphabets_have_their_letters(text: str) -> None:
    one = face(84)
    missing = pygame.surfarray.array_alpha(one.render("\uffff", WHITE))

    for letter in text.replace(" ", ""):
        drawn = pygame.surfarray.array_alpha(one.render(letter, WHITE))
        assert drawn.shape != missing.shape or not np.array_equal(drawn, missing), letter


@pytest.mark.parametrize("pixels", SIZES)
def test_a_line_is_as_wide_as_it_says(pixels: int) -> None:
    one = face(pixels)

    assert one.render("Keep it there", WHITE).get_size() == one.size("Keep it there")


@pytest.mark.parametrize("text", ["a\u200bb", "\u0301", "a\u0301", "\ufeff", ""])
def test_characters_without_a_width_are_skipped(text: str) -> None:
    one = face(44)

    if one.size(text)[0] > 0:
        assert one.render(text, WHITE).get_size() == one.size(text)


def test_a_mark_that_turns_the_direction_of_writing_is_drawn_as_an_escape() -> None:
    at = face(37)

    turned, escaped = "toes \u202eeel", "toes \\u202eeel"

    assert at.size(turned) == at.size(escaped)
    assert pygame.image.tobytes(at.render(turned, WHITE), "RGBA") == pygame.image.tobytes(
        at.render(escaped, WHITE), "RGBA"
    )


def test_the_font_comes_with_its_open_licence() -> None:
    files = importlib.metadata.files(PACKAGE.replace("_", "-")) or []

    texts = [each.read_text() for each in files if each.name == "LICENSE.txt"]

    assert len(texts) == 1
    assert "SIL OPEN FONT LICENSE Version 1.1" in texts[0]


def test_a_missing_font_is_one_line_that_says_how_to_get_it() -> None:
    with pytest.raises(TypefaceError) as refused:
        font_file(Weight.REGULAR, "font_of_nobody")

    assert str(refused.value) == (
        "typeface: expected SourceSansPro-Regular.ttf in the package font-of-nobody, found none; "
        "`pip install font-of-nobody` brings it"
    )
