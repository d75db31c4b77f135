"""A scripted person at virtual pedals: reads the events file, moves pedals, presses keys."""

import threading
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pygame

from drills.score import Reason
from tests.game.foot import Foot
from tests.game.kinds import Scripted
from tests.rig import Feeder, VirtualPedals, press_key
from tests.waiting import EventTail, wait_for

PATIENCE = 20.0  # s, for anything the game should do at once
REACTION = 0.25  # s, from the cue to the throttle
HEARD = 0.55  # s, feet are let go before they choose, and between two taps

BRAKE, THROTTLE, CLUTCH = 0, 1, 2
LATEST = 0.015  # s, a foot that moved later than that did not do what was planned
JUMP = 0.1  # %, less is flicker
VOID = {reason.value for reason in Reason if reason.void}


class Player:
    """Plays the game through its events file, as a person plays it by looking at it."""

    def __init__(self, events: Path, inverted: bool = False) -> None:
        self.folder = events.parent
        self.events = EventTail(events)
        self.foot = Foot()
        self._sign = -1.0 if inverted else 1.0
        self.pedals = VirtualPedals(rest=(-self._sign,) * 3)
        self._feeder: Feeder | None = None
        self.written: list[tuple[float, ...]] = []  # ns and the pedals in %, of each step

    def plug(self) -> None:
        """Plug the pedals in, once the game listens to joysticks, and start to feed them."""
        wait_for(pygame.joystick.get_init, PATIENCE)
        self.pedals.plug()
        self._feeder = Feeder(self.pedals, lambda _: self._next())
        self._feeder.start()

    def _next(self) -> list[float]:
        now, pedals = time.perf_counter_ns(), self.foot.percent()
        self.written.append((now, *pedals))
        return [self._sign * (value / 50 - 1) for value in pedals]

    def unplug(self) -> None:
        """Pull the plug."""
        if self._feeder is not None:
            self._feeder.stop()
            self._feeder = None
        self.pedals.unplug()

    def screen(self, name: str, **fields: object) -> dict[str, Any]:
        """Wait for a screen with these details."""
        wanted = {"event": "screen", "name": name, **fields}
        return self.events.wait(lambda event: wanted.items() <= event.items(), PATIENCE)

    def shown(self, *names: str) -> str:
        """Wait for the first screen of any of these names; which it is."""
        told = self.events.wait(
            lambda event: event["event"] == "screen" and event["name"] in names, PATIENCE
        )
        return str(told["name"])

    def screen_now(self, name: str) -> dict[str, Any]:
        """The screen that is shown now, which must be this one."""
        shown = [event for event in self.events.seen if event["event"] == "screen"][-1]
        if shown["name"] != name:
            raise AssertionError(f"expected {name}, found {shown}")
        return shown

    def event(self, name: str, **fields: object) -> dict[str, Any]:
        """Wait for an event with these fields."""
        wanted = {"event": name, **fields}
        return self.events.wait(lambda event: wanted.items() <= event.items(), PATIENCE)

    def react(self, cue: float) -> bool:
        """Wait as long as a person takes; whether the repetition still waits for a blip then."""

        def judged() -> bool:
            seen = self.events.seen
            return any(event["event"] == "verdict" and event["t"] >= cue for event in seen)

        wait_for(lambda: time.monotonic() > cue + REACTION or judged(), REACTION + 1)
        return not judged()

    def first_of(self, *names: str) -> dict[str, Any]:
        """Wait for the first event of any of these names."""
        return self.events.wait(lambda event: event["event"] in names, PATIENCE)

    def press_and_let_go(self, pedal: int) -> None:
        """Say yes before the pedals are set up."""
        self.foot.glide(pedal, 100)
        self.foot.glide(pedal, 0)

    def look(self) -> None:
        """Wait until the screen that was told of last is on the screen."""

        def drawn() -> bool:
            seen = self.events.seen
            last = max(n for n, event in enumerate(seen) if event["event"] == "screen")
            return any(event["event"] == "drawn" for event in seen[last:])

        wait_for(drawn, PATIENCE)

    def agree(self) -> None:
        """Say yes: brake past half and kept there."""
        self.look()
        self.let_go()
        self.foot.glide(BRAKE, 75)

    def let_go(self) -> None:
        """Take the feet off for as long as it takes to be heard."""
        self.foot.glide(BRAKE, 0)
        time.sleep(HEARD)

    def choose(self, screen: dict[str, Any], label: str) -> None:
        """Tap the throttle until a choice is reached, then say yes."""
        self.look()
        self.let_go()
        for _ in range(moves(screen, label)):
            self.foot.glide(THROTTLE, 80, 0.05)
            time.sleep(0.05)
            self.foot.glide(THROTTLE, 0, 0.05)
            time.sleep(HEARD)
        self.foot.glide(BRAKE, 75)

    def set_up_pedals(self, *, clutch: bool = False) -> None:
        """Bind and calibrate the pedals through the screens, with the feet alone."""
        three = (("brake", BRAKE), ("throttle", THROTTLE), ("clutch", CLUTCH))
        for name, pedal in three if clutch else three[:2]:
            self.screen("pedals", pedal=name, step="find")
            self.foot.glide(pedal, 100)
            self.screen("pedals", pedal=name, step="release")
            self.foot.glide(pedal, 0)
            self.screen("pedals", pedal=name, step="full")
            self.foot.glide(pedal, 100)
            self.screen("pedals", pedal=name, step="release again")
            self.foot.glide(pedal, 0)
        if not clutch:
            self.screen("pedals", pedal="clutch", step="find")
            self.press_and_let_go(BRAKE)
        self.screen("pedals found")
        self.agree()

    def hold_target(self) -> dict[str, Any]:
        """Let the brake go, then bring it to what the repetition asks."""
        asked = self.screen("repetition")
        self.foot.glide(BRAKE, 0)
        self.event("phase", phase="approach")
        self.foot.glide(BRAKE, asked["target"])
        return asked

    def perform(self, scripted: Scripted) -> bool:
        """One repetition as scripted, again while it does not count, and past its reveal.

        A hold has no cue: it is followed from the dark on. On a busy machine several in a row may
        not count, and the game says so; and the feet may move too late: whether they did not.
        """
        while True:
            if self.shown("repetition", "busy") == "busy":
                press_key("return")
                continue
            self.foot.rest()
            self.event("phase", phase="approach")
            if scripted.rest:
                self.foot.glide(BRAKE, scripted.rest)
            began = self.event("phase", phase="wait")
            told = began if scripted.kind == "hold" else self.first_of("cue", "verdict")
            if told["event"] != "verdict":
                self.foot.follow(scripted.plan, told["t"])
                told = self.event("verdict")
                self.foot.rest()
            self.screen("reveal")
            press_key("return")
            if told["reason"] not in VOID:
                return self._in_time(began["t"], told["t"])

    def _in_time(self, began: float, ended: float) -> bool:
        """Whether no pedal was elsewhere when a step at last came."""
        steps = [step for step in self.written if began <= step[0] / 1e9 <= ended]
        moved = (
            (after[0] - before[0]) / 1e9
            for before, after in pairwise(steps)
            if max(abs(now - was) for now, was in zip(after[1:], before[1:], strict=True)) > JUMP
        )
        return max(moved, default=0.0) <= LATEST

    def blip(self, dip: float) -> dict[str, Any]:
        """One repetition of a blip level with a scripted dip, until it counts; its verdict."""
        return self.until_it_counts(
            lambda target: self.foot.glide(BRAKE, target),
            lambda cue: self.foot.blip_at(cue + REACTION, dip),
        )

    def until_it_counts(
        self,
        hold: Callable[[float], None],
        blip: Callable[[float], None],
    ) -> dict[str, Any]:
        """One repetition, tried again as a person does while it does not count; its verdict.

        On a busy machine the pedals may go unread for too long. `hold` is given 0 % and then the
        target, `blip` the time of the cue in s. The next repetition comes by itself.
        """
        while True:
            target = self.screen("repetition")["target"]
            hold(0.0)
            self.event("phase", phase="approach")
            hold(target)
            told = self.first_of("cue", "verdict")
            if told["event"] == "cue":
                blip(told["t"])
                told = self.event("verdict")
                # A blip that comes after a menu has opened would choose something in it.
                self.foot.hold_back()
            if told["reason"] not in VOID:
                return told


def moves(screen: dict[str, Any], label: str) -> int:
    """How many times to go on to the next choice until one is reached."""
    choices = screen["choices"]
    return int(choices.index(label) - screen.get("selected", 0)) % len(choices)


def play(script: Callable[[], None], game: Callable[[], int]) -> int:
    """Run the game in this thread while a script plays it in another; its exit code."""
    failures: list[BaseException] = []

    def run() -> None:
        try:
            script()
        except BaseException as error:
            failures.append(error)
            pygame.event.post(pygame.event.Event(pygame.QUIT))

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    code = game()
    thread.join(PATIENCE)
    if failures:
        raise failures[0]
    return code


def leave(player: Player) -> None:
    """Leave from home with the keyboard."""
    player.screen("home")
    press_key("escape")
