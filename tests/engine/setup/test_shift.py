"""The shift button in the setup: asked for once, changed, removed, and carried over."""

from pathlib import Path

import pytest

from drills.trace import Pedal
from engine.pedals.identity import DeviceButton
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.setup.renewal import renew_end
from engine.setup.saved import open_saved
from engine.setup.saved_rigs import saved_binding
from engine.setup.shift_screen import ShiftMenu
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.plugged_devices import AT, BRAKE, REST, THROTTLE, WHOLE, Act, Bench
from tests.engine.walking import Step, back, choose, walk
from tests.fakes import a_stage

PADDLE = 5


class Shifting(Bench):
    """Pedals beside a shifter of so many buttons."""

    def __init__(self, folder: Path, buttons: int = 8) -> None:
        super().__init__(folder)
        self.shifter = Pad(name="Shifter", guid="e" * 32, buttons=buttons)
        self.joysticks.plug(self.shifter)
        self.rig.rescan()


@pytest.fixture
def shifting(tmp_path: Path) -> Shifting:
    """Pedals that were set up with a shift button on another device."""
    bench = Shifting(tmp_path)
    bench.walk(*bench.everything(), ("shift button", presses(bench, PADDLE)))
    return bench


def presses(bench: Bench, button: int, *then: Action) -> Act:
    """Step that presses a button of the shifter and then chooses, keeping it unless told."""

    def step(screen: Attended) -> None:
        bench.rig.takes(DeviceButton(1, button))
        bench.look(screen, 0.1)
        for action in then or (Action.GO,):
            screen.on_action(action)

    return step


def bound(bench: Bench) -> int | None:
    """Index of the shift button in the saved setting."""
    saved = saved_binding(bench.history)
    return None if saved is None or saved.shift is None else saved.shift.button


def test_the_button_that_was_pressed_is_saved_and_read(shifting: Shifting) -> None:
    assert (shifting.saved, bound(shifting)) == (WHOLE, PADDLE)
    assert shifting.rig.has_shift


def test_a_player_without_a_device_with_buttons_is_not_asked(bench: Bench) -> None:
    bench.walk(*bench.everything())

    assert (bench.saved, bound(bench)) == (WHOLE, None)


@pytest.mark.parametrize(("buttons", "asked"), [(2, False), (3, True)])
def test_buttons_of_the_pedals_own_device_are_asked_about_where_it_is_a_wheel(
    tmp_path: Path, buttons: int, asked: bool
) -> None:
    bench = Bench(tmp_path)
    bench.pad.buttons = buttons
    question = [("shift button", "Go on without")] if asked else []

    done = bench.walk(*bench.everything(), *question)

    assert done


def test_going_on_without_a_shift_button_leaves_the_pedals_alone(tmp_path: Path) -> None:
    bench = Shifting(tmp_path, buttons=1)

    bench.walk(*bench.everything(), ("shift button", "Go on without"))

    assert (bench.saved, bound(bench)) == (WHOLE, None)
    assert not bench.rig.takes(DeviceButton(1, 0))


def test_the_button_that_was_pressed_last_counts(tmp_path: Path) -> None:
    bench = Shifting(tmp_path)
    seen = []

    def twice(screen: Attended) -> None:
        assert isinstance(screen, ShiftMenu)
        for button in (0, 3):
            bench.rig.takes(DeviceButton(1, button))
            bench.look(screen, 0.1)
            seen.append([choice.label for choice in screen._choices])
        screen.on_action(Action.GO)

    bench.walk(*bench.everything(), ("shift button", twice))

    assert seen == [["Keep it", "Without one"]] * 2
    assert bound(bench) == 3


def test_the_feet_choose_while_no_button_does(tmp_path: Path) -> None:
    bench = Shifting(tmp_path)
    seen = []

    def keep(screen: Attended) -> None:
        assert isinstance(screen, ShiftMenu)
        screen.on_means(bench.rig.means)
        bench.rig.takes(DeviceButton(1, 0))
        bench.look(screen, 0.1)
        seen.extend([screen.feet_choose, screen.hint.startswith("Brake past half, Enter: choose")])
        screen.on_action(Action.GO)

    bench.walk(*bench.everything(), ("shift button", keep))

    assert seen == [True, True]
    assert bound(bench) == 0


def test_the_shift_button_is_changed_alone(shifting: Shifting) -> None:
    shifting.walk(
        ("which pedals", "Shift button"), ("shift button", presses(shifting, 1, Action.GO))
    )

    assert (shifting.saved, bound(shifting)) == (WHOLE, 1)
    assert shifting.rig.takes(DeviceButton(1, 1))
    assert not shifting.rig.takes(DeviceButton(1, PADDLE))


def test_the_shift_button_is_removed_alone(shifting: Shifting) -> None:
    shifting.walk(("which pedals", "Shift button"), ("shift button", "Without one"))

    assert (shifting.saved, bound(shifting)) == (WHOLE, None)
    assert shifting.rig.shift is None


def test_going_back_leaves_the_shift_button_as_it_was(shifting: Shifting) -> None:
    shifting.walk(
        ("which pedals", "Shift button"), ("shift button", presses(shifting, 1, Action.BACK))
    )

    assert bound(shifting) == PADDLE


def test_a_shift_button_is_added_to_pedals_that_have_none(tmp_path: Path) -> None:
    bench = Shifting(tmp_path)
    bench.walk(*bench.everything(), ("shift button", back))

    bench.walk(("which pedals", "Add a shift button"), ("shift button", presses(bench, 2)))

    assert bound(bench) == 2


def test_a_single_pedal_set_up_again_keeps_the_shift_button_unasked(shifting: Shifting) -> None:
    shifting.walk(
        ("which pedals", "Brake only"),
        ("pedals", shifting.rest),
        ("pedals", shifting.presses(BRAKE, full=0.5)),
        ("pedals", shifting.rest),
        ("pedals found", "Keep them"),
    )

    assert shifting.saved == {**WHOLE, "brake": (BRAKE, REST, 0.5)}
    assert bound(shifting) == PADDLE


def test_all_pedals_set_up_again_offer_the_button_bound_before(shifting: Shifting) -> None:
    shifting.walk(
        ("which pedals", "All pedals"), *shifting.everything(), ("shift button", "Keep it")
    )

    assert bound(shifting) == PADDLE


def test_an_end_that_is_set_anew_keeps_the_shift_button(shifting: Shifting) -> None:
    moved = MovedEnd(Pedal.THROTTLE, End.REST, 6.25)
    renewal = renew_end(moved, shifting.rig, a_stage(), shifting.history, lambda: AT)

    def off(screen: Attended) -> None:
        shifting.pad.move(THROTTLE, -0.875)
        shifting.look(screen, 5.0)

    steps: list[tuple[str, Step]] = [("end moved", "Set the rest again"), ("set rest", off)]
    done = walk(renewal, shifting.clock, steps)

    assert done
    assert bound(shifting) == PADDLE
    assert shifting.rig.has_shift


def test_a_rig_whose_shifter_is_away_is_still_played_with(shifting: Shifting) -> None:
    shifting.joysticks.pull(shifting.shifter)
    rig = Rig(shifting.clock, Devices(shifting.joysticks))

    open_saved(rig, shifting.history)

    assert rig.is_feet
    assert (rig.trouble, rig.has_shift) == (None, False)
    assert rig.sample() is not None


def test_after_another_button_was_pressed_the_old_one_can_still_be_kept(
    shifting: Shifting,
) -> None:
    def keep(screen: Attended) -> None:
        assert isinstance(screen, ShiftMenu)
        shifting.rig.takes(DeviceButton(1, 1))
        shifting.look(screen, 0.1)
        choose(screen, "As before")

    shifting.walk(("which pedals", "Shift button"), ("shift button", keep))

    assert bound(shifting) == PADDLE
