"""Walking through a flow without a window: choices by their labels, repetitions by their pedals."""

from collections.abc import Callable, Iterable

from drills.trace import nanoseconds
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow, T

Step = str | Callable[[Attended], None]
"""The label to choose, or what else to do to a screen until it ends."""

MILLISECOND = nanoseconds(0.001)


def walk(flow: Flow[T], clock: ManualClock, steps: Iterable[tuple[str, Step]]) -> T:
    """Take one step at each screen but repetitions, which are sat through; what the flow ends with.

    Each step names its screen, so that a flow that goes elsewhere is seen at once.
    """
    ahead = list(steps)
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            assert ahead == [], f"the flow ended before {ahead}"
            result: T = ended.value
            return result
        screen = scene.screen
        screen.on_focus(True, clock())
        if screen.name == "repetition":
            while screen.outcome is None:
                clock.advance(MILLISECOND)
                screen.on_sample(scene.rig.sample(), clock())
            continue
        assert ahead, f"nothing to do at {screen.name}"
        name, step = ahead.pop(0)
        assert screen.name == name, f"at {screen.name}, {screen.details()}"
        if isinstance(step, str):
            choose(screen, step)
        else:
            step(screen)


def choose(screen: Attended, label: str) -> None:
    """Choose by the label, from the first choice on."""
    labels = screen.details()["choices"]
    assert isinstance(labels, list)
    for _ in range(labels.index(label)):
        screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)


def back(screen: Attended) -> None:
    """Go back."""
    screen.on_action(Action.BACK)
