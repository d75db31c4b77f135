"""A pedal that stays pressed where a repetition needs it let go ends the repetition."""

from collections.abc import Callable

import pytest

from drills.phases import Phase
from drills.score import Reason
from drills.task import AT_REST, Task
from drills.trace import SECOND, Pedal, Sample
from engine.drill.left_pressed import GIVEN_UP, LeftPressed
from engine.stage.headless import ManualClock
from tests.fakes import Steady
from tests.made import BLIP, BLIP_TASK
from tests.running_repetition import RunningRepetition


def waiting(
    seconds: float, brake: float, throttle: Callable[[int], float]
) -> tuple[RunningRepetition, ManualClock]:
    """Repetition of a blip after some seconds with the brake still and the throttle moved."""
    clock = ManualClock()
    played = RunningRepetition(BLIP, BLIP_TASK, Steady(clock, brake, throttle), clock)
    played.run(seconds)
    return played, clock


@pytest.mark.parametrize("brake", [0.0, 0.6], ids=["brake free", "brake on target"])
def test_a_throttle_that_rests_above_its_band_voids_it_after_8_s(brake: float) -> None:
    played, clock = waiting(20.0, brake, lambda now: 0.06 + 0.008 * (now // 10_000_000 % 2))

    assert played.screen.outcome is not None
    assert played.screen.outcome.void is Reason.NO_TARGET
    assert clock() == pytest.approx(GIVEN_UP, abs=0.01 * SECOND)


@pytest.mark.parametrize(
    "throttle",
    [lambda _: 0.04, lambda now: 0.06 + 0.03 * (now // SECOND % 2)],
    ids=["in its band", "moved by a foot"],
)
def test_a_throttle_at_rest_or_moved_by_a_foot_is_waited_for(
    throttle: Callable[[int], float],
) -> None:
    played, _ = waiting(20.0, 0.1, throttle)

    assert played.entered[-1] is Phase.APPROACH


def test_a_brake_that_must_be_let_go_is_watched_too() -> None:
    watched = LeftPressed(Task(target=40.0, start={Pedal.BRAKE: AT_REST}, wait=1.0))

    stayed = [watched.feed(Sample(second * SECOND, 6.0, 50.0)) for second in range(10)]

    assert stayed == [False] * 8 + [True] * 2


def test_a_brake_that_is_still_but_not_on_its_target_is_waited_for() -> None:
    above, _ = waiting(20.0, 0.9, lambda _: 0.0)
    below, _ = waiting(20.0, 0.2, lambda _: 0.0)

    assert (above.entered[-1], below.entered[-1]) == (Phase.RELEASE, Phase.APPROACH)
