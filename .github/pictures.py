"""Draws the pictures of the README from the program itself, without a window.

    python .github/pictures.py [NAME ...]

Writes them into `.github/pictures`, all of them unless some are named. The same program draws the
same bytes on one system; another may smooth its letters otherwise.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOLDER = Path(__file__).resolve().parent / "pictures"
os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
sys.path.insert(0, str(ROOT))

import film  # noqa: E402
import pygame  # noqa: E402
from moving_png import Frame, encoded  # noqa: E402
from practice import screens_after_practice  # noqa: E402

from engine.stage.scene import Attended  # noqa: E402
from tests.engine.pictures import every_screen  # noqa: E402

MOVING = {"blip": film.repetition, "replay": film.replay, "lesson": film.lesson}
"""What films each moving picture: the first repetition of the demo, its replay, and a lesson."""
AFTER_PRACTICE = ("home", "day-end", "steadiness")
"""Names of the screens of a simulated foot that has practised for weeks."""
LISTED = {"trial": "trial result"}
"""Screen that each other picture shows, as `tests/engine/pictures.py` lists it."""
NAMES = (*MOVING, *LISTED, *AFTER_PRACTICE)
"""Names of all pictures."""


def pictures(names: Sequence[str]) -> Iterator[tuple[str, Sequence[Frame]]]:
    """Names and frames of the named pictures: several frames of moving ones, one of others."""
    for name, frames in MOVING.items():
        if name in names:
            yield name, frames()
    screens: dict[str, Attended] = {
        name: every_screen()[LISTED[name]] for name in LISTED if name in names
    }
    if not set(names).isdisjoint(AFTER_PRACTICE):
        practised = screens_after_practice()
        screens.update({name: practised[name] for name in AFTER_PRACTICE if name in names})
    for name, screen in screens.items():
        surface = pygame.Surface(film.SIZE)
        screen.draw(surface, 0.0)
        yield name, [Frame(film.pixels_of(surface), 0)]


def main(names: Sequence[str]) -> int:
    """Write the named pictures, or all; return the exit code."""
    for name in names:
        if name not in NAMES:
            print(f"NAME: expected one of {', '.join(NAMES)}, found {name!r}", file=sys.stderr)
            return 2
    pygame.init()
    pygame.display.set_mode((1, 1))
    FOLDER.mkdir(exist_ok=True)
    for name, frames in pictures(names or NAMES):
        data = encoded(frames)
        (FOLDER / f"{name}.png").write_bytes(data)
        print(f"{name}.png  {len(data) / 1000:.0f} KB")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
