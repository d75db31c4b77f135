"""`Lessons`: which lessons a player has seen, and the player's way to blip, saved as settings."""

from __future__ import annotations

from engine.drill.lesson_moves import EASING, EASING_BLIPS
from engine.kit.foot_pose import Way
from engine.store import History

SEEN_KEY = "lessons seen"
"""Key of the setting with the names of the lessons that the player has seen."""
WAY_KEY = "way to blip"
"""Key of the setting with the player's way to blip."""


def saved_way(history: History) -> Way | None:
    """Way to blip that the player chose; None if none was, or it cannot be understood.

    Raises StoreError.
    """
    data = history.setting(WAY_KEY)
    return next((way for way in Way if way.value == data), None)


class Lessons:
    """Lessons that a player has seen; without a history they are remembered for this run only."""

    def __init__(self, history: History | None, way: Way | None = None) -> None:
        """`way` is the player's way to blip at first, where there is no history."""
        self._history = history
        self._way = way
        self._seen: tuple[str, ...] = ()

    @property
    def way(self) -> Way | None:
        """The player's way to blip; None if it was never chosen. Raises StoreError."""
        return self._way if self._history is None else saved_way(self._history)

    def choose(self, way: Way) -> None:
        """Remember the player's way to blip. Raises StoreError."""
        self._way = way
        if self._history is not None:
            self._history.keep_setting(WAY_KEY, way.value)

    @property
    def seen(self) -> tuple[str, ...]:
        """Names of the lessons that the player has seen. Raises StoreError.

        Whoever played a kind of drill before there were lessons knows it.
        """
        if self._history is None:
            return self._seen
        data = self._history.setting(SEEN_KEY)
        if isinstance(data, list):
            return tuple(name for name in data if isinstance(name, str))
        return self._save(*_played(self._history))

    def mark_seen(self, name: str) -> None:
        """Remember that the player has seen the lesson of this name. Raises StoreError."""
        if name not in self.seen:
            self._save(*self.seen, name)

    def _save(self, *names: str) -> tuple[str, ...]:
        self._seen = names
        if self._history is not None:
            self._history.keep_setting(SEEN_KEY, list(names))
        return names


def _played(history: History) -> list[str]:
    """Names of the lessons for all kinds of drill that were played with feet."""
    with history.reading() as db:
        found = db.execute("SELECT DISTINCT kind FROM repetition WHERE feet = 1 ORDER BY kind")
        kinds = [str(kind) for (kind,) in found]
    return [*kinds, EASING_BLIPS] if EASING in kinds else kinds
