"""Draws the pictures of the README from the program itself, without a window.

    python .github/pictures.py [NAME ...]

Writes them into `.github/pictures`, all of them unless some are named. `blip` moves: it is the
first repetition of the demo with its reveal. The others are screens as the tests list them. The
same program draws the same bytes on one system; another may smooth its letters otherwise.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOLDER = Path(__file__).resolve().parent / "pictures"
os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
sys.path.insert(0, str(ROOT))

import pygame  # noqa: E402

from film import SIZE, film, pixels_of  # noqa: E402
from moving_png import Frame, encoded  # noqa: E402
from tests.engine.pictures import every_screen  # noqa: E402

MOVING = "blip"
"""Name of the moving picture."""
STILLS = {
    "home": "home seven 17",
    "reveal": "reveal by feet",
    "day-end": "day end full",
    "better": "history steadiness",
    "learning": "history learning",
    "trial": "trial result",
    "drive": "history drill and road",
}
"""Screen that each still picture shows, as `tests/engine/pictures.py` names it."""


def frames_of(name: str) -> Sequence[Frame]:
    """Frames of a picture: several of the moving one, one of any other."""
    if name == MOVING:
        return film()
    surface = pygame.Surface(SIZE)
    every_screen()[STILLS[name]].draw(surface, 0.0)
    return [Frame(pixels_of(surface), 0)]


def main(names: Sequence[str]) -> int:
    """Write the named pictures, or all; return the exit code."""
    known = [MOVING, *STILLS]
    for name in names:
        if name not in known:
            print(f"NAME: expected one of {', '.join(known)}, found {name!r}", file=sys.stderr)
            return 2
    pygame.init()
    pygame.display.set_mode((1, 1))
    FOLDER.mkdir(exist_ok=True)
    for name in names or known:
        data = encoded(frames_of(name))
        (FOLDER / f"{name}.png").write_bytes(data)
        print(f"{name}.png  {len(data) / 1000:.0f} KB")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
