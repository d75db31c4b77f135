"""The whole game without a window: which screen follows which, on devices plugged in by hand."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pygame
import pytest

from drills.trace import nanoseconds
from engine.flow.demonstration import Demonstration
from engine.flow.game import play
from engine.levels import SHIPPED, load_levels
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.screens.canvas import Fonts
from engine.screens.finding import NOTES, Gone
from engine.screens.home import Home
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow, Scene
from engine.stage.stage import Stage
from engine.store import History, StoreError
from engine.store.history import FILE
from tests.engine.flow.walking import Step, back, walk
from tests.engine.pedals.joysticks import FakeJoysticks, Pad
from tests.engine.screens.pictures import RecordingCanvas
from tests.fakes import Loudspeaker, a_stage

LEVELS = load_levels([SHIPPED])
LOOK = nanoseconds(0.050)
REST, FULL = -1.0, 1.0


class Rigged:
    """A game on a fake joystick module, walked through step by step."""

    def __init__(self, folder: Path, *pads: Pad) -> None:
        self.clock = ManualClock()
        self.joysticks = FakeJoysticks(*pads)
        self.rig = Rig(self.clock, Devices(self.joysticks))
        self.stage = a_stage()
        self.history = History(folder)

    @property
    def speaker(self) -> Loudspeaker:
        """What is heard."""
        assert isinstance(self.stage.speaker, Loudspeaker)
        return self.stage.speaker

    def flow(self, stage: Stage | None = None) -> Flow[None]:
        """The game."""
        demo = Demonstration(LEVELS[0], 1, seed=3, skill=1.0)
        return play(
            self.rig,
            stage or self.stage,
            self.history,
            LEVELS,
            demo,
            np.random.default_rng(1),
            lambda: datetime(2024, 5, 17, tzinfo=UTC),
        )

    def walk(self, *steps: tuple[str, Step]) -> None:
        """Play it."""
        walk(self.flow(), self.clock, steps)

    def look(self, screen: Attended, seconds: float) -> None:
        """Let a screen look at the pedals for so long, or until it ends."""
        until = self.clock() + nanoseconds(seconds)
        while screen.outcome is None and self.clock() < until:
            self.clock.advance(LOOK)
            screen.on_sample(self.rig.sample(), self.clock())

    def rest(self, screen: Attended) -> None:
        """Keep the feet off."""
        self.look(screen, 10.0)

    def moves(self, pad: Pad, axis: int, *ends: float) -> Step:
        """A step: move an axis to one end after another, a second each."""

        def step(screen: Attended) -> None:
            for end in ends:
                pad.move(axis, end)
                self.look(screen, 1.0)

        return step

    def presses(self, pad: Pad, axis: int) -> Step:
        """A step: press, let go, press fully, let go."""
        return self.moves(pad, axis, REST, FULL, REST, FULL, REST)

    def set_up(self, pad: Pad) -> list[tuple[str, Step]]:
        """The steps of setting up brake and throttle on one device."""
        return [
            ("pedals", self.rest),
            ("pedals", self.presses(pad, 0)),
            ("pedals", self.rest),
            ("pedals", self.presses(pad, 1)),
            ("pedals", self.rest),
            ("pedals", self.moves(pad, 0, REST, FULL)),
            ("pedals", self.lets_go(pad, 0)),
            ("pedals found", "Keep them"),
        ]

    def lets_go(self, pad: Pad, axis: int) -> Step:
        """A step: take the foot off."""

        def step(screen: Attended) -> None:
            pad.move(axis, REST)
            self.rest(screen)

        return step


@pytest.fixture
def pad() -> Pad:
    """A pedal set of three axes, opening at rest."""
    return Pad(REST, REST, REST)


@pytest.fixture
def game(tmp_path: Path, pad: Pad) -> Iterator[Rigged]:
    """A game with one pedal set plugged in and nothing saved."""
    rigged = Rigged(tmp_path, pad)
    with rigged.history:
        yield rigged


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[Rigged]:
    """A game with nothing plugged in and nothing saved."""
    rigged = Rigged(tmp_path)
    with rigged.history:
        yield rigged


READ = ("cautions", "I have read this")


def test_the_first_start_reads_the_cautions_sets_up_and_comes_home(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))

    saved = game.history.setting("binding")
    assert [saved[pedal]["axis"] for pedal in ("brake", "throttle")] == [0, 1]
    assert (saved["brake"]["rest"], saved["brake"]["full"]) == (REST, FULL)
    assert game.history.setting("cautions read") is True


def test_cautions_that_were_not_read_are_shown_again(bare: Rigged) -> None:
    bare.history.keep_setting("cautions read", False)

    with pytest.raises(StopIteration):
        leave_cautions(bare)

    assert bare.history.setting("cautions read") is False


def leave_cautions(game: Rigged) -> None:
    """Close the cautions without going on, as far as they allow it."""
    playing = game.flow()
    cautions = next(playing).screen
    cautions.on_action(Action.BACK)
    next(playing)


def test_the_next_start_asks_nothing(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.rig.play_with(None)

    game.walk(("home", "Leave"))

    assert game.rig.source == "pedals"


def test_nothing_plugged_in_offers_the_mouse_and_the_demo(bare: Rigged) -> None:
    bare.walk(READ, ("no pedals", "Try with the mouse"), ("home", "Leave"))

    assert bare.rig.source == "mouse"


def test_setting_up_with_nothing_plugged_in_says_so_and_leads_back(bare: Rigged) -> None:
    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "Set up the pedals"),
        ("nothing plugged", "Back"),
        ("home", "Leave"),
    )

    assert bare.rig.source == "mouse"


def test_plugging_in_goes_on_to_set_up(bare: Rigged, pad: Pad) -> None:
    def plug(screen: Attended) -> None:
        bare.joysticks.plug(pad)
        bare.rig.rescan()
        screen.on_devices(cut=False)

    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "Set up the pedals"),
        ("nothing plugged", plug),
        *bare.set_up(pad),
        ("home", "Leave"),
    )

    assert bare.rig.source == "pedals"


def test_going_back_from_setting_up_keeps_the_pedals_that_were_there(
    game: Rigged, pad: Pad
) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "Set up the pedals"),
        ("pedals", back),
        ("home", "Leave"),
    )

    assert game.rig.source == "pedals"
    assert game.rig.sample() is not None


def test_home_says_anew_what_is_played_with_when_pedals_come_and_go(game: Rigged, pad: Pad) -> None:
    said = []

    def pull(screen: Attended) -> None:
        said.append(played_with(screen))
        game.joysticks.pull(pad)
        game.rig.rescan()
        screen.on_devices(cut=True)

    def plug(screen: Attended) -> None:
        said.append(played_with(screen))
        game.joysticks.plug(pad)
        game.rig.rescan()
        screen.on_devices(cut=False)

    def leave(screen: Attended) -> None:
        said.append(played_with(screen))
        back(screen)

    game.walk(READ, *game.set_up(pad), ("home", pull), ("home", plug), ("home", leave))

    assert said == ["ready", "unplugged", "ready"]


def test_saved_pedals_that_come_take_over_from_the_mouse(game: Rigged, pad: Pad) -> None:
    def plug(screen: Attended) -> None:
        game.joysticks.plug(pad)
        game.rig.rescan()
        screen.on_devices(cut=False)

    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.joysticks.pull(pad)
    game.rig.play_with(None)

    game.walk(("no pedals", "Try with the mouse"), ("home", plug), ("home", "Leave"))

    assert game.rig.source == "pedals"


def played_with(screen: Attended) -> str:
    """What home says is played with."""
    assert isinstance(screen, Home)
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.paint(canvas, 0.0)
    texts = [text.text for text in canvas.texts]
    return texts[texts.index("Set up the pedals") + 1]


def replugged(game: Rigged, pad: Pad) -> Step:
    """A step: the device goes and comes back under another id."""

    def step(screen: Attended) -> None:
        game.joysticks.replug(pad)
        game.rig.rescan()
        game.look(screen, 0.1)

    return step


@pytest.mark.parametrize("done", [2, 3, 4, 5, 6], ids=lambda done: f"after {done} screens")
def test_a_pedal_found_a_moment_ago_that_is_plugged_anew_begins_with_the_brake_again(
    game: Rigged, pad: Pad, done: int
) -> None:
    begun = game.set_up(pad)[:done]
    noted = []

    def note(screen: Attended) -> None:
        noted.append(screen._note)  # type: ignore[attr-defined]
        game.rest(screen)

    if done == 6:
        begun[-1] = ("pedals", game.moves(pad, 0, REST, FULL))
    first, *rest = game.set_up(pad)
    game.walk(
        READ,
        *begun,
        ("pedals", replugged(game, pad)),
        (first[0], note),
        *rest,
        ("home", "Leave"),
    )

    assert noted == [NOTES[Gone.LOST]]
    assert game.history.setting("binding")["throttle"]["axis"] == 1


def test_the_last_pedal_unplugged_while_setting_up_says_that_nothing_is_plugged_in(
    game: Rigged, pad: Pad
) -> None:
    def pull(screen: Attended) -> None:
        game.joysticks.pull(pad)
        game.rig.rescan()
        game.look(screen, 0.1)

    game.walk(
        READ,
        *game.set_up(pad)[:3],
        ("pedals", pull),
        ("nothing plugged", "Back"),
        ("no pedals", "Leave"),
    )

    assert game.history.setting("binding") is None


def test_a_brake_saved_inverted_is_noticed_with_the_feet_off_and_set_up_again(
    game: Rigged, pad: Pad
) -> None:
    pad.move(0, FULL)
    first, *rest = game.set_up(pad)

    game.walk(
        READ,
        ("pedals", game.rest),
        ("pedals", game.moves(pad, 0, FULL, REST, FULL, REST, FULL)),
        ("pedals", game.lets_go(pad, 0)),
        first,
        *rest,
        ("home", "Leave"),
    )

    saved = game.history.setting("binding")["brake"]
    assert (saved["rest"], saved["full"]) == (REST, FULL)


def test_sound_that_was_turned_off_stays_off_through_the_demo_and_the_next_start(
    bare: Rigged,
) -> None:
    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "Sound"),
        ("home", "Leave"),
    )
    turned_off = bare.speaker.on
    bare.rig.play_with(None)

    bare.walk(
        ("no pedals", "Watch the demo"),
        ("reveal", "See the set"),
        ("set end", "Home"),
        ("no pedals", "Leave"),
    )

    assert (turned_off, bare.speaker.on) == (False, False)


def test_the_demo_leaves_nothing_in_the_history_of_the_player(bare: Rigged) -> None:
    bare.walk(
        READ,
        ("no pedals", "Watch the demo"),
        ("reveal", "See the set"),
        ("set end", "Home"),
        ("no pedals", "Leave"),
    )

    assert list(bare.history.results()) == []


def test_closing_the_window_in_the_demo_ends_it(bare: Rigged) -> None:
    playing = bare.flow()
    scene: Scene | None = None
    for scene in playing:
        if scene.screen.name == "repetition":
            break
        labels = {"cautions": 0, "no pedals": 1}
        for _ in range(labels[scene.screen.name]):
            scene.screen.on_action(Action.NEXT)
        scene.screen.on_action(Action.GO)

    playing.close()

    assert scene is not None
    assert scene.rig is not bare.rig


@pytest.mark.parametrize(
    ("saved", "said"),
    [
        (
            {"brake": 3},
            "binding: expected an object of brake, throttle and perhaps clutch, "
            "found an object of brake",
        ),
        ([], "binding: expected an object of brake, throttle and perhaps clutch, found []"),
    ],
)
def test_saved_pedals_that_make_no_sense_are_refused_in_a_line(
    bare: Rigged, tmp_path: Path, saved: object, said: str
) -> None:
    bare.history.keep_setting("cautions read", True)
    bare.history.keep_setting("binding", saved)

    with pytest.raises(StoreError) as refused:
        bare.walk()

    assert str(refused.value) == f"{tmp_path / FILE}: setting 'binding': {said}"
