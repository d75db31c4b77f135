"""A beginner's first minutes, by feet alone and by keys alone, from the first screen to leaving."""

from tests.game.beginner import (
    BEGINNERS_DIPS,
    Feet,
    Hands,
    Keys,
    first_home,
    go_on_to,
    leave_to,
    repeat,
)
from tests.game.player import Player

REPETITIONS = 3
"""Repetitions of the first session that are played before it is left."""


def first_minutes(player: Player) -> None:
    """Set up the pedals, play some repetitions of five minutes and leave, all by feet."""
    feet = Feet()
    player.plug()
    feet.choose(player, first_home(player), "Five minutes")
    for dip in BEGINNERS_DIPS[:REPETITIONS]:
        repeat(player, go_on_to(player, feet, "repetition"), dip)
    out_of_the_game(player, feet)


def first_minutes_by_keys(player: Player) -> None:
    """Come to the first repetition of a try-out without pedals and leave, all by keys."""
    keys = Keys()
    keys.choose(player, go_on_to(player, keys, "no pedals"), "Try with the mouse")
    keys.choose(player, player.screen("home"), "Practise")
    keys.choose(player, player.screen("ladder"), "Practise")
    out_of_the_game(player, keys)


def out_of_the_game(player: Player, hands: Hands) -> None:
    """Leave the next repetition by the small menu, what follows by its way out, and the game."""
    go_on_to(player, hands, "repetition")
    hands.pause(player)
    home = leave_to(player, hands, "home")
    hands.choose(player, home, "Leave")
