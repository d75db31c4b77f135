"""Every piece that screens are made of, on one page: colours, sizes of text, buttons and marks.

    python tests/bench/pieces.py [FILE [WIDTHxHEIGHT]]

Writes a PNG, `pieces.png` of 1280 by 720 unless named. Look at it at its size, and at a third.
"""

import math
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pygame

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.deviation import Bound, Deviation, WorstPlace  # noqa: E402
from engine.kit import theme, widgets  # noqa: E402
from engine.kit.buttons import draw_buttons, in_bar  # noqa: E402
from engine.kit.canvas import Canvas, Fonts  # noqa: E402
from engine.kit.deviation_plot import deviation  # noqa: E402
from engine.kit.figures import Figure, draw_figures  # noqa: E402
from engine.kit.repetition_marks import Mark, draw_mark  # noqa: E402
from engine.kit.typeface import Weight  # noqa: E402
from engine.ladder.ladder import State  # noqa: E402
from engine.ladder.state_marks import draw_state  # noqa: E402

COLOURS = (
    *("GROUND", "RAISED", "BAND", "FAINT", "INK", "QUIET"),
    *("TEXT", "DIP", "EARLIER", "BRAKE", "THROTTLE", "CLUTCH"),
)
SIZES = ("SMALL", "BODY", "LEAD", "LARGE", "HUGE")
LEFT, MIDDLE = 60.0, 1000.0


def colours(canvas: Canvas) -> None:
    """Each colour of the theme with its name."""
    for number, name in enumerate(COLOURS):
        x, y = LEFT + number % 6 * 150, 30 + number // 6 * 104
        canvas.box((x, y), (138, 46), getattr(theme, name), 8)
        canvas.text(name.lower(), (x, y + 50), theme.SMALL - 8, theme.QUIET)


def sizes(canvas: Canvas) -> None:
    """Each size of text, in both weights."""
    y = 248.0
    for name in SIZES:
        size = getattr(theme, name)
        canvas.text(name.capitalize(), (LEFT, y), size)
        weight = Weight.BOLD
        canvas.text(f"±{size}", (LEFT + 480, y), size, weight=weight)
        y += size * 1.05


def buttons(canvas: Canvas) -> None:
    """A bar of choices with the first one selected, half held."""
    labels = [("Five minutes", "2 check-ups"), ("Warm-up", ""), ("History", ""), ("Leave", "")]
    draw_buttons(canvas, in_bar(canvas, labels), 0, 0.4)
    widgets.foot(canvas, "Enter: choose    Tab: next    Esc: leave")


def marks(canvas: Canvas) -> None:
    """Marks of repetitions, of levels, the ring and the spirit level."""
    for number, each in enumerate(Mark):
        draw_mark(canvas, (MIDDLE + 24 + number * 60, 60), 20, each)
    for number, state in enumerate(State):
        draw_state(canvas, (MIDDLE + 240 + number * 60, 60), state)
    widgets.ring(canvas, (MIDDLE + 740, 60), 0.6)
    for number, lean in enumerate((-2.6, 0.0, 0.6)):
        widgets.level(canvas, (LEFT + 130 + number * 290, 850), 250, lean)


def numbers(canvas: Canvas) -> None:
    """The large figure, and figures side by side."""
    widgets.large_figure(canvas, "22", "points dipped, 15 allowed")
    row = [Figure("Score", "36", "of 100"), Figure("Dip", "22 points", "15", True)]
    draw_figures(canvas, (LEFT, 690), 600, row)


def curve(canvas: Canvas) -> None:
    """Picture of a repetition with its worst place and the limit that decided."""
    time = np.arange(-500, 1500) / 1000
    brake = -22 * np.exp(-(((time - 0.12) / 0.1) ** 2)) + 4 * np.exp(-(((time - 0.4) / 0.1) ** 2))
    throttle = np.where((time > 0) & (time < 0.2), 60 * np.sin(math.pi * time / 0.2), 0.0)
    limit = Bound("15 allowed", -15.0, None, (-0.1, 1.2))
    picture = Deviation(
        time,
        brake,
        (-0.5, 1.5),
        reach=30.0,
        throttle=throttle,
        cues=(-0.25,),
        blips=((0.0, 0.2),),
        bounds=(limit,),
        worst=WorstPlace(float(time[brake.argmin()]), float(brake.min()), "22"),
        decides=limit,
    )
    deviation(canvas, (MIDDLE - 100, 380), (theme.WIDTH - MIDDLE + 60, 500), picture, [])


PIECES: tuple[Callable[[Canvas], None], ...] = (colours, sizes, buttons, marks, numbers, curve)


def page(size: tuple[int, int]) -> pygame.Surface:
    """The page of all pieces at a size in pixels."""
    pygame.font.init()
    surface = pygame.Surface(size)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    for piece in PIECES:
        piece(canvas)
    return surface


if __name__ == "__main__":
    file = Path(sys.argv[1] if len(sys.argv) > 1 else "pieces.png")
    width, height = (int(side) for side in (sys.argv[2:] or ["1280x720"])[0].split("x"))
    pygame.image.save(page((width, height)), file)
    print(f"{file}: every piece at {width}x{height}")
