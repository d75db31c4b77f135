"""Building blocks of flows, the generators that decide which screen follows which."""

from __future__ import annotations

from collections.abc import Callable

from engine.kit.base import Screen, T
from engine.pedals.rig import Rig
from engine.stage.scene import Flow, Scene
from engine.stage.stage import Stage


def show(screen: Screen[T], rig: Rig, stage: Stage) -> Flow[T]:
    """Flow that shows a screen until it ends, and returns its outcome."""
    while (outcome := screen.outcome) is None:
        yield Scene(screen, rig, stage)
    return outcome


def watched(
    flow: Flow[T], opened: Callable[[Scene], None], closed: Callable[[Scene], None]
) -> Flow[T]:
    """Same flow of screens, with `opened` called before each scene and `closed` after it."""
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        opened(scene)
        yield scene
        closed(scene)
