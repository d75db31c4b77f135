"""`leave`: how a scripted player ends the game."""

from tests.game.player import Player
from tests.rig import press_key


def leave(player: Player) -> None:
    """Leave the game from home, by the keyboard."""
    player.screen("home")
    press_key("escape")
