"""Which screen follows which, as plain generators; no screen knows another."""

from __future__ import annotations

from collections.abc import Callable

from engine.kit.base import Screen, T
from engine.pedals.rig import Rig
from engine.stage.scene import Flow, Scene
from engine.stage.stage import Stage


def show(screen: Screen[T], rig: Rig, stage: Stage) -> Flow[T]:
    """Show a screen until it ends; its outcome."""
    while (outcome := screen.outcome) is None:
        yield Scene(screen, rig, stage)
    return outcome


def watched(
    flow: Flow[T], opened: Callable[[Scene], None], closed: Callable[[Scene], None]
) -> Flow[T]:
    """The same flow; something is done as each scene opens, and as it closes."""
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        opened(scene)
        yield scene
        closed(scene)
