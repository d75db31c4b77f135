"""The drawn foot in the poses that matter, on one sheet, and what drawing it costs.

    python tests/bench/feet.py FILE [WIDTHxHEIGHT]
    python tests/bench/feet.py --cost

Writes a PNG of 1920x1080 pixels, unless another size is named. With `--cost` it prints how long a
foot of 1200 by 520 pixels takes to draw, against one fill and one copy of the same pixels.
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path

import pygame

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.kit import theme  # noqa: E402
from engine.kit.canvas import Canvas, Fonts  # noqa: E402
from engine.kit.foot import draw_foot  # noqa: E402
from engine.kit.foot_pose import Pressed, Way  # noqa: E402

POSES = (
    ("rest", Pressed(0.0), Way.ROLL),
    ("hold 60", Pressed(60.0), Way.ROLL),
    ("early roll", Pressed(38.0, 12.0), Way.ROLL),
    ("blip 30", Pressed(60.0, 30.0), Way.ROLL),
    ("blip 60", Pressed(60.0, 60.0), Way.ROLL),
    ("blip 100", Pressed(60.0, 100.0), Way.ROLL),
    ("light brake, blip 60", Pressed(20.0, 60.0), Way.ROLL),
    ("full brake", Pressed(100.0), Way.ROLL),
    ("heel: hold 60", Pressed(60.0), Way.HEEL),
    ("heel: blip 30", Pressed(60.0, 30.0), Way.HEEL),
    ("heel: blip 100", Pressed(60.0, 100.0), Way.HEEL),
    ("clutch 70, blip 60", Pressed(60.0, 60.0, 70.0), Way.ROLL),
)
ACROSS, ROW = 480, 270
AREA = (1200.0, 520.0)
ROUNDS = 400


def sheet(size: tuple[int, int]) -> pygame.Surface:
    """Every pose with its name, four in a row; below them one as tall as it is wide."""
    surface = pygame.Surface(size)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    for number, (name, pressed, way) in enumerate(POSES):
        x, y = number % 4 * ACROSS, number // 4 * (ROW + 80)
        canvas.text(name, (x + ACROSS / 2, y + 10), theme.SMALL, theme.QUIET, "centre")
        draw_foot(canvas, (x + 10, y + 62), (ACROSS - 20, ROW), pressed, way)
    return surface


def seconds(draw: Callable[[int], None]) -> float:
    """Mean processor time of a call in s, over the fastest of some rounds."""
    times = []
    for _ in range(5):
        began = time.process_time()
        for number in range(ROUNDS // 5):
            draw(number)
        times.append((time.process_time() - began) / (ROUNDS // 5))
    return min(times)


def cost() -> None:
    """Print the time of a picture of the foot, and of one fill and one copy of its area."""
    surface, piece = pygame.Surface((1920, 1080)), pygame.Surface(AREA)
    canvas = Canvas(surface, Fonts())

    def fill(_: int) -> None:
        piece.fill(theme.GROUND)
        surface.blit(piece, (360, 280))

    base = seconds(fill)
    print(f"one fill and one copy: {base * 1000:.2f} ms")
    for way in Way:
        for clutch in (None, 50.0):

            def draw(number: int, way: Way = way, clutch: float | None = clutch) -> None:
                pressed = Pressed(60 + number % 7, number * 1.3 % 100, clutch)
                draw_foot(canvas, (360, 280), AREA, pressed, way)

            taken = seconds(draw)
            named = way.value + ("" if clutch is None else " and clutch")
            print(f"{named}: {taken * 1000:.2f} ms, {taken / base:.1f} times that")


def main(arguments: list[str]) -> int:
    """Write the sheet to the named file, or print what a picture costs."""
    pygame.font.init()
    if arguments == ["--cost"]:
        cost()
        return 0
    if len(arguments) not in (1, 2):
        print(__doc__)
        return 2
    size = arguments[1] if len(arguments) == 2 else "1920x1080"
    across, down = (int(part) for part in size.split("x"))
    pygame.image.save(sheet((across, down)), arguments[0])
    print(f"{len(POSES)} poses in {arguments[0]}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
