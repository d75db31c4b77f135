"""Games with rigs saved on pads, and what a player types in them."""

from collections.abc import Callable
from pathlib import Path

from drills.calibration import Range
from engine.game.flow import CAUTIONS_READ
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity, short_guid
from engine.setup.saved_rigs import add_rig
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.game.rigged import FULL, REST, Rigged
from tests.engine.pedals.joysticks import Pad


def bound(pad: Pad, full: float = FULL) -> Binding:
    """Brake and throttle on the first two axes of a pad."""
    device = Identity(short_guid(pad.guid), pad.listed_name, len(pad.opening), 0, 1)
    return Binding(BoundAxis(device, 0, Range(REST, full)), BoundAxis(device, 1, Range(REST, full)))


def game(folder: Path, *pads: Pad, rigs: list[tuple[str, Binding]]) -> Rigged:
    """A game with these rigs saved, the last of them played with last."""
    rigged = Rigged(folder, *pads)
    rigged.history.keep_setting(CAUTIONS_READ, True)
    for name, binding in rigs:
        add_rig(rigged.history, binding, name)
    return rigged


def typed(text: str) -> Callable[[Attended], None]:
    """Step that types a text and keeps it."""

    def step(screen: Attended) -> None:
        screen.on_text(text)
        screen.on_action(Action.GO)

    return step
