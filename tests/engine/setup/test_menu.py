"""Menu of the setup: leaving by foot, refused axes, and saved pedals plugged in meanwhile."""

from engine.setup.search import SearchEnd
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.plugged_devices import BRAKE, REST, THROTTLE, WHEEL, WHOLE, Bench
from tests.engine.walking import back


def test_two_pedals_together_open_the_menu_and_a_single_pedal_chooses_to_stop(
    ready: Bench,
) -> None:
    done = ready.walk(
        ("which pedals", "All pedals"),
        ("pedals", ready.rest),
        ("pedals", ready.both),
        ("pedals menu", ready.chooses(taps=3)),
    )

    assert not done
    assert ready.saved == WHOLE
    assert ready.rig.is_feet


def test_going_on_from_the_menu_searches_for_the_same_pedal_again(bench: Bench) -> None:
    first = bench.everything()

    bench.walk(
        *first[:3],
        ("pedals", bench.both),
        ("pedals menu", bench.chooses(taps=0)),
        *first[2:],
    )

    assert bench.saved == WHOLE


def test_starting_over_from_the_menu_begins_with_the_brake(bench: Bench) -> None:
    bench.walk(
        *bench.everything()[:3],
        ("pedals", bench.both),
        ("pedals menu", "Set up again from the start"),
        *bench.everything(),
    )

    assert bench.saved == WHOLE


def test_a_wheel_refused_by_foot_is_taken_for_no_other_pedal(bench: Bench) -> None:
    wheel = bench.moves(WHEEL, 0.02, 0.9)

    def refused(screen: Attended) -> None:
        wheel(screen)
        bench.both(screen)

    def not_again(screen: Attended) -> None:
        wheel(screen)
        bench.pad.move(WHEEL, 0.02)
        bench.presses(THROTTLE)(screen)

    bench.walk(
        ("pedals", bench.rest),
        ("pedals", refused),
        ("pedals menu", bench.chooses(taps=1)),
        ("pedals", bench.rest),
        ("pedals", bench.presses(BRAKE)),
        ("pedals", bench.rest),
        ("pedals", not_again),
        *bench.everything()[4:],
    )

    assert bench.notes[1] == "Axis 4 of Pedals is left out."
    assert bench.saved == WHOLE


def test_a_wheel_refused_by_key_restarts_the_search_with_the_feet_off(bench: Bench) -> None:
    def refused(screen: Attended) -> None:
        bench.moves(WHEEL, 0.02, 0.9)(screen)
        screen.on_action(Action.NEXT)

    bench.walk(("pedals", bench.rest), ("pedals", refused), *bench.everything())

    assert bench.notes[1] == "Axis 4 of Pedals is left out."
    assert bench.saved == WHOLE


class Newcomer:
    """A setup of new pedals during which the saved ones are plugged in again."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        bench.joysticks.pull(bench.pad)
        bench.rig.play_with(None)
        bench.joysticks.plug(Pad(REST, REST, name="Others"))

    def plug(self, screen: Attended) -> None:
        """Plug the saved pedals in again."""
        self.bench.joysticks.plug(self.bench.pad)
        self.bench.rig.rescan()
        screen.on_devices(cut=False)
        assert screen.outcome is SearchEnd.CAME


def test_saved_pedals_plugged_in_during_the_setup_can_be_played_with(ready: Bench) -> None:
    newcomer = Newcomer(ready)

    done = ready.walk(("pedals", newcomer.plug), ("pedals came", "Play with them"))

    assert done
    assert ready.rig.is_feet
    assert ready.rig.sample() is not None


def test_saved_pedals_plugged_in_again_are_offered_once(ready: Bench) -> None:
    newcomer = Newcomer(ready)

    done = ready.walk(
        ("pedals", newcomer.plug),
        ("pedals came", "Go on setting up"),
        ("pedals", back),
    )

    assert not done


def test_saved_pedals_are_offered_as_the_first_device_plugged_in(ready: Bench) -> None:
    ready.joysticks.pull(ready.pad)
    ready.rig.play_with(None)

    def plug(screen: Attended) -> None:
        ready.joysticks.plug(ready.pad)
        ready.rig.rescan()
        screen.on_devices(cut=False)

    done = ready.walk(("nothing plugged", plug), ("pedals came", "Play with them"))

    assert done
