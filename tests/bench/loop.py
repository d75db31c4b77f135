"""How evenly the game reads the pedals, against two plain loops in the same run.

    python tests/bench/loop.py [SECONDS of repetitions [ROUNDS]]

Virtual pedals move at 1 kHz under a 1920x1080 window. The game plays real repetitions; a bare
loop of the same period only pumps and reads; a frame loop draws the way games usually do, 60
times a second. Every move of the brake is numbered, so that moves nobody read can be counted.
"""

import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import pygame  # noqa: E402

from engine.commands.main import main as run_game  # noqa: E402
from engine.ladder.ladder import YOUR_OWN  # noqa: E402
from engine.pedals.port import Reading  # noqa: E402
from engine.pedals.sdl import SdlPedals  # noqa: E402
from engine.stage.loop import PERIODS  # noqa: E402
from engine.stage.scene import Pace  # noqa: E402
from engine.stage.sdl_setup import give_hints  # noqa: E402
from tests.bench.gaps import COUNT, MARKS, Reads, mark_of, report, windows  # noqa: E402
from tests.game.player import BRAKE, Player  # noqa: E402
from tests.game.threads import play  # noqa: E402
from tests.rig import Feeder, VirtualPedals, press_key  # noqa: E402
from tests.screen import virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

SIZE = (1920, 1080)
LONG = 60.0  # s of repetitions, and of each plain loop
LOOK = 0.2  # s between two looks at the events
LATE = 0.8  # s from the cue to the blip, for a player who looks so seldom
ROUNDS = 4  # times each part is run, in turn: a busy machine then troubles all alike
HOME = 5.0  # s watched on the home screen

LEVEL = """
id = "bench"
title = "Bench"
purpose = "Many short repetitions."
kind = "blip"
targets = [60]
tolerance = 30
repetitions = 50
pedals = ["brake", "throttle"]
foreperiod = { shift = 2.0, mean = 0.5, cut = 1.0 }
[limits]
dip = 30
"""


class MarkedFoot:
    """Numbers the moves of a pedal: the lowest bits of the brake count them."""

    def __init__(self, percent: Callable[[], list[float]]) -> None:
        self._percent = percent
        self._moves = 0

    def position(self, _: float) -> list[float]:
        """All axes, raw, with the next number in the brake."""
        raw = [value / 50 - 1 for value in self._percent()]
        self._moves += 1
        steps = round(raw[BRAKE] / COUNT)
        raw[BRAKE] = (steps - steps % MARKS + self._moves % MARKS) * COUNT
        return raw


class MarkedPlayer(Player):
    """A player whose feeder numbers the moves, and who looks at the events only now and then.

    Looking takes time from the loop, which the plain loops do not pay.
    """

    def __init__(self, events: Path) -> None:
        super().__init__(events)
        self.events = EventTail(events, LOOK)

    def plug(self) -> None:
        super().plug()
        assert self._feeder is not None
        self._feeder.stop()
        self._feeder = Feeder(self.pedals, MarkedFoot(self.foot.percent).position)
        self._feeder.start()


def play_game(seconds: float, folder: Path) -> dict[str, Any]:
    """Repetitions in the real game until so many seconds were measured."""
    reads: Reads = []
    read = SdlPedals.read

    def recorded(self: SdlPedals) -> Reading | None:
        reading = read(self)
        if reading is not None:
            reads.append((reading.time, mark_of(reading.brake)))
        return reading

    SdlPedals.read = recorded  # type: ignore[method-assign]
    (folder / "levels").mkdir()
    (folder / "levels" / "bench.toml").write_text(LEVEL, encoding="utf-8")
    log = folder / "events.jsonl"
    player = MarkedPlayer(log)

    def script(player: Player) -> None:
        player.screen("cautions")
        press_key("return")
        player.screen("no pedals")
        player.plug()
        player.set_up_pedals()
        player.choose(player.screen("home"), "Practise")
        player.choose(player.screen("ladder"), YOUR_OWN)
        player.choose(player.screen("levels"), "Bench")
        while sum(stop - start for start, stop in windows(player.events.seen)) < seconds * 1e9:
            player.until_it_counts(
                lambda target: player.foot.glide(BRAKE, target),
                lambda cue: player.foot.blip_at(cue + LATE, 5.0),
            )
        player.screen("repetition")
        pygame.event.post(pygame.event.Event(pygame.QUIT))

    size = f"{SIZE[0]}x{SIZE[1]}"
    arguments = ["--data", str(folder), "--events", str(log), "--window", size]
    play(lambda: script(player), lambda: run_game(arguments))
    return report(reads, windows(player.events.seen))


def plain_loop(seconds: float, turn: Callable[[], None], hz: float | None) -> dict[str, Any]:
    """A loop that reads once a turn: at the game's period, or with a clock at `hz`."""
    pygame.display.init()
    pygame.joystick.init()
    pygame.display.set_mode(SIZE)
    pedals = VirtualPedals().plug()
    pygame.event.pump()
    joystick = pygame.joystick.Joystick(0)
    feeder = Feeder(pedals, MarkedFoot(lambda: [60.0, 0.0, 0.0]).position)
    feeder.start()
    reads: Reads = []
    clock, period = pygame.time.Clock(), PERIODS[Pace.DARK]
    began = deadline = time.perf_counter_ns()
    while deadline - began < seconds * 1e9:
        if hz is None:
            deadline += period
            time.sleep(max(deadline - time.perf_counter_ns(), 0) / 1e9)
        else:
            clock.tick(hz)
            deadline = time.perf_counter_ns()
        pygame.event.pump()
        pygame.event.get()
        value = joystick.get_axis(BRAKE)
        reads.append((time.perf_counter_ns(), mark_of(value)))
        turn()
    feeder.stop()
    pedals.unplug()
    pygame.quit()
    return report(reads, [(began, deadline)])


def draw() -> None:
    """A frame as a game draws it: everything, every time."""
    surface = pygame.display.get_surface()
    assert surface is not None
    surface.fill((14, 16, 19))
    pygame.draw.circle(surface, (86, 180, 233), (time.perf_counter_ns() // 10**7 % 1900, 500), 60)
    pygame.display.flip()


def rest_at_home(folder: Path) -> dict[str, Any]:
    """Share of a core and memory on the home screen."""
    found: dict[str, Any] = {}

    def script(player: Player) -> None:
        player.screen("cautions")
        press_key("return")
        player.screen("no pedals")
        press_key("return")
        player.screen("home")
        time.sleep(1)
        began, used = time.monotonic(), time.process_time()
        time.sleep(HOME)
        found["core"] = (time.process_time() - used) / (time.monotonic() - began)
        pygame.event.post(pygame.event.Event(pygame.QUIT))

    log = folder / "events.jsonl"
    size = f"{SIZE[0]}x{SIZE[1]}"
    arguments = ["--data", str(folder), "--events", str(log), "--window", size]
    play(lambda: script(Player(log)), lambda: run_game(arguments))
    return found | {"memory": peak_memory()}


def peak_memory() -> float:
    """MB, the most that this process has held."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    line = next(line for line in status.splitlines() if line.startswith("VmHWM"))
    return int(line.split()[1]) / 1024


def part(name: str, seconds: float, folder: Path) -> dict[str, Any]:
    """One part of the run, in a process of its own."""
    give_hints()
    match name:
        case "bare":
            return plain_loop(seconds, lambda: None, None)
        case "frames":
            return plain_loop(seconds, draw, 60.0)
        case "home":
            return rest_at_home(folder)
    found = play_game(seconds, folder)
    return found | {"memory": peak_memory()}


def middle(results: list[dict[str, Any]]) -> dict[str, Any]:
    """The median of each figure over the rounds."""
    return {key: statistics.median(result[key] for result in results) for key in results[0]}


def main() -> None:
    """Print the table."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else LONG
    times = int(sys.argv[2]) if len(sys.argv) > 2 else ROUNDS
    rounds: dict[str, list[dict[str, Any]]] = {}
    with virtual_display(size=SIZE) as environment:
        for name in ("bare", "frames", "game") * times + ("home",):
            with tempfile.TemporaryDirectory() as folder:
                done = subprocess.run(
                    [sys.executable, __file__, "--part", name, str(seconds / times), folder],
                    env=environment,
                    stdout=subprocess.PIPE,
                    text=True,
                    check=True,
                )
            rounds.setdefault(name, []).append(json.loads(done.stdout.splitlines()[-1]))
    found = {name: middle(results) for name, results in rounds.items()}
    ratios = [
        game["p99"] / bare["p99"] for game, bare in zip(rounds["game"], rounds["bare"], strict=True)
    ]
    print("gaps between reads, ms      p50     p99     max   missed in 1000   s a round")
    for name in ("bare", "frames", "game"):
        row = found[name]
        print(
            f"{name:<22} {row['p50']:8.3f}{row['p99']:8.3f}{row['max']:8.2f}"
            f"{row['missed']:17.1f}{row['seconds']:9.1f}"
        )
    game = found["game"]["p99"]
    each = ", ".join(f"{ratio:.2f}" for ratio in ratios)
    print(f"p99 game / bare    {game / found['bare']['p99']:6.2f}   aim: at most 1.25 ({each})")
    print(f"p99 frames / game  {found['frames']['p99'] / game:6.2f}   aim: at least 8")
    print(f"missed in 1000     {found['game']['missed']:6.1f}   aim: at most 5")
    print(f"memory, MB         {found['game']['memory']:6.0f}   aim: under 150 (with its own log)")
    print(f"home, % of a core  {found['home']['core'] * 100:6.1f}   aim: under 5")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--part"]:
        print(json.dumps(part(sys.argv[2], float(sys.argv[3]), Path(sys.argv[4]))))
    else:
        main()
