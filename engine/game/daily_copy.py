"""Copy of the history once a day of practice, in the background of the game.

It is begun when the day's five minutes are over, or when the player leaves, and goes on while still
screens wait. A game that is ended otherwise leaves it to the next start.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime

from engine.five.saved import has_ended
from engine.practice.results import SessionKind
from engine.store import DamagedError, History, StoreError
from engine.store.copies import FAILED, DiskUsage, day_without_copy, make_copy
from engine.store.paced import PacedThread, Pause


class DailyCopy:
    """Makes the day's copy of an open history. It must be closed before the history is."""

    def __init__(
        self,
        history: History,
        now: Callable[[], datetime],
        usage: DiskUsage = shutil.disk_usage,
        paced: Callable[[Callable[[Pause], None]], PacedThread] = PacedThread,
    ) -> None:
        """`now` gives the local date and time, `paced` the thread that does some work."""
        self._history = history
        self._now = now
        self._usage = usage
        self._paced = paced
        self._thread: PacedThread | None = None
        self._day: date | None = None
        self._written = -1

    def step(self) -> None:
        """Go on with the copy for a few milliseconds, or begin it if it is due."""
        if self._thread is None:
            self._begin(leaves=False)
        else:
            self._thread.step()
            if self._thread.is_done:
                self._end(self._thread)

    def finish(self, is_to_stop: Callable[[], bool] = lambda: False) -> None:
        """Make the rest of the copy, as the player leaves; returns when that is done.

        `is_to_stop` is asked now and then whether to leave it to the next start instead. The copy
        of an earlier day is given up for today's, which holds the same and more.
        """
        if self._thread is not None and self._is_of_earlier_day():
            self.close()
        if self._thread is None:
            self._begin(leaves=True)
        if self._thread is not None:
            self._thread.finish(is_to_stop)
            self._end(self._thread)

    def close(self) -> None:
        """Give up what is not done of a copy: it is begun anew where it is due, or next start."""
        if self._thread is not None:
            self._thread.close()
            self._thread = self._day = None

    def _begin(self, *, leaves: bool) -> None:
        """Begin the copy of the latest day practised, if it is due and was not tried before."""
        try:
            day = self._due(leaves=leaves)
        except StoreError:
            # What the player does next says what is wrong with the history.
            return
        if day is not None and day != self._day:
            self._day = day
            self._thread = self._paced(
                lambda pause: make_copy(self._history, day, pause, self._usage)
            )

    def _is_of_earlier_day(self) -> bool:
        """Whether the copy under way is not that of the latest day practised."""
        try:
            day = day_without_copy(self._history, self._now().date())
        except StoreError:
            return False
        return day is not None and day != self._day

    def _due(self, *, leaves: bool) -> date | None:
        """Day whose copy is to be begun now; None if there is none. Raises StoreError."""
        with self._history.reading() as db:
            written = db.total_changes
        if written == self._written and not leaves:
            return None
        self._written = written
        today = self._now().date()
        day = day_without_copy(self._history, today)
        # The player may still be in the first practice of this day.
        is_over = leaves or day != today or has_ended(self._history, SessionKind.FIVE, today)
        return day if is_over else None

    def _end(self, thread: PacedThread) -> None:
        """Save why there is no copy, for the list of copies; only damage is told in play."""
        self._thread = None
        if thread.error is None or self._day is None:
            return
        if isinstance(thread.error, DamagedError):
            self._history.note_damage(thread.error)
            return
        if not isinstance(thread.error, StoreError):
            raise thread.error
        with suppress(StoreError):
            why = {"day": self._day.isoformat(), "why": str(thread.error)}
            self._history.keep_setting(FAILED, why)
