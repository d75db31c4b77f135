"""One end of a pedal set anew between repetitions, and saved."""

import pytest

from drills.trace import Pedal
from engine.pedals.moved_ends import End, MovedEnd
from engine.practice.changes import Changed
from engine.setup.finding_screens import TRACK, TRACK_LEFT
from engine.setup.renewal import DECLINED, renew_end
from engine.setup.renewal_screens import SetRestAnew
from engine.setup.search_screen import RADIUS
from engine.stage.scene import Attended
from engine.store.changes import all_changes
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.setup.pictures import SCALE, renewal_screens
from tests.engine.setup.plugged_devices import AT, BRAKE, REST, THROTTLE, WHOLE, Bench
from tests.engine.walking import Step, back, walk
from tests.fakes import a_stage

RESTS = MovedEnd(Pedal.THROTTLE, End.REST, 6.25)
PASSED = MovedEnd(Pedal.BRAKE, End.FULL, 120.0)
CREPT = -0.875
"""Raw value of a throttle at 6.25 % of its range."""


def renewed(bench: Bench, moved: MovedEnd, *steps: tuple[str, Step], days: int = 0) -> bool:
    """Whether an end was set anew, with some steps, some days after the first one."""
    at = AT.replace(day=AT.day + days)
    flow = renew_end(moved, bench.rig, a_stage(), bench.history, lambda: at)
    return walk(flow, bench.clock, steps)


def soft(bench: Bench, full: float = 0.5) -> None:
    """Set the brake up with a full that is softer than its axis."""
    bench.walk(
        ("which pedals", "Brake only"),
        ("pedals", bench.rest),
        ("pedals", bench.presses(BRAKE, full=full)),
        ("pedals", bench.rest),
        ("pedals found", "Keep them"),
    )


def test_a_new_rest_takes_two_seconds_with_the_feet_off_and_is_no_change(ready: Bench) -> None:
    def off(screen: Attended) -> None:
        ready.pad.move(THROTTLE, CREPT)
        began = ready.clock()
        ready.look(screen, 5.0)
        took.append((ready.clock() - began) / 1e9)

    took: list[float] = []

    done = renewed(ready, RESTS, ("end moved", "Set the rest again"), ("set rest", off))

    sample = ready.rig.sample()
    assert done
    assert took == [pytest.approx(2.0, abs=0.05)]
    assert ready.saved == {**WHOLE, "throttle": (THROTTLE, CREPT, 1.0)}
    assert sample is not None
    assert sample.throttle == 0.0
    assert all_changes(ready.history) == []


def test_the_screen_names_a_pedal_that_does_not_come_to_rest() -> None:
    screen = renewal_screens()["rest anew, restless"]

    [note] = [text for text in said(screen) if "does not come to rest" in text]
    assert note.startswith("The brake")


@pytest.mark.parametrize(("percent", "wanted"), [(20.0, (0.0, 0.2)), (-4.0, (-0.04, 0.0))])
def test_the_moved_pedal_has_its_marks_around_where_it_rests(
    percent: float, wanted: tuple[float, float]
) -> None:
    screen = SetRestAnew(SCALE, MovedEnd(Pedal.THROTTLE, End.REST, percent))

    marks = {x for (x, top), (end, low) in recorded(screen).lines if x == end and low > top}

    low, high = (TRACK_LEFT + share * TRACK for share in wanted)
    assert low - RADIUS - 8 in marks
    assert high + RADIUS + 8 in marks


def test_a_new_full_is_the_brakes_new_scale_and_remembered(ready: Bench) -> None:
    soft(ready)
    before = len(all_changes(ready.history))
    presses = ready.moves(BRAKE, REST, 0.8125, REST, 0.8125, REST)

    done = renewed(ready, PASSED, ("end moved", "Set full again"), ("set full", presses))

    *_, change = all_changes(ready.history)
    assert done
    assert ready.saved == {**WHOLE, "brake": (BRAKE, REST, 0.8125)}
    assert len(all_changes(ready.history)) == before + 1
    assert (change.what, change.at) == (Changed.SCALE, AT)


@pytest.mark.parametrize("moved", [RESTS, PASSED], ids=lambda moved: moved.end)
def test_pressing_both_pedals_or_going_back_leaves_the_end_as_it_is(
    ready: Bench, moved: MovedEnd
) -> None:
    name = f"set {moved.end}"
    first = "Set the rest again" if moved is RESTS else "Set full again"

    done = renewed(ready, moved, ("end moved", first), (name, "menu"))

    assert not done
    assert ready.saved == WHOLE


def test_who_declined_is_asked_again_once_it_got_worse_or_another_day(ready: Bench) -> None:
    worse = MovedEnd(Pedal.THROTTLE, End.REST, 8.25)
    little = MovedEnd(Pedal.THROTTLE, End.REST, 7.0)

    assert not renewed(ready, RESTS, ("end moved", "Not now"))
    assert not renewed(ready, RESTS)
    assert not renewed(ready, little)
    assert not renewed(ready, worse, ("end moved", back))
    assert not renewed(ready, worse)
    assert not renewed(ready, PASSED, ("end moved", "Not now"))
    assert not renewed(ready, RESTS, ("end moved", "Not now"), days=1)


def test_pedals_that_are_unplugged_meanwhile_are_waited_for(ready: Bench) -> None:
    def pull(screen: Attended) -> None:
        ready.pad.move(THROTTLE, CREPT)
        ready.look(screen, 1.5)
        screen.on_sample(None, ready.clock())
        ready.look(screen, 1.5)
        early.append(screen.outcome)
        ready.look(screen, 1.0)

    early: list[object] = []

    done = renewed(ready, RESTS, ("end moved", "Set the rest again"), ("set rest", pull))

    assert done
    assert early == [None]


def test_where_the_setting_cannot_be_understood_the_player_is_asked(ready: Bench) -> None:
    ready.history.keep_setting(DECLINED, {"day": "2024-05-17", "throttle rest": "much"})

    assert not renewed(ready, RESTS, ("end moved", "Not now"))
