"""Scripts of a player with two devices of one model: `two_twins` and `one_twin_missing`."""

import shutil
import subprocess
import time

import pygame

from engine.ladder.ladder import YOUR_OWN
from tests.game.kinds import PEAK
from tests.game.leaving import leave
from tests.game.player import Player
from tests.game.ways import LEVEL, by_keys, out_of_the_set, past_the_cautions_by_keys
from tests.rig import VirtualPedals, press_key
from tests.waiting import wait_for, wait_until


def ramp(pedals: VirtualPedals, axis: int, start: float, stop: float) -> None:
    """Move one axis between raw positions in a tenth of a second, and wait until it is read."""
    began = time.monotonic()
    for step in range(1, 21):
        pedals.set(axis, start + (stop - start) * step / 20)
        wait_until(began + step * 0.005)
    wait_for(lambda: pedals.is_read(axis, stop))


def two_twins(player: Player) -> None:
    """Set up the brake on one device, the others on its twin; play, and resize the window."""
    wait_for(pygame.joystick.get_init)
    brakes, others = VirtualPedals().plug(), VirtualPedals().plug()
    past_the_cautions_by_keys(player)
    for name, device, axis in (
        ("brake", brakes, 0),
        ("throttle", others, 0),
        ("clutch", others, 1),
    ):
        player.screen("pedals", pedal=name, step="find")
        ramp(device, axis, -1, 1)
        player.screen("pedals", pedal=name, step="release")
        ramp(device, axis, 1, -1)
        player.screen("pedals", pedal=name, step="full")
        ramp(device, axis, -1, 1)
        player.screen("pedals", pedal=name, step="release again")
        ramp(device, axis, 1, -1)
    player.screen("pedals found")
    press_key("return")
    by_keys(player.screen("home"), "Practise")
    by_keys(player.screen("ladder"), YOUR_OWN)
    by_keys(player.screen("levels"), LEVEL)

    def blip(cue: float) -> None:
        if not player.react(cue):
            return
        ramp(others, 0, -1, PEAK / 50 - 1)
        ramp(others, 0, PEAK / 50 - 1, -1)

    player.until_it_counts(lambda target: ramp(brakes, 0, -1, target / 50 - 1), blip)
    if pygame.display.get_driver() == "x11" and shutil.which("xdotool"):
        window = str(pygame.display.get_wm_info()["window"])
        subprocess.run(["xdotool", "windowsize", window, "1000", "700"], check=True)
        wait_for(lambda: pygame.display.get_window_size() == (1000, 700))
    out_of_the_set(player)
    leave(player)


def one_twin_missing(player: Player) -> None:
    """Plug in only one of two devices, so that the game asks; with both it tells them by order."""
    player.screen("no pedals")
    VirtualPedals().plug()
    player.screen("pedals", pedal="brake")
    press_key("escape")
    player.screen("no pedals")
    VirtualPedals().plug()
    leave(player)
