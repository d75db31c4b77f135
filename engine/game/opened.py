"""The history that a game plays on: opened, opened again after trouble, repaired where damaged.

`play_on` runs the game on it, so that the window stays whatever happens to the file.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Self, TypeVar

from drills.capitals import capitalised
from engine.game.daily_copy import DailyCopy
from engine.game.trouble import Asking
from engine.pedals.rig import Rig
from engine.stage.scene import Aside, Attended, Flow, Scene
from engine.stage.stage import Stage
from engine.store import History, StoreError
from engine.store.error import DamagedError
from engine.store.history import Change
from engine.store.trouble import OnTrouble

if TYPE_CHECKING:
    from engine.drill.attempt import Now

T = TypeVar("T")
Open = Callable[[OnTrouble], History]
"""Function that opens the history; it may raise StoreError."""
Repair = Callable[[], Sequence[str]]
"""Function that repairs the history and returns sentences on what was lost; may raise StoreError.
"""
Show = Callable[[Attended], object | None]
"""Function that shows a screen; returns its outcome, None if the window is to close."""
Play = Callable[[History, bool], Flow[None]]
"""The game on a history; the flag says whether this is its first start."""


class OpenedHistory:
    """The open history of a game, or the damage that keeps it from being opened.

    A context manager closes the history.
    """

    def __init__(self, open_: Open, repair: Repair, now: Now) -> None:
        """Opens the history by `open_`; `now` is the local clock, for the day's copy.

        Raises StoreError for anything but damage.
        """
        self.asking = Asking()
        self.damage: DamagedError | None = None
        """Damage that was found and not repaired yet; None if there is none."""
        self._open = open_
        self._repair = repair
        self._unwritten: list[tuple[Change, str]] = []
        self._repaired: set[str] = set()
        self._lost: list[str] = []
        self._history: History | None = None
        self._copy: DailyCopy | None = None
        self._now = now
        self.load()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def history(self) -> History | None:
        """The open history; None while it is damaged."""
        return self._history

    @property
    def waiting(self) -> str:
        """What waits to be written until the repair, such as "one repetition"; empty for none."""
        return self._unwritten[-1][1] if self._unwritten else ""

    def load(self) -> None:
        """Open the history, or note that it is damaged. Raises StoreError for anything else."""
        self.close()
        try:
            self._history = self._open(self.asking)
            self._copy = DailyCopy(self._history, self._now)
        except DamagedError as error:
            self.damage = error

    def read(self, function: Callable[[History], T], otherwise: T) -> T:
        """Result of reading the history; `otherwise` where it is damaged. Raises StoreError."""
        if self._history is None:
            return otherwise
        try:
            return function(self._history)
        except DamagedError as error:
            self.note_damage(error)
            return otherwise

    def respond(self, error: StoreError) -> None:
        """Note damage, or ask what to do about another error and open the file once more.

        Raises the error if the player gave up, or gives up now.
        """
        if self._history is None or self.asking.gave_up:
            raise error
        if not isinstance(error, DamagedError):
            try:
                self._history.try_again(error)
                return
            except DamagedError as found:
                error = found
        self.note_damage(error)

    def is_repaired(self, damage: DamagedError) -> bool:
        """Whether the history was repaired of just this damage before."""
        return str(damage) in self._repaired

    def note_damage(self, error: DamagedError) -> None:
        """Close a history that turned out damaged, and hold what was to be written to it."""
        self.damage = error
        if self._history is not None:
            self._unwritten += self._history.unwritten
        self.close()

    def repair(self) -> Sequence[str]:
        """Repair the history, open it and write what waited for that.

        Returns sentences on what was lost. Raises StoreError; the damaged file is unchanged then.
        """
        # It is told once the repaired history is open, which another program may delay.
        self._lost += self._repair()
        self._repaired.add(str(self.damage))
        self.damage = None
        self.load()
        if self._history is None:
            raise StoreError(str(self.damage))
        told, self._lost = self._lost, []
        for change, what in self._unwritten:
            try:
                self._history.write(change, what)
            except StoreError as error:
                told.append(f"{capitalised(what)} that waited could not be saved: {error}.")
            else:
                told.append(f"{capitalised(what)} that waited is saved.")
        self._unwritten = []
        return told

    def step(self) -> None:
        """Go on with the day's copy of the history for a few milliseconds, asking nobody."""
        if self._history is not None and self._copy is not None:
            with self._history.without_asking():
                self._copy.step()

    def finish(self, is_to_stop: Callable[[], bool]) -> None:
        """Make the rest of the day's copy, as the player has left; see `DailyCopy.finish`."""
        if self._copy is not None:
            self._copy.finish(is_to_stop)

    def give_up_copy(self) -> None:
        """Give up what is not done of the day's copy: it holds the history open, and locked."""
        if self._copy is not None:
            self._copy.close()

    def close(self) -> None:
        """Close the history, if it is open, and give up what is not done of its copy."""
        self.give_up_copy()
        self._copy = None
        if self._history is not None:
            self._history.close()
            self._history = None


def play_on(
    opened: OpenedHistory,
    rig: Rig,
    stage: Stage,
    aside: Aside,
    play: Play,
    tell: Callable[[str], None],
) -> Flow[None]:
    """Run a game on the opened history until the player leaves.

    A damaged history is repaired first. One that cannot be read any more is opened again, if the
    player wants that. After either the game starts at home. `aside` shows one screen at once,
    `tell` tells one sentence in the terminal. Raises StoreError where the player gives up.
    """

    def show(screen: Attended) -> object | None:
        return aside(Scene(screen, rig, stage))

    def ask(screen: Attended) -> object | None:
        opened.give_up_copy()
        return show(screen)

    opened.asking.show_by(ask)
    is_first = opened.damage is None
    try:
        while True:
            if opened.damage is not None:
                _repair_in_window(opened, opened.damage, show, tell)
            if opened.history is None:
                return
            try:
                yield from play(opened.history, is_first)
                return
            except StoreError as error:
                opened.respond(error)
            is_first = False
    finally:
        opened.asking.stop()


def _repair_in_window(
    opened: OpenedHistory, damage: DamagedError, show: Show, tell: Callable[[str], None]
) -> None:
    """Repair a damaged history while the window says so, and tell what was lost.

    It stays damaged if the window is closed before that, and nothing waits to be written. Raises
    StoreError where the player gives up.
    """
    from engine.game.damage import NotRepaired, Repaired

    tell(str(damage))
    # The same damage once more is none that a repair mends.
    found = damage if opened.is_repaired(damage) else _attempt(opened, damage, show)
    while isinstance(found, StoreError):
        if not show(NotRepaired(found, opened.waiting)):
            opened.asking.gave_up = True
            raise found
        found = _attempt(opened, damage, show)
    for sentence in found or ():
        tell(sentence)
    # Where another program was faster there is nothing to tell.
    if found:
        show(Repaired(found))


def _attempt(
    opened: OpenedHistory, damage: DamagedError, show: Show
) -> Sequence[str] | StoreError | None:
    """Repair a damaged history while the window says so; returns what was lost, in sentences.

    The error, if that failed; None if the window is to close and nothing waits to be written.
    """
    from engine.game.damage import Repairing

    screen = Repairing(opened.repair, damage, opened.waiting)
    if show(screen) is None and opened.waiting:
        screen.work()
    return screen.outcome
