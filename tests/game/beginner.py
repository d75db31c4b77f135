"""A beginner who goes through the game screen by screen, by feet alone or by keys alone.

What a screen is for is read from the events file. A screen that is not known here is left as its
hint says: its first choice, or a tap where it has none.
"""

import time
from collections.abc import Collection
from typing import Any, Protocol

from engine.game.fill_screen import IN_A_WINDOW
from tests.game.player import BRAKE, REACTION, THROTTLE, Player
from tests.game.ways import by_keys
from tests.rig import press_key
from tests.waiting import wait_for, wait_until

BY_THEMSELVES = {"reveal", "summary"}
"""Screens that go on by themselves."""
BEGINNERS_DIPS = (14.0, 9.0, 19.0, 6.0, 11.0)
"""Dips of a beginner's blips in turn, in %: some are clean."""
LOOKS = 0.4
"""Seconds a beginner looks at what is asked before the foot goes to the brake. It rests meanwhile,
as the game watches where a pedal rests."""
BOTH_DOWN = 1.3
"""Seconds that both pedals are held to open the menu: longer than the game asks for."""
LEAVES = ("Leave the set", "Leave for now", "Home", "Leave", "Back", "Done")
"""Labels of choices that lead out, in the order of preference."""

Shown = dict[str, Any]
"""Event of a screen that is shown."""


class Hands(Protocol):
    """One way to operate the game alone."""

    def choose(self, player: Player, shown: Shown, label: str) -> None:
        """Take a choice of a menu by its label."""
        ...

    def tap(self, player: Player) -> None:
        """Go on from a screen without choices."""
        ...

    def pause(self, player: Player) -> None:
        """Open the small menu from a repetition that has not begun."""
        ...


class Feet:
    """Pedals alone, once they are set up."""

    def choose(self, player: Player, shown: Shown, label: str) -> None:
        """Tap the throttle until the choice is selected, and hold the brake until it is taken."""
        player.choose(shown, label)
        wait_for(lambda: player.events.seen[-1]["event"] == "closed" or is_over(player, shown))
        player.foot.rest()

    def tap(self, player: Player) -> None:
        """Tap the throttle."""
        player.let_go()
        player.move(THROTTLE, 80, 0.05)
        player.move(THROTTLE, 0, 0.05)

    def pause(self, player: Player) -> None:
        """Hold brake and throttle together."""
        player.let_go()
        player.foot.glide(THROTTLE, 80)
        player.foot.glide(BRAKE, 80)
        wait_until(time.monotonic() + BOTH_DOWN)
        player.foot.rest()


class Keys:
    """Keys alone."""

    def choose(self, player: Player, shown: Shown, label: str) -> None:
        """Press the key for the next choice until it is selected, and Enter."""
        player.wait_until_drawn()
        by_keys(shown, label)

    def tap(self, player: Player) -> None:
        """Press Enter."""
        press_key("return")

    def pause(self, player: Player) -> None:
        """Press Esc."""
        press_key("escape")


def is_over(player: Player, shown: Shown) -> bool:
    """Whether a screen is no longer the one on the window; a moved selection is no other screen."""
    return bool(player.screens()[-1]["name"] != shown["name"])


def watch(player: Player, shown: Shown, seconds: float) -> None:
    """Look at a screen for so many seconds, or until it ends by itself."""
    until = time.monotonic() + seconds
    wait_for(lambda: time.monotonic() >= until or is_over(player, shown))


def go_on_to(player: Player, hands: Hands, *names: str, watches: float = 0.0) -> Shown:
    """Go on from screen to screen until one of these is shown; returns its event.

    A screen without choices is watched for so many seconds, unless it ends before that.
    """
    while True:
        shown = player.event("screen")
        if shown["name"] in names:
            return shown
        if shown["name"] in BY_THEMSELVES or shown is not player.screens()[-1]:
            continue
        if shown.get("choices"):
            hands.choose(player, shown, shown["choices"][0])
            continue
        watch(player, shown, watches)
        if not is_over(player, shown):
            hands.tap(player)


def leave_to(player: Player, hands: Hands, *names: str) -> Shown:
    """Leave screen after screen until one of these is shown; returns its event."""
    while True:
        shown = player.event("screen")
        if shown["name"] in names:
            return shown
        if shown is player.screens()[-1]:
            way_out(player, hands, shown)


def way_out(player: Player, hands: Hands, shown: Shown) -> None:
    """Leave one screen by the choice that leads out, or by the small menu where it has none."""
    choices: Collection[str] = shown.get("choices", ())
    label = next((label for label in LEAVES if label in choices), None)
    if label is None:
        hands.pause(player)
    else:
        hands.choose(player, shown, label)


def repeat(player: Player, asked: Shown, dip: float) -> Shown:
    """Play one repetition: hold what is asked, blip at each cue; returns the verdict.

    Where nothing was to be held before the cue, the brake is pressed at the cue.
    """
    player.foot.rest()
    holds = False
    while True:
        event = player.first_of("phase", "cue", "verdict")
        if event["event"] == "verdict":
            player.foot.hold_back()
            player.foot.rest()
            return event
        if event.get("phase") == "approach":
            wait_until(event["t"] + LOOKS)
            player.foot.glide(BRAKE, asked["target"])
            holds = True
        elif event["event"] == "cue" and holds:
            player.foot.blip_at(event["t"] + REACTION, dip)
        elif event["event"] == "cue":
            wait_until(event["t"] + REACTION)
            player.foot.glide(BRAKE, asked["target"])


def first_home(player: Player, window: str = IN_A_WINDOW) -> Shown:
    """Read the cautions, set up the window and the pedals, by feet; returns the event of home.

    `window` is the answer to whether the game is to fill the screen.
    """
    player.screen("cautions")
    player.wait_until_drawn()
    player.press_and_let_go(THROTTLE)
    player.choose(player.screen("fill the screen"), window)
    player.screen("pedals")
    player.move(BRAKE, 0)
    player.set_up_pedals()
    return player.screen("home")
