"""A scripted person at virtual pedals: reads the events file, moves pedals, presses keys."""

import threading
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pygame

from drills.score import Reason
from tests.game.kinds import Scripted
from tests.game.scripted_foot import Foot
from tests.rig import Feeder, VirtualPedals, press_key
from tests.waiting import EventTail, wait_for, wait_until

ENDING = 10.0
"""Seconds a script may go on once the game has ended."""
REACTION = 0.25
"""Seconds from the cue to the throttle."""
FEET_OFF = 0.55
"""Seconds the feet stay off before they choose, and between two taps."""
BRAKE, THROTTLE, CLUTCH = 0, 1, 2
LATEST = 0.015
"""Seconds between two steps of a moving foot, above which it did not do what was planned."""
JUMP = 0.1
"""Percent a pedal must move in one step to count as moving: less is flicker."""
VOID = {reason.value for reason in Reason if reason.void}


class Player:
    """Plays the game through its events file, as a person plays it by looking at the screen."""

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
        wait_for(pygame.joystick.get_init)
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
        return self.event("screen", name=name, **fields)

    def repetition(self) -> dict[str, Any]:
        """Wait for the next repetition, by the keyboard where the game stops between two.

        Where several in a row were not read often enough it says that the machine is busy, and
        where many were it ends the set: then a person goes on, or plays the set once more.
        """
        while True:
            shown = self.first_screen("repetition", "busy", "set end")
            if shown["name"] == "repetition":
                return shown
            press_key("return")

    def first_screen(self, *names: str) -> dict[str, Any]:
        """Wait for the first screen of any of these names."""
        return self.events.wait(lambda event: event["event"] == "screen" and event["name"] in names)

    def screens(self) -> list[dict[str, Any]]:
        """All screens so far, the one that is shown now last."""
        return [event for event in self.events.seen if event["event"] == "screen"]

    def screen_now(self, name: str) -> dict[str, Any]:
        """The screen that is shown now, which must be this one."""
        shown = self.screens()[-1]
        if shown["name"] != name:
            raise AssertionError(f"expected {name}, found {shown}")
        return shown

    def event(self, event: str, **fields: object) -> dict[str, Any]:
        """Wait for an event with these fields."""
        wanted = {"event": event, **fields}
        return self.events.wait(lambda event: wanted.items() <= event.items())

    def last(self, event: str, **fields: object) -> dict[str, Any]:
        """The newest event with these fields that has been told of."""
        wanted = {"event": event, **fields}
        return next(one for one in reversed(self.events.seen) if wanted.items() <= one.items())

    def first_of(self, *names: str) -> dict[str, Any]:
        """Wait for the first event of any of these names."""
        return self.events.wait(lambda event: event["event"] in names)

    def came_after(self, moment: float, wanted: Callable[[dict[str, Any]], bool]) -> bool:
        """Whether the repetition under way has such an event since a moment in seconds."""
        return any(event["t"] >= moment and wanted(event) for event in self.events.seen)

    def react(self, cue: float) -> bool:
        """Wait as long as a person takes; whether the repetition still waits for a blip then."""

        def judged() -> bool:
            return self.came_after(cue, lambda event: event["event"] == "verdict")

        wait_for(lambda: time.monotonic() > cue + REACTION or judged())
        return not judged()

    def move(self, pedal: int, level: float, seconds: float = 0.15) -> None:
        """Move one pedal to a position in percent, and return once the game has read it there."""
        self.foot.glide(pedal, level, seconds)
        position = self._sign * (level / 50 - 1)
        wait_for(lambda: self.pedals.is_read(pedal, position))

    def press_and_let_go(self, pedal: int) -> None:
        """Press one pedal fully and let it go."""
        self.move(pedal, 100)
        self.move(pedal, 0)

    def look(self) -> None:
        """Wait until the screen that was told of last is on the screen."""

        def drawn() -> bool:
            shown = self.screens()[-1]["name"]
            told = (event for event in reversed(self.events.seen) if "name" in event)
            newest = next((e for e in told if e["event"] == "drawn" or e["name"] != shown), None)
            return newest is not None and (newest["event"], newest["name"]) == ("drawn", shown)

        wait_for(drawn)

    def agree(self) -> None:
        """Say yes: brake past half and kept there."""
        self.look()
        self.let_go()
        self.move(BRAKE, 75)

    def let_go(self) -> None:
        """Take the feet off for as long as it takes to be heard."""
        self.move(BRAKE, 0)
        wait_until(time.monotonic() + FEET_OFF)

    def choose(self, screen: dict[str, Any], label: str) -> None:
        """Tap the throttle until a choice is reached, then say yes."""
        self.look()
        for _ in range(moves(screen, label)):
            self.let_go()
            self.move(THROTTLE, 80, 0.05)
            self.move(THROTTLE, 0, 0.05)
        self.agree()

    def set_up_pedals(self, *, clutch: bool = False) -> None:
        """Bind and calibrate the pedals through the screens, with the feet alone."""
        three = (("brake", BRAKE), ("throttle", THROTTLE), ("clutch", CLUTCH))
        for name, pedal in three if clutch else three[:2]:
            self.screen("pedals", pedal=name, step="find")
            self.move(pedal, 100)
            self.screen("pedals", pedal=name, step="release")
            self.move(pedal, 0)
            self.screen("pedals", pedal=name, step="full")
            self.move(pedal, 100)
            self.screen("pedals", pedal=name, step="release again")
            self.move(pedal, 0)
        if not clutch:
            self.screen("pedals", pedal="clutch", step="find")
            self.press_and_let_go(BRAKE)
        self.screen("pedals found")
        self.agree()

    def comes(self, phase: str) -> bool:
        """Wait for a phase of the repetition; False where it ends before that."""
        told = self.events.wait(
            lambda event: event.get("phase") == phase or event["event"] == "verdict"
        )
        return bool(told["event"] != "verdict")

    def approach(self, hold: Callable[[float], None], asked: dict[str, Any] | None = None) -> None:
        """Let the brake go, then bring it to what the repetition asks.

        `hold` moves the brake to a position in percent. `asked` is the repetition's screen, None
        for the next one. Where it ends before that, the one after it is tried.
        """
        asked = asked or self.repetition()
        hold(0.0)
        while not self.comes("approach"):
            asked = self.repetition()
            hold(0.0)
        hold(asked["target"])

    def hold_in_the_dark(self, asked: dict[str, Any] | None = None) -> None:
        """Bring a repetition into its wait, the one after it where it ends before that."""
        self.approach(self._glide_brake, asked)
        while not self.comes("wait"):
            self.approach(self._glide_brake)

    def _glide_brake(self, level: float) -> None:
        self.foot.glide(BRAKE, level)

    def perform(self, scripted: Scripted) -> bool:
        """One repetition as scripted, again while it does not count, and past its reveal.

        A hold has no cue: it is followed from the dark on. Returns whether the feet moved in time.
        """
        while True:
            self.repetition()
            self.foot.rest()
            if self.comes("approach"):
                if scripted.rest:
                    self.foot.glide(BRAKE, scripted.rest)
                if self.comes("wait"):
                    self._follow(scripted)
            self.foot.rest()
            self.screen("reveal")
            press_key("return")
            judged = self.last("verdict")
            if judged["reason"] not in VOID:
                return self._in_time(self.last("phase", phase="wait")["t"], judged["t"])

    def _follow(self, scripted: Scripted) -> None:
        """Follow a plan from the dark or from the cue on, until the verdict."""
        hold = scripted.kind == "hold"
        told = self.last("phase", phase="wait") if hold else self.first_of("cue", "verdict")
        if told["event"] != "verdict":
            self.foot.follow(scripted.plan, told["t"])
            self.event("verdict")

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
            self._glide_brake,
            lambda cue: self.foot.blip_at(cue + REACTION, dip),
        )

    def until_it_counts(
        self,
        hold: Callable[[float], None],
        blip: Callable[[float], None],
    ) -> dict[str, Any]:
        """One repetition, tried again as a person does while it does not count; its verdict.

        On a busy machine the pedals may go unread for too long. `hold` is given 0 % and then the
        target, `blip` the time of the cue in seconds. The next repetition comes by itself.
        """
        while True:
            self.approach(hold)
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
    """Run the game in this thread while a script plays it in another; its exit code.

    Raises what the script raised, or RuntimeError where the game ended before the script.
    """
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
    thread.join(ENDING)
    if failures:
        raise failures[0]
    if thread.is_alive():
        raise RuntimeError(f"the game ended with {code} before its player had done everything")
    return code


def leave(player: Player) -> None:
    """Leave from home with the keyboard."""
    player.screen("home")
    press_key("escape")
