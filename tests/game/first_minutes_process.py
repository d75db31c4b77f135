"""One start of a beginner's game: `python -m tests.game.first_minutes_process DAY DATA EVENTS MIN`.

DAY is "first", "second" (the pedals are plugged in and set up), or "whole": the first day with
every screen watched and a session of MIN minutes played to its end.
"""

import argparse
import sys
from functools import partial
from itertools import cycle
from pathlib import Path

import pygame

from engine.commands.play import run_play
from engine.game.fill_screen import FILL
from engine.stage.sdl_setup import give_hints
from tests.game.beginner import (
    BEGINNERS_DIPS,
    Feet,
    first_home,
    go_on_to,
    leave_to,
    repeat,
    watch,
)
from tests.game.first_minutes import out_of_the_game
from tests.game.player import Player
from tests.game.threads import play

WATCHES = 8.0
"""Seconds for which a beginner watches what is shown, such as a movement, on the whole day."""


def first(player: Player) -> None:
    """Come to the first repetition of a first day with as little as one may do, and leave."""
    home = first_home(player, FILL)
    Feet().choose(player, home, "Five minutes")
    one_and_out(player)


def second(player: Player) -> None:
    """Come to the first repetition of another day, and leave."""
    Feet().choose(player, player.screen("home"), "Five minutes")
    one_and_out(player)


def one_and_out(player: Player) -> None:
    """Play one repetition and leave the game."""
    feet = Feet()
    repeat(player, go_on_to(player, feet, "repetition"), BEGINNERS_DIPS[0])
    out_of_the_game(player, feet)


def whole(player: Player) -> None:
    """Play a first day from the cautions to the end of the session, and leave."""
    feet = Feet()
    feet.choose(player, first_home(player, FILL), "Five minutes")
    for dip in cycle(BEGINNERS_DIPS):
        shown = go_on_to(player, feet, "repetition", "day end", watches=WATCHES)
        if shown["name"] == "day end":
            break
        repeat(player, shown, dip)
    watch(player, shown, WATCHES)
    feet.choose(player, shown, "Home")
    feet.choose(player, leave_to(player, feet, "home"), "Leave")


DAYS = {"first": first, "second": second, "whole": whole}
"""Scripts of the days by name."""


def main(day: str, data: str, events: str, minutes: str) -> int:
    """Play one day; returns the exit code of the game."""
    give_hints()
    player = Player(Path(events))
    pygame.joystick.init()
    player.plug()
    options = argparse.Namespace(data=Path(data), player=None, events=Path(events), window=None)
    return play(partial(DAYS[day], player), partial(run_play, options, minutes=float(minutes)))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
