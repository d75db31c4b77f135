"""How soon a beginner plays: seconds from the start of the program to the first repetition.

    python tests/bench/first_minutes.py [FOLDER [MINUTES]]

A scripted beginner with virtual pedals does by feet what has to be done, and no more: on the first
day the cautions, the window, the set-up of the pedals and home, on the second home alone. No
reading is counted. With FOLDER a whole first day of a session of so many MINUTES is played too, and
its screens are saved there as they come up, with a strip of all of them.
"""

import os
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import takewhile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import pygame  # noqa: E402

from drills.score import Reason  # noqa: E402
from engine.kit import theme  # noqa: E402
from tests.screen import screenshot, virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

MINUTES = 5.0
SCREEN = (1280, 720)
"""Size of the screen that the game fills, in pixels."""
NIGHT = 24
"""Hours between the two days."""
POLITE = 19
"""By how much the pictures give way to the game, which reads pedals meanwhile: all there is."""
LATER = 2.5
"""Seconds after which a screen that may move is looked at once more."""
ONCE = {
    *("cautions", "fill the screen", "pedals", "pedals found", "pedals menu", "home", "menu"),
    *("repetition", "reveal", "summary", "busy"),
}
"""Screens of which one picture is enough, or that may be over before a second one."""
SMALL = (480, 270)
"""Size of one picture of the strip, in pixels."""
ACROSS = 4
"""Pictures of the strip side by side."""
CAPTION = 30
"""Height of a caption in the strip, in pixels."""


@dataclass(frozen=True)
class Played:
    """One start of the game."""

    began: float
    """Time on the monotonic clock at which the process was started, in s."""
    events: list[dict[str, Any]]
    """Everything that its events file tells."""

    @property
    def seconds(self) -> float:
        """Seconds from the start of the program to the first repetition on the screen."""
        return float(next(e["t"] for e in self.events if is_repetition(e))) - self.began

    @property
    def first_picture(self) -> float:
        """Seconds from the start of the program to its first picture."""
        return float(next(e["t"] for e in self.events if e["event"] == "drawn")) - self.began

    @property
    def screens(self) -> list[str]:
        """Screens before the first repetition, in order."""
        before = takewhile(lambda event: not is_repetition(event), self.events)
        return [event["name"] for event in before if event["event"] == "drawn"]

    @property
    def lost(self) -> str:
        """How many repetitions were lost, as the machine was too busy to read the pedals."""
        reasons = [event["reason"] for event in self.events if event["event"] == "verdict"]
        return f"{reasons.count(Reason.GAP)} of {len(reasons)} repetitions lost to gaps"


def is_repetition(event: Mapping[str, Any]) -> bool:
    """Whether a repetition comes up."""
    return event["event"] == "screen" and bool(event["name"] == "repetition")


def played(
    day: str, data: Path, log: Path, minutes: float, hours: int, pictures: Path | None = None
) -> Played:
    """Play a day, its local time so many hours from UTC; its screens go to a folder if given."""
    zone = {"TZ": f"THERE{-hours:+d}"}
    with virtual_display(SCREEN) as environment:
        arguments = (day, str(data), str(log), str(minutes))
        began = time.monotonic()
        game = subprocess.Popen(
            [sys.executable, "-m", "tests.game.first_minutes_process", *arguments],
            env=environment | zone,
            cwd=ROOT,
        )
        try:
            if pictures is not None:
                take_pictures(environment["DISPLAY"], EventTail(log), pictures)
            code = game.wait()
        finally:
            game.kill()
    if code:
        sys.exit(f"the {day} day: expected exit code 0, found {code}")
    return Played(began, EventTail(log).seen)


def take_pictures(display: str, events: EventTail, folder: Path) -> None:
    """Save a picture of each screen that is not known yet, until the game has closed."""
    os.nice(POLITE)
    folder.mkdir(parents=True, exist_ok=True)
    known: set[tuple[object, ...]] = set()
    first: float | None = None
    shown: dict[str, Any] = {}
    while (event := events.wait(lambda _: True))["event"] != "closed":
        shown = event if event["event"] == "screen" else shown
        if event["event"] != "drawn":
            continue
        first = event["t"] if first is None else first
        kind = tuple(map(str, map(shown.get, ("name", "step", "pedal", "level", "reason"))))
        if kind in known:
            continue
        known.add(kind)
        path = folder / f"{event['t'] - first:05.1f} s {event['name']}.png"
        screenshot(display, path)
        if event["name"] not in ONCE:
            later = path.with_name(f"{event['t'] - first + LATER:05.1f} s {event['name']}.png")
            threading.Timer(LATER, screenshot, (display, later)).start()


def save_strip(folder: Path) -> Path:
    """Save all pictures of a folder in one, each with its time and name; returns its path."""
    pygame.font.init()
    font = pygame.font.Font(None, CAPTION)
    strip = folder / "strip.png"
    paths = [path for path in sorted(folder.glob("*.png")) if path != strip]
    rows = -(-len(paths) // ACROSS)
    sheet = pygame.Surface((ACROSS * SMALL[0], rows * (SMALL[1] + CAPTION)))
    for number, path in enumerate(paths):
        x, y = number % ACROSS * SMALL[0], number // ACROSS * (SMALL[1] + CAPTION)
        sheet.blit(font.render(path.stem, True, theme.TEXT), (x + 6, y + 6))
        picture = pygame.transform.smoothscale(pygame.image.load(path).convert(24), SMALL)
        sheet.blit(picture, (x, y + CAPTION))
    pygame.image.save(sheet, strip)
    return strip


def main() -> None:
    """Play two days, print how soon, and save the pictures of a whole first day if asked to."""
    pictures = Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else None
    minutes = float(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    # Where the sun stands about as here, so that neither day ends in between.
    west = -(NIGHT // 2)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        data = folder / "data"
        for day, hours in (("first", west), ("second", west + NIGHT)):
            one = played(day, data, folder / f"{day}.jsonl", MINUTES, hours)
            print(
                f"{day:8}{one.seconds:6.1f} s to the first repetition,"
                f" {one.first_picture:5.2f} s to the first picture,"
                f" {len(one.screens):3} screens: {', '.join(dict.fromkeys(one.screens))}",
                flush=True,
            )
        if pictures is not None:
            data, log = folder / "whole", folder / "whole.jsonl"
            whole = played("whole", data, log, minutes, west, pictures)
            print(f"a whole first day: {save_strip(pictures)}, {whole.lost}")


if __name__ == "__main__":
    main()
