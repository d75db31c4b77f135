"""Script of a player who shifts down: `six_shifts`, on a button of a virtual shifter."""

import json
import time
from typing import Any

from engine.ladder.ladder import YOUR_OWN
from tests.game.kinds import KINDS, ONSETS, PULSE
from tests.game.leaving import leave
from tests.game.player import Player
from tests.game.ways import by_keys, past_the_cautions_by_feet
from tests.rig import VirtualPedals, press_key
from tests.waiting import wait_until

PRESSED = "pressed.json"
"""File beside the events: for each press in order, ns on the clock of the game just before and just
after the button went down."""
LEVER = 0
"""Number of the button: the first one, which would choose in a menu if it were not bound."""
AFTER = 0.04
"""Seconds from the peak of a scripted pulse to the shift."""
HELD = (0.06, 0.08, 0.12)
"""Seconds that each shift of a run is held: a virtual button tells nothing of a press between two
pumps, as a real one does."""
RUNS = 2
"""Number of runs that the script plays."""
UNHEARD = 0.3
"""Seconds in which a menu would have reacted to a button."""


def six_shifts(player: Player) -> None:
    """Set up pedals and a shift button by feet, and play a run of three blips twice with it."""
    player.plug()
    shifter = VirtualPedals("Quiet Works Shifter", 0, (), product=3, buttons=8).plug()
    pressed: list[tuple[int, int]] = []

    def shift(seconds: float) -> None:
        before = time.perf_counter_ns()
        shifter.button(LEVER, True)
        pressed.append((before, time.perf_counter_ns()))
        wait_until(time.monotonic() + seconds)
        shifter.button(LEVER, False)

    def shift_down(cue: float) -> None:
        for onset, seconds in zip(ONSETS, HELD, strict=True):
            wait_until(cue + onset + PULSE / 2 + AFTER)
            shift(seconds)

    past_the_cautions_by_feet(player)
    player.set_up_pedals(clutch=True)
    player.screen("shift button", choices=["Go on without"])
    shift(HELD[2])
    player.screen("shift button", choices=["Keep it", "Without one"])
    player.confirm()
    player.screen("home")
    player.wait_until_drawn()
    player.foot.rest()
    shift(HELD[2])
    wait_until(time.monotonic() + UNHEARD)
    home = player.screen_now("home")
    player.hand = shift_down
    _play_a_run(player, home)
    _play_a_run(player, player.screen("home"))
    leave(player)
    (player.folder / PRESSED).write_text(json.dumps(pressed), encoding="utf-8")


def _play_a_run(player: Player, home: dict[str, Any]) -> None:
    """Play the level of a run from home, until it counts, and go back home."""
    [run] = [scripted for scripted in KINDS if scripted.kind == "run"]
    player.foot.rest()
    by_keys(home, "Practise")
    by_keys(player.screen("ladder"), YOUR_OWN)
    by_keys(player.screen("levels"), f"Known {run.kind}")
    player.perform(run)
    player.screen("set end")
    press_key("escape")
