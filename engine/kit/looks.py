"""`Looks`: what a timed screen shows on request, one look after another, by a hold or by a key."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum


class Look(Enum):
    """What a timed screen shows: what it opens with, or what the player asked for."""

    MAIN = "main"
    """What it opens with."""
    OWN = "own"
    """A replay of the repetition that was just played."""
    BEST = "best"
    """A replay of the player's best one, for comparison."""
    FIGURES = "figures"
    """All figures, all limits and the curves of the last few."""

    @property
    def plays(self) -> bool:
        """Whether it is a replay."""
        return self in (Look.OWN, Look.BEST)


class Looks:
    """The look that is on now, at first the main one.

    Each hold plays the next replay, or shows the figures where there is none, and letting go leads
    back to the main look. A key steps through all of them, and what it asked for stays.
    """

    def __init__(self, order: Sequence[Look] = ()) -> None:
        """`order` is what may be asked for, in the order in which a key steps through it."""
        self._order = tuple(order)
        self._replays = [look for look in order if look.plays]
        self._last: Look | None = None
        self._holds = False
        self.now = Look.MAIN
        self.is_held = False
        """Whether what is on was asked for by a hold that is not over."""

    def __bool__(self) -> bool:
        """Whether there is anything to ask for."""
        return bool(self._order)

    @property
    def after_hold(self) -> Look:
        """What the next hold asks for; Look.MAIN where there is nothing."""
        if not self._replays:
            return self._order[0] if self._order else Look.MAIN
        at = self._replays.index(self._last) + 1 if self._last in self._replays else 0
        return self._replays[at % len(self._replays)]

    @property
    def after_key(self) -> Look:
        """What the next key asks for; Look.MAIN after the last of them."""
        order = (Look.MAIN, *self._order)
        return order[(order.index(self.now) + 1) % len(order)]

    def hold(self) -> None:
        """Show what a hold asks for as it begins; as it goes on, and over a key's, nothing."""
        if self._holds:
            return
        self._holds = True
        if self.now is Look.MAIN and self._order:
            self._show(self.after_hold)
            self.is_held = True

    def let_go(self) -> None:
        """End the hold, and what it asked for with it."""
        self._holds = False
        if self.is_held:
            self._show(Look.MAIN)

    def step(self) -> None:
        """Show what a key asks for."""
        self._show(self.after_key)

    def finish(self) -> None:
        """Note that the replay is over: a hold that goes on asks for the figures."""
        if self.is_held and self.now.plays:
            self.now = Look.FIGURES

    def pass_over(self) -> None:
        """Show the figures at once in place of a replay that there is not."""
        if self.now.plays:
            self.now = Look.FIGURES

    def leave_replay(self) -> None:
        """Go back to the main look if a replay is on."""
        if self.now.plays:
            self._show(Look.MAIN)

    def _show(self, look: Look) -> None:
        self.now, self.is_held = look, False
        if look.plays:
            self._last = look
