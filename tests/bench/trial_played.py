"""A whole trial by a simulated foot in two positions, in a window at faster time on three days.

    python tests/bench/trial_played.py [POINTS [FOLDER [DAYS]]]

In position A the brake dips by so many points more than in B (else 6). All is done by the feet:
the foot reads the events file as a person looks at the game. Pictures of the screens go into the
folder where one is named; DAYS (3) may end before the trial does.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np
import pygame

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.trace import SECOND  # noqa: E402
from engine.commands.options import local_now  # noqa: E402
from engine.commands.play import in_window  # noqa: E402
from engine.drill.demonstration import Demonstration  # noqa: E402
from engine.game.entries import TRIAL_AT_ONCE  # noqa: E402
from engine.game.flow import play  # noqa: E402
from engine.game.offer import Offer  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_band, load_levels  # noqa: E402
from engine.pedals.port import Clock  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.stage.scene import Aside, Flow  # noqa: E402
from engine.stage.sdl_setup import give_hints  # noqa: E402
from engine.stage.stage import Stage  # noqa: E402
from engine.stage.window_shape import Shape  # noqa: E402
from engine.store import open_history  # noqa: E402
from engine.trial.randomisation import block_now  # noqa: E402
from engine.trial.saved import all_trials  # noqa: E402
from tests.game import threads  # noqa: E402
from tests.game.past import make_past  # noqa: E402
from tests.game.session_process import POLL, QUIET, SEED, SKILL, SWITCH, set_up  # noqa: E402
from tests.game.simulated_foot import TAP, EventDrivenFoot  # noqa: E402
from tests.rig import Feeder, VirtualPedals  # noqa: E402
from tests.screen import screenshot, virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

SPEED = 5.0  # times as fast
DAYS = 3
PAIRS_A_DAY = 2
PEAK = 66.0  # %, throttle at which all of the difference is there
BETTER = "B"
TAPPING = (2.0, 2.2)  # s from a screen to a tap on it, and to its end
SIZE = (1280, 720)
LONGEST = 300.0  # s that a day may take


class Positions(EventDrivenFoot):
    """Simulated foot in two positions, which changes over when asked and chooses by taps."""

    def __init__(self, clock: Clock, points: float) -> None:
        super().__init__(clock, SKILL, SEED)
        self._time, self._points = clock, points
        self._arm, self._taps, self._opened = BETTER, False, 0

    def hear(self, event: Mapping[str, Any]) -> None:
        """Take in one event, and whether a tap leads to what is wanted."""
        if event["event"] == "screen":
            self._opened, self._taps = self._time(), taps_at(event)
            self._arm = event.get("arm", self._arm)
        super().hear(event)

    def percent(self) -> list[float]:
        """All pedals now, in %: a blip takes more of the brake in the worse position."""
        brake, throttle, clutch = super().percent()
        if self._arm != BETTER:
            brake = max(brake - self._points * min(throttle / PEAK, 1.0), 0.0)
        since = (self._time() - self._opened) / SECOND
        taps = self._taps and TAPPING[0] <= since < TAPPING[1]
        return [brake, TAP if taps else throttle, clutch]


def taps_at(screen: Mapping[str, Any]) -> bool:
    """Whether the choice that is wanted is a later one."""
    match screen["name"]:
        case "set-up":
            return bool(
                screen["arm"] == "B" and screen["ball"] == "toes" and screen["selected"] > 0
            )
        case "change over":
            is_first = screen["block"] == 1 or screen.get("resumed", False)
            return bool(not is_first and (screen["block"] - 1) % (2 * PAIRS_A_DAY) == 0)
        case _:
            return False


def play_day(data: Path, number: int, points: float, pictures: Path | None) -> int:
    """One day, from the start of the program to its end; the exit code."""

    def clock() -> int:
        return round(time.perf_counter_ns() * SPEED)

    give_hints()
    sys.setswitchinterval(SWITCH)
    pygame.joystick.init()
    pedals = VirtualPedals().plug()
    if number == 0:
        make_past(data, local_now(), set_up())
    feet = Positions(clock, points)
    feeder = Feeder(pedals, lambda _: [percent / 50 - 1 for percent in feet.percent()])
    told = data / f"events {number}.jsonl"

    def watch() -> None:
        tail, seen, resumed = EventTail(told, POLL), 0, number > 0
        while True:
            event = tail.wait(lambda _: True, QUIET)
            if event["event"] == "drawn" and pictures is not None and event["name"] != "repetition":
                seen += 1
                name = f"{number}-{seen:02}-{event['name'].replace(' ', '-')}.png"
                screenshot(os.environ["DISPLAY"], pictures / name)
            if event["event"] == "closed":
                return
            if event["event"] == "drawn" and event["name"] in ("home", "trial curves"):
                pygame.event.post(pygame.event.Event(pygame.QUIT))
            if event["event"] == "screen" and event["name"] == "change over":
                event, resumed = event | {"resumed": resumed}, False
            feet.hear(event)

    def game() -> int:
        levels = load_levels([SHIPPED])
        offer = Offer(levels, load_band(), Demonstration(levels[0], 1, 1, 1.0))
        with open_history(data, levels) as history:
            rng = np.random.default_rng(SEED)

            def that_day() -> datetime:
                return local_now() + timedelta(days=number)

            def start(rig: Rig, stage: Stage, _: Aside) -> Flow[None]:
                return play(rig, stage, history, offer, rng, that_day, TRIAL_AT_ONCE)

            in_window(Shape(SIZE), told, start, asked_to_end=lambda: False, clock=clock)
        return 0

    feeder.start()
    return threads.play(watch, game)


def main(points: str = "6", pictures: str = "", days: str = f"{DAYS}") -> int:
    """Play all days, each in a process of its own, and print what the trial tells."""
    if pictures:
        Path(pictures).mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, virtual_display(SIZE) as display:
        for number in range(int(days)):
            day = [sys.executable, __file__, "day", folder, str(number), points, pictures]
            subprocess.run(day, env=display, cwd=ROOT, check=True, timeout=LONGEST)
        with open_history(Path(folder), []) as history:
            [trial] = all_trials(history)
        told = EventTail(Path(folder) / f"events {int(days) - 1}.jsonl").seen
    played = {one.day for one in trial.repetitions}
    print(f"{len(trial.repetitions)} repetitions on {len(played)} days")
    if int(days) < DAYS:
        return 0 if trial.repetitions else 1
    [said] = [event for event in told if event.get("name") == "trial result" and "said" in event]
    for line in (*said["said"], *map("  ".join, (*said["table"], *said["counts"]))):
        print(f"  {line}")
    return 0 if trial.over and block_now(trial) is None else 1


if __name__ == "__main__":
    if sys.argv[1:2] == ["day"]:
        _, _, data, number, points, *pictures = sys.argv
        into = Path(pictures[0]) if pictures and pictures[0] else None
        sys.exit(play_day(Path(data), int(number), float(points), into))
    sys.exit(main(*sys.argv[1:]))
