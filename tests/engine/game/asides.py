"""A set played on an opened history without a window, with a player for screens shown aside."""

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Self

from engine.game.opened import OpenedHistory, play_on
from engine.pedals.rig import Rig
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow, Scene
from engine.store import History, StoreError, open_history
from tests.engine.drill.sets import DATE, SHORT, SetPlayer
from tests.engine.walking import Step, choose, walk
from tests.fakes import Steady, a_stage
from tests.stored import all_results

CLOSE = "close the window"
"""Step of a player who closes the window while a screen is shown aside."""
Does = Callable[[], object]


class Aside:
    """Shows screens aside, each of which the player answers with one step."""

    def __init__(self, *steps: tuple[str, Step]) -> None:
        self.steps = list(steps)
        self.shown: list[Attended] = []
        self.closed = False

    def __call__(self, scene: Scene) -> object | None:
        """Show a screen: repeated looks, then the next step; None once the window is closed."""
        if self.closed:
            return None
        screen = scene.screen
        self.shown.append(screen)
        assert self.steps, f"nothing to do at {screen.name}: {screen.details()}"
        name, step = self.steps.pop(0)
        assert screen.name == name, f"at {screen.name}, {screen.details()}"
        if step == CLOSE:
            self.closed = True
        elif isinstance(step, str):
            choose(screen, step)
        else:
            step(screen)
        return screen.outcome

    @property
    def names(self) -> list[str]:
        """Names of the screens that were shown."""
        return [screen.name for screen in self.shown]


def looks(screen: Attended) -> None:
    """Look at a screen until it has been drawn and has done its work."""
    screen.on_sample(None, 0)
    assert screen.outcome is None
    screen.on_sample(None, 0)


def after(does: Does, label: str = "Try again") -> Step:
    """Step that does something and then takes a choice."""

    def step(screen: Attended) -> None:
        does()
        choose(screen, label)

    return step


class Game(AbstractContextManager["Game"]):
    """Game of one set on a history in a folder; each of `errors` ends one start of it."""

    def __init__(
        self, folder: Path, aside: Aside, repair: Callable[[], Sequence[str]] = list
    ) -> None:
        self.aside = aside
        self.told: list[str] = []
        self.starts: list[bool] = []
        self.errors: list[StoreError] = []
        self.opened = OpenedHistory(
            lambda on_trouble: open_history(folder, [], 0.0, on_trouble), repair, lambda: DATE
        )
        clock = ManualClock()
        self._foot, self._clock = Steady(clock, 0.6), clock

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.opened.close()

    def play(self, *reveals: Step) -> None:
        """Play sets until one ends; each reveal takes a step."""
        steps = [("reveal", step) for step in reveals]
        rig, stage = Rig(self._clock), a_stage()
        flow = play_on(self.opened, rig, stage, self.aside, self._start, self.told.append)
        walk(flow, self._clock, steps)

    @property
    def count(self) -> int:
        """Number of repetitions in the open history."""
        assert self.opened.history is not None
        return len(all_results(self.opened.history))

    def _start(self, history: History, is_first: bool) -> Flow[None]:
        self.starts.append(is_first)
        if self.errors:
            raise self.errors.pop(0)
        yield from SetPlayer(self._foot, self._clock, history).set_of(SHORT)
