"""Out of setting up by foot, axes that are refused, and old pedals that come meanwhile."""

from engine.setup.search import SearchEnd
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.plugged_devices import BRAKE, REST, THROTTLE, WHEEL, WHOLE, Bench
from tests.engine.walking import back


def test_two_pedals_together_open_the_menu_and_a_pedal_alone_chooses_to_stop(
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


def test_going_on_from_the_menu_looks_for_the_same_pedal_again(bench: Bench) -> None:
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


def test_a_wheel_that_is_refused_by_foot_is_not_taken_again_for_any_pedal(bench: Bench) -> None:
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


def test_a_wheel_that_is_refused_by_key_begins_with_the_feet_off_again(bench: Bench) -> None:
    def refused(screen: Attended) -> None:
        bench.moves(WHEEL, 0.02, 0.9)(screen)
        screen.on_action(Action.NEXT)

    bench.walk(("pedals", bench.rest), ("pedals", refused), *bench.everything())

    assert bench.notes[1] == "Axis 4 of Pedals is left out."
    assert bench.saved == WHOLE


class Newcomer:
    """Other pedals that are set up while those that were set up before come back."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        bench.joysticks.pull(bench.pad)
        bench.rig.play_with(None)
        bench.joysticks.plug(Pad(REST, REST, name="Others"))

    def plug(self, screen: Attended) -> None:
        """Plug the old ones in again."""
        self.bench.joysticks.plug(self.bench.pad)
        self.bench.rig.rescan()
        screen.on_devices(cut=False)
        assert screen.outcome is SearchEnd.CAME


def test_saved_pedals_that_come_during_setting_up_can_be_played_with(ready: Bench) -> None:
    newcomer = Newcomer(ready)

    done = ready.walk(("pedals", newcomer.plug), ("pedals came", "Play with them"))

    assert done
    assert ready.rig.is_feet
    assert ready.rig.sample() is not None


def test_saved_pedals_that_come_are_offered_once(ready: Bench) -> None:
    newcomer = Newcomer(ready)

    done = ready.walk(
        ("pedals", newcomer.plug),
        ("pedals came", "Go on setting up"),
        ("pedals", back),
    )

    assert not done


def test_saved_pedals_that_come_where_nothing_is_plugged_in_are_offered(ready: Bench) -> None:
    ready.joysticks.pull(ready.pad)
    ready.rig.play_with(None)

    def plug(screen: Attended) -> None:
        ready.joysticks.plug(ready.pad)
        ready.rig.rescan()
        screen.on_devices(cut=False)

    done = ready.walk(("nothing plugged", plug), ("pedals came", "Play with them"))

    assert done
