"""Ways through the game that scripts take: into a level, out of a set, to another window."""

from typing import Any

import pygame

from engine.game.fill_screen import FILL, IN_A_WINDOW
from engine.ladder.ladder import YOUR_OWN
from tests.game.menu_steps import moves
from tests.game.player import BRAKE, THROTTLE, Player
from tests.rig import press_key
from tests.waiting import wait_for

LEVEL = "Three blips"
"""Title of the level that the tests put into the data folder."""


def by_keys(screen: dict[str, Any], label: str, on: str = "down", yes: str = "return") -> None:
    """Take a choice of a screen with the keyboard; `on` and `yes` are the keys to press."""
    for _ in range(moves(screen, label)):
        press_key(on)
    press_key(yes)


def past_the_cautions_by_feet(player: Player) -> None:
    """Read the cautions and keep the window as it is, by pedals that are not set up yet."""
    player.screen("cautions")
    player.wait_until_drawn()
    player.press_and_let_go(THROTTLE)
    player.choose(player.screen("fill the screen"), IN_A_WINDOW)
    player.screen("pedals")
    player.move(BRAKE, 0)


def past_the_cautions_by_keys(player: Player) -> None:
    """Read the cautions and keep the window as it is, by keys."""
    player.screen("cautions")
    press_key("return")
    by_keys(player.screen("fill the screen"), IN_A_WINDOW)


def into_the_full_screen(player: Player) -> None:
    """Read the cautions and fill the screen, by keys."""
    player.screen("cautions")
    press_key("return")
    by_keys(player.screen("fill the screen"), FILL)
    wait_for(fills_the_screen)


def fills_the_screen() -> bool:
    """Whether the window is as large as a screen."""
    return pygame.display.get_window_size() in pygame.display.get_desktop_sizes()


def open_the_level(player: Player) -> None:
    """Open the tests' own level from home, by feet."""
    player.choose(player.screen("home"), "Practise")
    player.choose(player.screen("ladder"), YOUR_OWN)
    player.choose(player.screen("levels"), LEVEL)


def out_of_the_set(player: Player) -> None:
    """Leave a set from a reveal, by the keyboard: menu, end of the set, home."""
    player.screen("reveal")
    press_key("escape")
    out_of_the_menu(player)


def out_of_the_menu(player: Player) -> None:
    """Leave a set from its menu, by the keyboard: end of the set, home."""
    by_keys(player.screen("menu"), "Leave the set")
    player.screen("set end")
    press_key("escape")


def focus(gained: bool) -> None:
    """Post the event of a window that gained or lost the focus."""
    change = pygame.WINDOWFOCUSGAINED if gained else pygame.WINDOWFOCUSLOST
    pygame.event.post(pygame.event.Event(change))
