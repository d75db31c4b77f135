"""What scripted people do at the game: `python -m tests.game.scripts NAME DATA EVENTS`."""

import shutil
import subprocess
import sys
import time
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pygame

from engine.commands.main import main as stillfoot
from engine.ladder.ladder import YOUR_OWN
from engine.stage.sdl_setup import give_hints
from tests.game.foot_log import WRITTEN
from tests.game.kinds import BLIP, KINDS
from tests.game.player import BRAKE, THROTTLE, Player, leave, moves, play
from tests.rig import VirtualPedals, mouse_button, move_mouse, press_key
from tests.waiting import wait_for, wait_until

DIPS = (6.0, 12.0, 21.0)
"""Percent, scripted dips of three repetitions."""
UNHEARD = 1.5
"""Seconds in which a foot that is heard would have chosen or begun something."""
LEVEL = "Three blips"
"""Title of the level that the tests put into the data folder."""


ENDS_A_PRESS = ("moved", "fault")
"""What a phase is entered by once the mouse button may be let go."""


def by_keys(screen: dict[str, Any], label: str, on: str = "down", yes: str = "return") -> None:
    """Choose with the keyboard."""
    for _ in range(moves(screen, label)):
        press_key(on)
    press_key(yes)


def first_day(player: Player) -> None:
    """Cautions, pedals and three blips with the feet alone, then leave with the keyboard."""
    player.plug()
    player.screen("cautions")
    player.look()
    player.press_and_let_go(THROTTLE)
    player.set_up_pedals()
    player.choose(player.screen("home"), "Choose a level")
    player.choose(player.screen("ladder"), YOUR_OWN)
    player.choose(player.screen("levels"), LEVEL)
    for dip in DIPS:
        player.blip(dip)
    shown = player.first_screen("set end", "repetition")
    if shown["name"] == "set end":
        player.choose(shown, "Home")
    else:  # the set was given up on a busy machine, and this is the rest of another one
        press_key("escape")
        out_of_the_menu(player)
    leave(player)


def next_day(player: Player) -> None:
    """The pedals are plugged in before the start: straight to home, and out again."""
    player.screen("no pedals")
    player.plug()
    leave(player)


def pull_the_plug(player: Player) -> str:
    """Unplug the pedals in the dark; why the repetition does not count."""
    player.hold_in_the_dark()
    player.unplug()
    player.foot.glide(BRAKE, 0)
    return str(player.event("verdict")["reason"])


def unplugged(player: Player) -> None:
    """Pull the plug in the dark, plug in again, go on, then close the window mid-repetition."""
    player.screen("no pedals")
    player.plug()
    player.choose(player.screen("home"), "Choose a level")
    player.choose(player.screen("ladder"), YOUR_OWN)
    player.choose(player.screen("levels"), LEVEL)
    while pull_the_plug(player) != "unplugged":
        player.screen("reveal")
        player.plug()
    player.screen("unplugged")
    player.plug()
    player.screen("reveal", reason="unplugged")
    player.blip(8.0)
    player.hold_in_the_dark()
    pygame.event.post(pygame.event.Event(pygame.QUIT))


def focus(gained: bool) -> None:
    """Let the game hear that its window has the focus or lost it."""
    told = pygame.WINDOWFOCUSGAINED if gained else pygame.WINDOWFOCUSLOST
    pygame.event.post(pygame.event.Event(told))


def another_window(player: Player) -> None:
    """Feet choose nothing and begin nothing while another window has the focus."""
    player.screen("no pedals")
    player.plug()
    player.screen("home")
    focus(False)
    player.agree()
    wait_until(time.monotonic() + UNHEARD)
    player.move(BRAKE, 0)
    focus(True)
    player.choose(player.screen_now("home"), "Choose a level")
    ladder = player.screen("ladder")
    focus(False)
    by_keys(ladder, YOUR_OWN)
    by_keys(player.screen("levels"), LEVEL)
    asked = player.repetition()
    player.move(BRAKE, asked["target"])
    wait_until(time.monotonic() + UNHEARD)
    focus(True)
    player.event("phase", phase="release")
    player.hold_in_the_dark(asked)
    focus(False)
    while player.event("verdict")["reason"] != "focus lost":
        focus(True)
        player.hold_in_the_dark()
        focus(False)
    player.screen("reveal")
    focus(True)
    player.blip(5.0)
    out_of_the_set(player)
    leave(player)


def out_of_the_set(player: Player) -> None:
    """From the reveal by way of the menu to the end of the set, and home, by the keyboard."""
    player.screen("reveal")
    press_key("escape")
    out_of_the_menu(player)


def out_of_the_menu(player: Player) -> None:
    """From the menu to the end of the set, and home, by the keyboard."""
    player.screen("menu")
    press_key("down")
    press_key("return")
    player.screen("set end")
    press_key("escape")


def mouse_and_keys(player: Player) -> None:
    """No pedals at all: keys in the menus, the mouse as pedals, full screen and back."""
    player.screen("cautions")
    press_key("return")
    player.screen("no pedals")
    press_key("return")
    home = player.screen("home")
    press_key("f11")
    press_key("f11")
    by_keys(home, "Choose a level")
    by_keys(player.screen("ladder"), YOUR_OWN, "tab", "space")
    by_keys(player.screen("levels"), LEVEL, "tab", "space")
    width, height = pygame.display.get_surface().get_size()

    def row(target: float) -> int:
        return round((height - 1) * (1 - target / 100))

    def blip(cue: float) -> None:
        if not player.react(cue):
            return
        at = (width // 2, pygame.mouse.get_pos()[1])
        mouse_button(True, *at)
        wait_for(lambda: player.came_after(cue, lambda event: event.get("by") in ENDS_A_PRESS))
        mouse_button(False, *at)

    player.until_it_counts(lambda target: move_mouse(width // 2, row(target)), blip)
    out_of_the_set(player)
    leave(player)


def every_kind(player: Player) -> None:
    """One repetition of every kind with known pedals, the menus by the keyboard.

    The mix comes when the blip alone is passed, so that it draws that. What feet could not do in
    time they do again, as far as patience goes. What they wrote is kept beside the events.
    """
    player.plug()
    player.screen("cautions")
    player.look()
    player.press_and_let_go(THROTTLE)
    player.set_up_pedals(clutch=True)
    others = [one for one in KINDS if one is not BLIP]
    for scripted in (BLIP, replace(BLIP, kind="mixed"), *others):
        in_time = False
        while not in_time:
            home = player.screen("home")
            player.foot.rest()
            by_keys(home, "Choose a level")
            by_keys(player.screen("ladder"), YOUR_OWN)
            by_keys(player.screen("levels"), f"Known {scripted.kind}")
            in_time = player.perform(scripted)
            player.screen("set end")
            press_key("escape")
    leave(player)
    np.save(player.folder / WRITTEN, np.array(player.written))


def ramp(pedals: VirtualPedals, axis: int, start: float, stop: float) -> None:
    """Move one axis from a raw position to another in a tenth of a second, until it is read."""
    began = time.monotonic()
    for step in range(1, 21):
        pedals.set(axis, start + (stop - start) * step / 20)
        wait_until(began + step * 0.005)
    wait_for(lambda: pedals.is_read(axis, stop))


def two_twins(player: Player) -> None:
    """Brake on one device, throttle and clutch on another of the same model; then resize."""
    wait_for(pygame.joystick.get_init)
    brakes, others = VirtualPedals().plug(), VirtualPedals().plug()
    player.screen("cautions")
    press_key("return")
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
    by_keys(player.screen("home"), "Choose a level")
    by_keys(player.screen("ladder"), YOUR_OWN)
    by_keys(player.screen("levels"), LEVEL)

    def blip(cue: float) -> None:
        if not player.react(cue):
            return
        ramp(others, 0, -1, 0.6)
        ramp(others, 0, 0.6, -1)

    player.until_it_counts(lambda target: ramp(brakes, 0, -1, target / 50 - 1), blip)
    if pygame.display.get_driver() == "x11" and shutil.which("xdotool"):
        window = str(pygame.display.get_wm_info()["window"])
        subprocess.run(["xdotool", "windowsize", window, "1000", "700"], check=True)
        wait_for(lambda: pygame.display.get_surface().get_size() == (1000, 700))
    out_of_the_set(player)
    leave(player)


def one_twin_missing(player: Player) -> None:
    """Only one of the two is plugged in, so the game asks; with both it knows them by order."""
    player.screen("no pedals")
    VirtualPedals().plug()
    player.screen("pedals", pedal="brake")
    press_key("escape")
    player.screen("no pedals")
    VirtualPedals().plug()
    leave(player)


def main(name: str, data: str, events: str, *more: str) -> int:
    """Play one script against a data folder and an events file."""
    give_hints()
    player = Player(Path(events), inverted="inverted" in more)
    arguments = ["--data", data, "--events", events]
    return play(partial(globals()[name], player), partial(stillfoot, arguments))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
