"""Script of a player who counts high knocks and answers by feet: `two_counted`."""

from dataclasses import replace

from engine.ladder.ladder import YOUR_OWN
from tests.game.kinds import BLIP, Scripted
from tests.game.leaving import leave
from tests.game.player import BRAKE, THROTTLE, VOID, Player
from tests.game.ways import by_keys, past_the_cautions_by_feet
from tests.rig import press_key

TAP = 0.1
"""Seconds in which the throttle goes down for a tap, and in which it comes up again: a foot cannot
tap much quicker."""
PAIR = 2
"""Number of repetitions in a pair: one with knocks to count, one without."""
COUNTING = replace(
    BLIP,
    kind="counting",
    level="foreperiod = { shift = 2.0, mean = 0.1, cut = 0.2 }\n[limits]\ndip = 30\n",
    repetitions=PAIR,
)
"""The scripted blip of the kind "blip", with knocks to count in half of the repetitions."""


def two_counted(player: Player) -> None:
    """Set up pedals by feet, and play one pair: two blips, knocks to count at one of them."""
    player.plug()
    past_the_cautions_by_feet(player)
    player.set_up_pedals(clutch=True)
    home = player.screen("home")
    player.foot.rest()
    by_keys(home, "Practise")
    by_keys(player.screen("ladder"), YOUR_OWN)
    by_keys(player.screen("levels"), "Known counting")
    for _ in range(PAIR):
        _play_one(player, COUNTING)
    player.screen("set end")
    press_key("escape")
    leave(player)


def _play_one(player: Player, scripted: Scripted) -> None:
    """Play a repetition until it counts, answer what is asked after it, and leave its reveal."""
    counted = False
    while not counted:
        player.repetition()
        player.foot.rest()
        if player.reaches("approach"):
            player.foot.glide(BRAKE, scripted.rest)
            if player.reaches("wait"):
                _blip_and_answer(player, scripted)
        player.foot.rest()
        player.screen("reveal")
        press_key("return")
        counted = player.last("verdict")["reason"] not in VOID


def _blip_and_answer(player: Player, scripted: Scripted) -> None:
    """Follow the plan from the cue on, and tap once for each high knock where that is asked."""
    cue = player.first_of("cue", "verdict")
    if cue["event"] == "verdict":
        return
    player.foot.follow(scripted.plan, cue["t"])
    ended = player.events.wait(
        lambda event: event["event"] == "verdict" or event.get("name") == "count"
    )
    if ended["event"] == "verdict":
        return
    player.foot.rest()
    dark = player.last("phase", phase="wait", by="steady")["t"]
    player.wait_until_drawn()
    player.let_go()
    knocks = (event for event in player.events.seen if event["event"] == "knock")
    high = sum(event["t"] >= dark and event["signal"] == "high" for event in knocks)
    for tapped in range(1, high + 1):
        player.move(THROTTLE, 80, TAP)
        player.move(THROTTLE, 0, TAP)
        player.screen("count", counted=tapped)
    player.confirm()
    player.event("verdict")
