"""Clean and not clean differ in light and in shape, so that the corner of the eye tells them."""

import numpy as np
import pygame
import pytest

from drills.score import Reason
from engine.drill.reveal import LIGHT, MARK, VERDICT, Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit import theme
from engine.kit.base import Place
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, repetitions

NAMES = ("blip-3-good", "still-2-firm", "run-2-three", "ease-1-slow")
BRIGHT, DIM = 200.0, 40.0
"""Mean brightness of what is lit and of what is dark, from 0 to 255."""


def picture(shown: Shown, name: str, size: tuple[int, int]) -> pygame.Surface:
    """Reveal of a repetition as the window shows it."""
    pygame.font.init()
    surface = pygame.Surface(size)
    Reveal(RevealFacts(BY_ID[name], shown.record.verdict, shown.deviation, (), Place(1, 10))).draw(
        surface, 0.0
    )
    return surface


def brightness(surface: pygame.Surface, area: pygame.Rect) -> float:
    """Mean brightness of a rectangle, from 0 to 255."""
    part = pygame.surfarray.array3d(surface.subsurface(area))
    return float(part.astype(np.float64).mean())


def one_of_each(name: str) -> dict[Reason, Shown]:
    """A clean repetition of a level and one that was not, by feet of two skills."""
    found: dict[Reason, Shown] = {}
    for skill in (0.9, 0.0):
        for shown in repetitions(BY_ID[name], skill, 29, 6):
            found.setdefault(shown.record.verdict.reason, shown)
    return {reason: found[reason] for reason in (Reason.CLEAN, Reason.OVER_LIMIT)}


@pytest.mark.parametrize("size", [(640, 360), (1280, 720)], ids=str)
@pytest.mark.parametrize("name", NAMES)
def test_clean_is_a_bar_of_light_and_a_full_disc_and_the_other_a_dark_edge_and_a_ring(
    name: str, size: tuple[int, int]
) -> None:
    scale = size[0] / theme.WIDTH
    edge = pygame.Rect(0, 0, size[0], round(LIGHT * scale))
    half = max(round(MARK * scale / 3), 1)
    middle = pygame.Rect(0, 0, 2 * half, 2 * half)
    middle.center = round((theme.MARGIN + MARK) * scale), round(VERDICT * scale)
    whole = middle.inflate(4 * half, 4 * half)

    clean, failed = (picture(shown, name, size) for shown in one_of_each(name).values())

    assert brightness(clean, edge) > BRIGHT
    assert brightness(failed, edge) < DIM
    assert brightness(clean, middle) > BRIGHT
    assert brightness(failed, middle) < DIM
    assert brightness(failed, whole) > DIM
    assert brightness(clean, whole) > 1.5 * brightness(failed, whole)
