"""Modules loaded before the first picture: only the screens of the rooms that it needs.

The first picture of a start waits for everything that is loaded before it.
"""

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.scripted import ROOT, printed

LOOK_AND_LEAVE = """
import json, sys, threading
from pathlib import Path
import pygame
from engine.commands.main import main
from tests.waiting import EventTail

data, events, plugged = {arguments!r}

def look_and_leave():
    drawn = EventTail(Path(events)).wait(lambda event: event["event"] == "drawn", 30)
    from engine.kit.base import Screen
    screens, waiting = [], [Screen]
    while waiting:
        screens.append(waiting.pop())
        waiting += screens[-1].__subclasses__()
    of = sorted({{screen.__module__ for screen in screens}})
    print(json.dumps([drawn["name"], of, sorted(sys.modules)]))
    pygame.event.post(pygame.event.Event(pygame.QUIT))

if plugged:
    from engine.stage.sdl_setup import give_hints
    from tests.rig import VirtualPedals
    give_hints()
    pygame.joystick.init()
    VirtualPedals().plug()
threading.Thread(target=look_and_leave).start()
main(["--data", data, "--events", events])
"""
FLOWS = {"engine.kit.flow", "engine.game.flow", "engine.game.home_flow"}
"""Modules with the flows up to the first picture; a flow imports all screens of its room."""

ESTIMATES = {"engine.practice.sense", "engine.practice.size_made", "engine.practice.counting_cost"}
"""Modules of estimates that home does not show."""


@dataclass(frozen=True)
class Drawn:
    """First picture of a start, and what was loaded by then."""

    screen: str
    """Name of the screen."""
    rooms: set[str]
    """Rooms whose screens are loaded."""
    flows: set[str]
    """Modules of flows that are loaded."""
    statistics: set[str]
    """Modules of what is estimated of a player that are loaded, of those in ESTIMATES."""


def first_picture(folder: Path, *, plugged: bool = False) -> Drawn:
    """First picture of a start with the data in `folder`; `plugged`: pedals are plugged in."""
    arguments = str(folder / "data"), str(folder / "events.jsonl"), plugged
    [line] = printed(LOOK_AND_LEAVE.format(arguments=arguments))
    screen, of, modules = json.loads(line)
    ours = (name for name in modules if name.startswith("engine."))
    return Drawn(
        screen,
        {module.split(".")[1] for module in of},
        {name for name in ours if name.rpartition(".")[2].endswith("flow")},
        ESTIMATES & set(modules),
    )


def test_the_first_picture_of_a_new_player_loads_no_other_room(tmp_path: Path) -> None:
    drawn = first_picture(tmp_path)

    assert drawn.screen == "cautions"
    assert drawn.rooms == {"kit", "game"}
    assert drawn.flows == FLOWS - {"engine.game.home_flow"}


def test_home_loads_no_room_that_is_entered_from_it(tmp_path: Path) -> None:
    past = [sys.executable, "-m", "tests.game.session_process", str(tmp_path / "data")]
    subprocess.run(past, cwd=ROOT, check=True, capture_output=True)

    drawn = first_picture(tmp_path, plugged=True)

    assert drawn.screen == "home"
    # A repetition's screen is part of what every set is given.
    assert drawn.rooms == {"kit", "game", "drill"}
    assert drawn.flows == FLOWS
    assert drawn.statistics == set()
