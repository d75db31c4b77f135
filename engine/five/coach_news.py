"""What the coach has to tell now: a fault once, when it is found, and once that it has halved."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from drills.fault import Fault
from engine.practice.focus import Focus, FocusStep
from engine.store import History
from engine.store.rigs import USED

KEY = "coach"
"""Key of the setting with the fault told last; a rig with a number has "coach 2" and so on."""

Told = tuple[Fault, date]
"""A fault that the player was told, and the local day on which it was found."""


@dataclass(frozen=True)
class News:
    """What the coach has to tell, each thing once."""

    found: Focus | None = None
    """Fault that is worked on now and has not been told; None for none."""
    halved: Focus | None = None
    """Fault that was told and has fallen to half since; None for none."""


def news_of(told: Told | None, step: FocusStep) -> News:
    """What is to be told after the newest `step`; `told` is the fault that was told last.

    A fault that was never told is not told as halved.
    """
    now, over = step.now, step.over
    is_new = now is not None and told != _subject(now)
    has_halved = over is not None and over.has_halved and told == _subject(over)
    return News(now if is_new else None, over if has_halved else None)


def told_before(history: History) -> Told | None:
    """The fault told last with the rig in use; None if none, or it cannot be read.

    Raises StoreError.
    """
    stored = history.setting(_key(history))
    try:
        fault, since = stored
        return Fault(fault), date.fromisoformat(since)
    except (TypeError, ValueError):
        return None


def keep_told(history: History, news: News) -> None:
    """Store that the player was told this. Raises StoreError."""
    if news.found is not None:
        fault, since = _subject(news.found)
        history.keep_setting(_key(history), [fault.value, since.isoformat()])
    elif news.halved is not None:
        history.keep_setting(_key(history), None)


def _subject(focus: Focus) -> Told:
    return focus.fault, focus.since


def _key(history: History) -> str:
    rig = history.setting(USED)
    return KEY if rig is None else f"{KEY} {rig}"
