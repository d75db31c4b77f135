"""Process of a session: `python -m tests.game.session_process DATA [EVENTS MINUTES SPEED]`.

With DATA alone it leaves a data folder as some days of practice do. With the rest a simulated foot
plays the session, SPEED times as fast as time goes, from the start of the program to "done".
"""

import argparse
import sys
import time
from pathlib import Path

import pygame

from drills.calibration import Range
from engine.commands.options import local_now
from engine.commands.play import run_play
from engine.game.entries import FIVE
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.sdl import Devices
from engine.stage.sdl_setup import give_hints
from engine.stage.window_shape import SMALLEST_SIZE, Shape
from tests.game.past import make_past
from tests.game.simulated_foot import EventDrivenFoot
from tests.game.threads import play
from tests.rig import Feeder, VirtualPedals
from tests.waiting import EventTail

SKILL, SEED = 0.5, 5
"""Skill and seed of the simulated foot."""
POLL = 0.001
"""Seconds between two looks at the events file."""
QUIET = 60.0
"""Seconds without any event after which the process gives up."""
SWITCH = 0.0002
"""Seconds after which the interpreter may switch from the foot's thread to the game's."""
TRAVEL = Range(-1.0, 1.0)
"""Raw travel of the virtual pedals."""


def set_up() -> Binding:
    """Binding of the plugged pedals, as the set-up screens would store it."""
    devices = Devices()
    devices.rescan()
    [device] = devices.plugged
    pedals = (BoundAxis(device.identity, axis, TRAVEL) for axis in range(2))
    return Binding(*pedals)


def play_session(
    pedals: VirtualPedals, data: Path, events: Path, minutes: float, speed: float
) -> int:
    """Play what is left of a session of some minutes; returns the exit code of the game."""

    def clock() -> int:
        return round(time.perf_counter_ns() * speed)

    foot = EventDrivenFoot(clock, SKILL, SEED)
    feeder = Feeder(pedals, lambda _: [percent / 50 - 1 for percent in foot.percent()])

    def watch() -> None:
        tail = EventTail(events, POLL)
        while True:
            event = tail.wait(lambda _: True, QUIET)
            if event["event"] == "closed":
                return
            if not feeder.is_alive():
                feeder.stop()
            foot.hear(event)

    def game() -> int:
        options = argparse.Namespace(
            data=data, player=None, events=events, window=Shape(SMALLEST_SIZE)
        )
        return run_play(options, FIVE, minutes, clock)

    feeder.start()
    return play(watch, game)


def main(data: str, *more: str) -> int:
    """Fill a data folder, or play a session in it; returns the exit code."""
    give_hints()
    sys.setswitchinterval(SWITCH)
    pygame.joystick.init()
    pedals = VirtualPedals().plug()
    if not more:
        make_past(Path(data), local_now(), set_up())
        return 0
    events, minutes, speed = more
    return play_session(pedals, Path(data), Path(events), float(minutes), float(speed))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
