"""The window: its dark, its cue, the pointer, its size and full screen."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]

BEGIN = """
import pygame
from pygame._sdl2.video import Window as Raw
from engine.kit import theme, widgets
from engine.stage.window_shape import Shape
from engine.stage.window import CUE_LASTS, Window

def opened(shape=Shape((800, 600)), **how):
    return Window(shape, theme.GROUND, theme.THROTTLE, widgets.icon(), **how)

def colours():
    width, height = window.size
    corners = [(x, y) for x in (0, width - 1) for y in (0, height - 1)]
    return {tuple(window.surface.get_at(at))[:3] for at in [*corners, (width // 2, height // 2)]}

def resize(size):
    Raw.from_display_module().size = size
    pygame.event.get()
    window.resized()

DARK, LIGHT = {theme.GROUND}, {theme.THROTTLE}
window = opened()
"""


def ran(script: str) -> tuple[int, str, str]:
    """Exit code, output and errors of a script in its own process, on SDL's dummy video driver."""
    ended = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", BEGIN + script],
        cwd=ROOT,
        env=os.environ | {"SDL_VIDEODRIVER": "dummy", "PYGAME_HIDE_SUPPORT_PROMPT": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    return ended.returncode, ended.stdout, ended.stderr


@pytest.mark.parametrize("size", [(640, 360), (801, 603), (1920, 1080)])
def test_dark_and_cue_cover_the_whole_window(size: tuple[int, int]) -> None:
    ended = ran(
        f"window = opened(Shape({size})); window.darken(); assert colours() == DARK;"
        "window.flash(needed=False); assert colours() == LIGHT and window.lit;"
        "window.darken(); assert colours() == DARK and not window.lit"
    )

    assert ended == (0, "", "")


def test_the_cue_ends_after_its_time_and_reports_that_once() -> None:
    ended = ran(
        "window.darken(); assert not window.flash_over(5);"
        "window.flash(needed=False); began = 10**9;"
        "over = [window.flash_over(began + at) for at in (0, CUE_LASTS - 1, CUE_LASTS, 10**9)];"
        "assert over == [False, False, True, False], over"
    )

    assert ended == (0, "", "")


def test_showing_a_frame_ends_the_cue() -> None:
    ended = ran(
        "window.flash(needed=False); window.show();"
        "assert not window.lit and not window.flash_over(0) and not window.flash_over(10**12)"
    )

    assert ended == (0, "", "")


def test_with_the_flash_off_the_cue_lights_the_window_only_if_needed() -> None:
    ended = ran(
        "window.tune(flash=False); window.darken();"
        "window.flash(needed=False); assert colours() == DARK and not window.lit;"
        "window.flash(needed=True); assert colours() == LIGHT and window.lit"
    )

    assert ended == (0, "", "")


def test_the_pointer_hides_at_the_start_and_in_the_dark_until_the_mouse_moves() -> None:
    ended = ran(
        "seen = pygame.mouse.get_visible; window.show(); assert not seen();"
        "window.cursor.move((5, 5), 0); assert not seen();"
        "window.cursor.move((6, 5), 1); assert seen();"
        "window.darken(); assert not seen(); window.flash(needed=True); assert not seen();"
        "window.show(); assert not seen(); window.cursor.move((6, 6), 2); assert seen()"
    )

    assert ended == (0, "", "")


@pytest.mark.parametrize("lit", [False, True])
def test_a_window_enlarged_in_the_dark_is_filled_again(lit: bool) -> None:
    ended = ran(
        f"window.darken(); window.flash(needed=True) if {lit} else None; resize((1100, 750));"
        f"assert window.size == (1100, 750); assert colours() == (LIGHT if {lit} else DARK)"
    )

    assert ended == (0, "", "")


def test_a_window_made_too_small_grows_back_to_the_smallest_size() -> None:
    ended = ran(
        "resize((300, 500)); assert window.size == (640, 500), window.size;"
        "resize((900, 100)); assert window.size == (900, 360), window.size;"
        "assert window.shape == Shape((900, 360))"
    )

    assert ended == (0, "", "")


def test_leaving_full_screen_restores_the_size_of_the_window() -> None:
    ended = ran(
        "window.toggle_full(); assert window.full; assert window.size != (800, 600);"
        "assert window.shape == Shape((800, 600), full=True);"
        "window.toggle_full(); assert not window.full; assert window.shape == Shape((800, 600));"
        "assert window.size == (800, 600)"
    )

    assert ended == (0, "", "")


def test_a_window_opens_in_full_screen_if_left_so_and_shrinks_to_fit_the_screen() -> None:
    ended = ran(
        "full = opened(Shape((900, 700), full=True)); assert full.full;"
        "assert full.shape == Shape((900, 700), full=True);"
        "screen = pygame.display.get_desktop_sizes()[0];"
        "fitted = opened(Shape((9000, 8000)), fit=True); assert fitted.size == screen;"
    )

    assert ended == (0, "", "")
