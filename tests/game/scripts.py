"""Scripts that play the game as a person would: `python -m tests.game.scripts NAME DATA EVENTS`."""

import os
import signal
import sys
import time
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
import pygame

from engine.commands.main import main as stillfoot
from engine.ladder.ladder import YOUR_OWN
from engine.stage.sdl_setup import give_hints
from tests.game.counting import two_counted
from tests.game.first_minutes import first_minutes, first_minutes_by_keys
from tests.game.foot_log import WRITTEN
from tests.game.kinds import BLIP, KINDS
from tests.game.leaving import leave
from tests.game.locked import locked
from tests.game.player import BRAKE, REACTION, THROTTLE, Player
from tests.game.shifting import six_shifts
from tests.game.threads import play
from tests.game.twins import one_twin_missing, two_twins
from tests.game.ways import (
    LEVEL,
    by_keys,
    fills_the_screen,
    focus,
    into_the_full_screen,
    open_the_level,
    out_of_the_menu,
    out_of_the_set,
    past_the_cautions_by_feet,
)
from tests.rig import mouse_button, move_mouse, press_key
from tests.waiting import wait_for, wait_until

DIPS = (6.0, 12.0, 21.0)
"""Scripted dips of three repetitions, in percent."""
CREPT = 4.2
"""Percent at which a throttle rests that crept away; a repetition begins with less than 5."""
UNHEARD = 1.5
"""Seconds in which a foot that the game reacts to would have chosen or begun something."""
ENDS_A_PRESS = ("moved", "fault", "late")
"""Events of the repetition after which the mouse button may be let go."""


def first_day(player: Player) -> None:
    """Read the cautions, set up pedals and blip three times by feet; leave by the keyboard."""
    player.plug()
    past_the_cautions_by_feet(player)
    player.set_up_pedals()
    open_the_level(player)
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
    """Plug in pedals that are set up already: straight to home, and out again."""
    player.screen("no pedals")
    player.plug()
    leave(player)


def rest_moved(player: Player) -> None:
    """Play with a throttle that no longer comes back to 0 %, until the game offers its rest."""
    player.screen("no pedals")
    player.plug()
    open_the_level(player)
    shown = player.repetition()
    player.foot.glide(THROTTLE, CREPT)
    while shown["name"] != "end moved":
        player.approach(partial(player.foot.glide, BRAKE), shown)
        event = player.first_of("cue", "verdict")
        if event["event"] == "cue":
            player.foot.blip_at(event["t"] + REACTION, DIPS[0])
            player.event("verdict")
            player.foot.hold_back()
        shown = player.first_screen("repetition", "end moved")
    player.confirm()
    player.screen("set rest")
    player.move(BRAKE, 0)
    if player.first_screen("set end", "repetition")["name"] == "repetition":
        press_key("escape")
        out_of_the_menu(player)
    else:
        press_key("escape")
    leave(player)


def pull_the_plug(player: Player) -> str:
    """Unplug the pedals during the wait; returns the reason in the verdict."""
    player.hold_in_the_dark()
    player.unplug()
    player.foot.glide(BRAKE, 0)
    return str(player.event("verdict")["reason"])


def unplugged(player: Player) -> None:
    """Unplug during the wait, plug in again, play one more, and close the window in the next."""
    player.screen("no pedals")
    player.plug()
    open_the_level(player)
    while pull_the_plug(player) != "unplugged":
        player.screen("reveal")
        player.plug()
    player.screen("unplugged")
    player.plug()
    player.screen("reveal", reason="unplugged")
    player.blip(8.0)
    player.hold_in_the_dark()
    pygame.event.post(pygame.event.Event(pygame.QUIT))


def ended(player: Player, how: str) -> None:
    """Play a repetition up to its cue, and end the game then: `how` is "closed" or a signal."""
    player.screen("no pedals")
    player.plug()
    by_keys(player.screen("home"), "Practise")
    by_keys(player.screen("ladder"), YOUR_OWN)
    by_keys(player.screen("levels"), LEVEL)
    player.hold_in_the_dark()
    while player.first_of("cue", "verdict")["event"] != "cue":
        player.hold_in_the_dark()
    if how == "closed":
        pygame.event.post(pygame.event.Event(pygame.QUIT))
    else:
        os.kill(os.getpid(), signal.Signals[how])


def another_window(player: Player) -> None:
    """Press pedals while another window has the focus, in a menu and in a repetition."""
    player.screen("no pedals")
    player.plug()
    player.screen("home")
    focus(False)
    player.confirm()
    wait_until(time.monotonic() + UNHEARD)
    player.move(BRAKE, 0)
    focus(True)
    player.choose(player.screen_now("home"), "Practise")
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


def mouse_and_keys(player: Player) -> None:
    """Play without pedals: keys in the menus, from full screen to a window, the mouse as pedals."""
    into_the_full_screen(player)
    player.screen("no pedals")
    press_key("return")
    home = player.screen("home")
    press_key("f11")
    wait_for(lambda: not fills_the_screen())
    by_keys(home, "Practise")
    by_keys(player.screen("ladder"), YOUR_OWN, "tab", "space")
    by_keys(player.screen("levels"), LEVEL, "tab", "space")
    width, height = pygame.display.get_window_size()

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
    """Play the scripted repetition of every kind, the menus by the keyboard.

    The mixed level comes when only the blip is passed, so that it draws the blip. A repetition in
    which the feet moved too late is played once more. The positions are saved beside the events.
    """
    player.plug()
    past_the_cautions_by_feet(player)
    player.set_up_pedals(clutch=True)
    others = [scripted for scripted in KINDS if scripted is not BLIP]
    for scripted in (BLIP, replace(BLIP, kind="mixed"), *others):
        in_time = False
        while not in_time:
            home = player.screen("home")
            player.foot.rest()
            by_keys(home, "Practise")
            by_keys(player.screen("ladder"), YOUR_OWN)
            by_keys(player.screen("levels"), f"Known {scripted.kind}")
            in_time = player.perform(scripted)
            player.screen("set end")
            press_key("escape")
    leave(player)
    np.save(player.folder / WRITTEN, np.array(player.written))


SCRIPTS_ELSEWHERE = (
    *(locked, two_twins, one_twin_missing),
    *(first_minutes, first_minutes_by_keys, six_shifts, two_counted),
)
"""Scripts that `main` finds here though they are in files of their own."""


def main(name: str, data: str, events: str, *more: str) -> int:
    """Play one script on a data folder, with an events file; returns the exit code of the game.

    `name` is that of the script, with its arguments after spaces.
    """
    give_hints()
    if hasattr(signal, "SIGHUP"):
        signal.signal(signal.SIGHUP, signal.SIG_DFL)  # the tests may run under `nohup`
    script, *how = name.split()
    player = Player(Path(events), inverted="inverted" in more)
    arguments = ["--data", data, "--events", events]
    return play(partial(globals()[script], player, *how), partial(stillfoot, arguments))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
