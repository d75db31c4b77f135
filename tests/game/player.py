"""Scripted player at virtual pedals: reads the events file, moves pedals, presses keys."""

import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pygame

from drills.score import Reason
from tests.game.kinds import Scripted
from tests.game.menu_steps import moves
from tests.game.scripted_foot import Foot
from tests.rig import Feeder, VirtualPedals, press_key
from tests.waiting import EventTail, wait_for, wait_until

REACTION = 0.25
"""Seconds from the cue to the throttle."""
FEET_OFF = 0.55
"""Seconds the feet stay off before they choose, and between two taps."""
TRIED = 1.2
"""Seconds a pedal is held down to try it: a hold of 0.8 s would choose in another menu."""
BRAKE, THROTTLE, CLUTCH = 0, 1, 2
"""Numbers of the axes of the virtual pedals."""
LATEST = 0.015
"""Longest time in seconds between two steps of a moving foot that follows its plan in time."""
JUMP = 0.1
"""Percent a pedal must move in one step to count as moving; less is flicker."""
VOID = {reason.value for reason in Reason if reason.void}
"""Reasons of repetitions that do not count."""


class Player:
    """Scripted player, who follows the game by its events as a person does by looking at it."""

    def __init__(self, events: Path, inverted: bool = False) -> None:
        self.folder = events.parent
        self.events = EventTail(events)
        self.foot = Foot()
        self._sign = -1.0 if inverted else 1.0
        self.pedals = VirtualPedals(rest=(-self._sign,) * 3)
        self._feeder: Feeder | None = None
        self.hand: Callable[[float], object] = lambda _: None  # shifts from the first cue on, in s
        self.written: list[tuple[float, ...]] = []  # ns and the pedals in %, of each step

    def plug(self) -> None:
        """Plug the pedals in once the game has opened joysticks, and start to move them."""
        wait_for(pygame.joystick.get_init)
        self.pedals.plug()
        self._feeder = Feeder(self.pedals, lambda _: self._next())
        self._feeder.start()

    def _next(self) -> list[float]:
        now, pedals = time.perf_counter_ns(), self.foot.percent()
        self.written.append((now, *pedals))
        return [self._sign * (value / 50 - 1) for value in pedals]

    def unplug(self) -> None:
        """Stop moving the pedals and unplug them."""
        if self._feeder is not None:
            self._feeder.stop()
            self._feeder = None
        self.pedals.unplug()

    def screen(self, name: str, **fields: object) -> dict[str, Any]:
        """Wait for a screen with this name and these fields."""
        return self.event("screen", name=name, **fields)

    def repetition(self) -> dict[str, Any]:
        """Wait for the next repetition, and press return where the game stops before it.

        A new kind of drill begins with a lesson, and the first blip with the question for the way:
        feet go on from both, where there are any.
        After several gaps in a row the game says that the machine is busy, and after many it ends
        the set: a person then continues, or plays the set once more.
        """
        while True:
            shown = self.first_screen("repetition", "busy", "set end", "way", "lesson")
            if shown["name"] == "repetition":
                return shown
            if self._feeder is None or shown["name"] not in ("way", "lesson"):
                press_key("return")
            elif shown["name"] == "way":
                self.confirm()
            else:
                self.let_go()
                self.move(THROTTLE, 80, 0.05)
                self.move(THROTTLE, 0, 0.05)

    def first_screen(self, *names: str) -> dict[str, Any]:
        """Wait for the first screen of any of these names."""
        return self.events.wait(lambda event: event["event"] == "screen" and event["name"] in names)

    def screens(self) -> list[dict[str, Any]]:
        """Events of all screens so far; the last is on the window now."""
        return [event for event in self.events.seen if event["event"] == "screen"]

    def screen_now(self, name: str) -> dict[str, Any]:
        """Event of the screen shown now. Raises AssertionError where it has another name."""
        shown = self.screens()[-1]
        if shown["name"] != name:
            raise AssertionError(f"expected {name}, found {shown}")
        return shown

    def event(self, event: str, **fields: object) -> dict[str, Any]:
        """Wait for an event with these fields."""
        wanted = {"event": event, **fields}
        return self.events.wait(lambda event: wanted.items() <= event.items())

    def last(self, event: str, **fields: object) -> dict[str, Any]:
        """Newest event with these fields that has been logged."""
        wanted = {"event": event, **fields}
        return next(e for e in reversed(self.events.seen) if wanted.items() <= e.items())

    def first_of(self, *names: str) -> dict[str, Any]:
        """Wait for the first event of any of these names."""
        return self.events.wait(lambda event: event["event"] in names)

    def came_after(self, moment: float, wanted: Callable[[dict[str, Any]], bool]) -> bool:
        """Whether a matching event was logged at or after a moment in seconds."""
        return any(event["t"] >= moment and wanted(event) for event in self.events.seen)

    def react(self, cue: float) -> bool:
        """Wait for a reaction time after the cue; returns False where the verdict came before."""

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

    def wait_until_drawn(self) -> None:
        """Wait until the newest screen has been drawn."""

        def drawn() -> bool:
            shown = self.screens()[-1]["name"]
            ours = (e for e in reversed(self.events.seen) if e["event"] in ("screen", "drawn"))
            newest = next((e for e in ours if e["event"] == "drawn" or e["name"] != shown), None)
            return newest is not None and (newest["event"], newest["name"]) == ("drawn", shown)

        wait_for(drawn)

    def confirm(self) -> None:
        """Confirm a choice: press the brake past half and hold it."""
        self.wait_until_drawn()
        self.let_go()
        self.move(BRAKE, 75)

    def let_go(self) -> None:
        """Take the brake foot off for as long as the game needs to notice."""
        self.move(BRAKE, 0)
        wait_until(time.monotonic() + FEET_OFF)

    def choose(self, screen: dict[str, Any], label: str) -> None:
        """Tap the throttle until a choice is selected, then confirm it."""
        self.wait_until_drawn()
        for _ in range(moves(screen, label)):
            self.let_go()
            self.move(THROTTLE, 80, 0.05)
            self.move(THROTTLE, 0, 0.05)
        self.confirm()

    def set_up_pedals(self, *, clutch: bool = False) -> None:
        """Bind and calibrate the pedals through the screens, by feet alone."""
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
        self.keep_pedals()

    def keep_pedals(self) -> None:
        """Keep the pedals that are being tried: ask for the menu, and hold a pedal for its first.

        The brake is tried before that, for longer than a hold that chooses, and chooses nothing.
        """
        self.wait_until_drawn()
        self.let_go()
        self.move(BRAKE, 80)
        wait_until(time.monotonic() + TRIED)
        self.screen_now("pedals found")
        self.move(THROTTLE, 80)
        self.screen("pedals menu")
        self.move(THROTTLE, 0)
        self.confirm()

    def reaches(self, phase: str) -> bool:
        """Wait for a phase of the repetition; returns False where the verdict comes first."""
        event = self.events.wait(
            lambda event: event.get("phase") == phase or event["event"] == "verdict"
        )
        return bool(event["event"] != "verdict")

    def approach(self, hold: Callable[[float], None], asked: dict[str, Any] | None = None) -> None:
        """Release the brake, then bring it to the target of the repetition.

        `hold` moves the brake to a position in percent. `asked` is the screen of the repetition;
        None waits for the next one. Where that one ends too soon, the one after it is played.
        """
        asked = asked or self.repetition()
        hold(0.0)
        while not self.reaches("approach"):
            asked = self.repetition()
            hold(0.0)
        hold(asked["target"])

    def hold_in_the_dark(self, asked: dict[str, Any] | None = None) -> None:
        """Bring a repetition into its wait; where it ends too soon, the one after it."""
        self.approach(self._glide_brake, asked)
        while not self.reaches("wait"):
            self.approach(self._glide_brake)

    def _glide_brake(self, level: float) -> None:
        self.foot.glide(BRAKE, level)

    def perform(self, scripted: Scripted) -> bool:
        """Play a scripted repetition until it counts, and leave its reveal.

        A hold has no cue: its plan begins with the wait. Returns whether the feet moved in time.
        """
        while True:
            self.repetition()
            self.foot.rest()
            if self.reaches("approach"):
                if scripted.rest:
                    self.foot.glide(BRAKE, scripted.rest)
                if self.reaches("wait"):
                    self._follow(scripted)
            self.foot.rest()
            self.screen("reveal")
            press_key("return")
            verdict = self.last("verdict")
            if verdict["reason"] not in VOID:
                return self._in_time(self.last("phase", phase="wait")["t"], verdict["t"])

    def _follow(self, scripted: Scripted) -> None:
        """Follow a plan from the wait or from the cue to the verdict."""
        hold = scripted.kind == "hold"
        begin = self.last("phase", phase="wait") if hold else self.first_of("cue", "verdict")
        if begin["event"] != "verdict":
            self.foot.follow(scripted.plan, begin["t"])
            self.hand(begin["t"])
            self.event("verdict")

    def _in_time(self, began: float, ended: float) -> bool:
        """Whether no step of a moving pedal came late between two times in seconds."""
        steps = [step for step in self.written if began <= step[0] / 1e9 <= ended]
        moved = (
            (after[0] - before[0]) / 1e9
            for before, after in pairwise(steps)
            if max(abs(now - was) for now, was in zip(after[1:], before[1:], strict=True)) > JUMP
        )
        return max(moved, default=0.0) <= LATEST

    def blip(self, dip: float) -> dict[str, Any]:
        """Play a repetition with one scripted dip until it counts; returns the verdict."""
        return self.until_it_counts(
            self._glide_brake,
            lambda cue: self.foot.blip_at(cue + REACTION, dip),
        )

    def until_it_counts(
        self, hold: Callable[[float], None], blip: Callable[[float], None]
    ) -> dict[str, Any]:
        """Play a repetition until it counts, as a person would; returns the verdict.

        On a busy machine the pedals may go unread for too long. `hold` gets 0 % and then the
        target, `blip` the time of the cue in seconds. The next repetition comes by itself.
        """
        while True:
            self.approach(hold)
            event = self.first_of("cue", "verdict")
            if event["event"] == "cue":
                blip(event["t"])
                event = self.event("verdict")
                # A blip that comes after a menu has opened would choose something in it.
                self.foot.hold_back()
            if event["reason"] not in VOID:
                return event
