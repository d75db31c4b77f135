"""Walk through a flow without a window: choices by labels, everything else by pedals and time."""

from collections.abc import Callable, Iterable

from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow, Scene, T
from tests.coarse_clock import READ_EACH

Step = str | Callable[[Attended], None]
"""Label to choose on a screen, or a function that acts on the screen."""

ACTIONS = {"on": Action.GO, "menu": Action.MENU}
"""Actions by name, for screens without choices such as a reveal."""


def walk(
    flow: Flow[T],
    clock: ManualClock,
    steps: Iterable[tuple[str, Step]],
    seen: list[str] | None = None,
) -> T:
    """Take one step at each screen, run repetitions to their end, and return the flow's result.

    Each step names its screen, so that a flow that goes elsewhere is seen at once. Reveals and
    lessons pass by themselves unless some step names one. `seen` is given the name of every
    screen.
    """
    ahead = list(steps)
    named = {name for name, _ in ahead}
    passing = PASSING - (LOOKING_BACK if "reveal" in named else set()) - ({"lesson"} & named)
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            assert ahead == [], f"the flow ended before {ahead}"
            result: T = ended.value
            return result
        screen = scene.screen
        if seen is not None:
            seen.append(screen.name)
        screen.on_focus(True, clock())
        if screen.name in passing:
            sit_through(scene, clock)
            continue
        assert ahead, f"nothing to do at {screen.name}"
        name, step = ahead.pop(0)
        assert screen.name == name, f"at {screen.name}, {screen.details()}"
        if not isinstance(step, str):
            step(screen)
        elif step in ACTIONS:
            screen.on_action(ACTIONS[step])
        else:
            choose(screen, step)


LOOKING_BACK = frozenset({"reveal", "summary"})
"""Screens that look back at repetitions."""
PASSING = LOOKING_BACK | {"repetition", "lesson"}
"""Screens that end by themselves."""


def sit_through(scene: Scene, clock: ManualClock, step: int = READ_EACH) -> None:
    """Look at the pedals every `step` ns until the screen ends by itself."""
    while scene.screen.outcome is None:
        clock.advance(step)
        scene.screen.on_sample(scene.rig.sample(), clock())


def choose(screen: Attended, label: str) -> None:
    """Choose the choice with a label, starting from the selected one."""
    labels, selected = screen.details()["choices"], screen.details().get("selected", 0)
    assert isinstance(labels, list)
    assert isinstance(selected, int)
    for _ in range((labels.index(label) - selected) % len(labels)):
        screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)


def back(screen: Attended) -> None:
    """Go back."""
    screen.on_action(Action.BACK)
