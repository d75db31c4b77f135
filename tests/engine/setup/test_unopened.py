"""Words and screens on devices that could not be opened."""

from collections.abc import Callable

import pytest

from drills.trace import Pedal
from engine.kit.base import Screen
from engine.pedals.sdl import Unopened
from engine.setup.finding_screens import FeetOff, FindPedal
from engine.setup.unopened import unopened_words
from engine.stage.scene import Attended
from tests.engine.game.rigged import READ, Rigged
from tests.engine.kit.recording_canvas import said
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.pictures import feet_off, finding
from tests.engine.walking import Step, back, choose

HELD, DENIED = Unopened("Held", denied=False), Unopened("Denied", denied=True)
LONG = Unopened("Pedals of a maker who likes to tell a lot", denied=False)
CLOSE = "Close other programs that use pedals or wheels, then plug in again."
RULE = "You need the group 'input', or the udev rule in the README."


@pytest.mark.parametrize(
    ("devices", "words"),
    [
        ([], ""),
        ([HELD], f"1 device could not be opened (Held). {CLOSE}"),
        ([DENIED], f"1 device could not be opened (Denied). {RULE}"),
        ([HELD, DENIED], f"2 devices could not be opened (Denied and 1 more). {RULE}"),
        (
            [LONG, HELD, HELD],
            "3 devices could not be opened (Pedals of a maker who likes to tell a... and 2 more). "
            f"{CLOSE}",
        ),
    ],
)
def test_devices_that_could_not_be_opened_are_counted_and_the_first_is_named(
    devices: list[Unopened], words: str
) -> None:
    assert unopened_words(devices) == words


def keeps(seen: list[str], then: Callable[[Attended], None]) -> Step:
    """Step that stores what a screen says and then acts on it."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, Screen)
        seen.append(" ".join(said(screen)))
        then(screen)

    return step


def test_the_screens_without_pedals_say_which_devices_could_not_be_opened(
    bare: Rigged, pad: Pad
) -> None:
    seen: list[str] = []
    pad.name = "Held"
    pad.jam()

    def plug(screen: Attended) -> None:
        bare.joysticks.plug(pad)
        bare.rig.rescan()
        screen.on_devices(cut=False)

    def mouse(screen: Attended) -> None:
        choose(screen, "Try with the mouse")

    bare.walk(
        READ,
        ("no pedals", keeps(seen, plug)),
        ("no pedals", keeps(seen, mouse)),
        ("home", "More"),
        ("more", "Set up the pedals"),
        ("nothing plugged", keeps(seen, back)),
        ("home", "Leave"),
    )

    line = f"1 device could not be opened (Held). {CLOSE}"
    assert [line in text for text in seen] == [False, True, True]
    assert "No device can be read" in seen[2]


def test_the_setup_says_which_devices_could_not_be_opened(game: Rigged) -> None:
    seen: list[str] = []
    game.joysticks.denied_names = ["Denied"]

    game.walk(READ, ("pedals", keeps(seen, back)), ("no pedals", keeps(seen, back)))

    line = f"1 device could not be opened (Denied). {RULE}"
    assert [line in text for text in seen] == [True, True]


@pytest.mark.parametrize("screen", [feet_off(()), finding(Pedal.BRAKE, (-1.0,))])
def test_a_search_screen_is_drawn_again_when_a_device_cannot_be_opened(
    screen: FeetOff | FindPedal,
) -> None:
    before = screen.appearance()

    screen._search.unopened = lambda: "something new"

    assert screen.appearance() != before
