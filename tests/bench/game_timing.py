"""Starting and going on in the game itself, timed in a process of its own."""

import json
import os
import resource
import statistics
import subprocess
import sys
import time
from datetime import timedelta
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.drill.demonstration import Demonstration  # noqa: E402
from engine.game.flow import play  # noqa: E402
from engine.game.offer import Offer  # noqa: E402
from engine.ladder.level_files import load_band  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.pedals.sdl import Devices  # noqa: E402
from engine.stage.actions import Action  # noqa: E402
from engine.stage.events import Events  # noqa: E402
from engine.stage.headless import ManualClock, NoLights  # noqa: E402
from engine.stage.scene import Attended, Flow, Scene  # noqa: E402
from engine.stage.speaker import Silence  # noqa: E402
from engine.stage.stage import Stage  # noqa: E402
from engine.store import open_history  # noqa: E402
from tests.bench.simulated_practice import FIRST, LEVELS  # noqa: E402
from tests.engine.pedals.joysticks import FakeJoysticks  # noqa: E402

ADDED = 10  # repetitions that each timed process plays
MOST_SCREENS = 5  # from home, or from the end of a repetition, to the next repetition


def timed(folder: Path, days: int) -> dict[str, float]:
    """Time to home and from a verdict to the next repetition (ms), and peak memory (MB)."""
    clock, today = ManualClock(), FIRST + timedelta(days=days)
    rig = Rig(clock, Devices(FakeJoysticks()))
    stage = Stage(NoLights(), Silence(), Events(None, clock))
    offer = Offer(LEVELS, load_band(), Demonstration(LEVELS[0], 1, 1, 0.5))
    going_on: list[float] = []
    began = time.perf_counter()
    with open_history(folder, []) as history:
        rng = np.random.default_rng(1)
        playing = play(rig, stage, history, offer, rng, lambda: today)
        choose(next(playing).screen, "Try with the mouse")
        home = next(playing)
        to_home = time.perf_counter() - began
        scene = to_repetition(playing, home)
        while len(going_on) < ADDED:
            while scene.screen.outcome is None:
                clock.advance(1_000_000)
                scene.screen.on_sample(rig.sample(), clock())
            began = time.perf_counter()
            scene = to_repetition(playing, next(playing))
            going_on.append(time.perf_counter() - began)
        playing.close()
    return {
        "home": 1000 * to_home,
        "next": 1000 * statistics.median(going_on),
        "memory": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }


def to_repetition(playing: Flow[None], scene: Scene) -> Scene:
    """Repetition that comes when the first choice of each screen is taken.

    Raises RuntimeError where that takes more than MOST_SCREENS.
    """
    for _ in range(MOST_SCREENS):
        if scene.screen.name == "repetition":
            return scene
        scene.screen.on_action(Action.GO)
        scene = next(playing)
    raise RuntimeError(f"no repetition in {MOST_SCREENS} screens, then {scene.screen.name}")


def choose(screen: Attended, label: str) -> None:
    """Choose by the label."""
    labels = screen.details()["choices"]
    assert isinstance(labels, list)
    for _ in range(labels.index(label)):
        screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)


def apart(folder: Path, days: int) -> dict[str, float]:
    """What `timed` finds in a process of its own, on the day after the last."""
    command = [sys.executable, __file__, str(folder), str(days)]
    quiet = os.environ | {"PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    done = subprocess.run(command, cwd=ROOT, env=quiet, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found


if __name__ == "__main__":
    print(json.dumps(timed(Path(sys.argv[1]), int(sys.argv[2]))))
