"""A stored repetition is remeasured over the windows that it was measured over in play."""

from dataclasses import replace

import pytest

from drills.kinds.asked_size import with_size
from drills.measures.definition import DEFINITION
from drills.remeasure import Remeasurer, StoredRepetition, Unmeasured
from drills.score import Reason
from drills.trace import nanoseconds
from tests.drills.kinds.clutch_cases import shift
from tests.drills.kinds.made import Made, bump, lines, made, square
from tests.drills.kinds.run_case import ON_TIME, run_of
from tests.drills.kinds.zone_case import PEAK, with_own, zone_of_foot
from tests.made import BLIP

ROLLED = 0.25
"""s from the first cue to where the foot leaves the brake, some time before its throttle."""
BRAKE = lines((0, 60.0)) + bump(-20, ROLLED, 0.5)
RUN_BRAKE = lines((0, 60.0)) + bump(-20, 1.5, 0.5)


def stored(one: Made) -> StoredRepetition:
    """A repetition as the history has it, by an earlier definition."""
    asked, reason = one.level, one.verdict.reason
    return StoredRepetition(
        *(1, asked.id, asked.kind.name, 60.0, asked.tolerance, reason, one.done),
        {},
        DEFINITION - 1,
    )


@pytest.mark.parametrize(
    "one",
    [
        pytest.param(made(BLIP, BRAKE, square(0.5)), id="blip"),
        pytest.param(shift(brake=BRAKE, onset=0.5, up=0.9), id="clutch"),
        pytest.param(run_of(ON_TIME, RUN_BRAKE), id="run"),
        pytest.param(run_of(ON_TIME[:1], RUN_BRAKE, given=3), id="run that was cut short"),
    ],
)
def test_an_early_roll_is_remeasured_as_it_was_measured(one: Made) -> None:
    measures = dict(one.verdict.measures)

    again = Remeasurer([one.level]).measure(stored(one))

    assert again == measures
    assert measures["dip"] == pytest.approx(20, abs=1e-3)
    assert (measures["lead"] or 0.0) > 0.2


def test_a_blip_that_counted_before_a_size_was_asked_keeps_its_measures() -> None:
    one = made(BLIP, BRAKE, square(0.5, height=95.0))

    again = Remeasurer([with_size(BLIP, 60.0)]).measure(stored(one))

    assert one.verdict.measures["peak"] == 95.0
    assert again == dict(one.verdict.measures)


def test_a_blip_off_the_size_asked_is_not_remeasured() -> None:
    one = made(with_size(BLIP, 60.0), BRAKE, square(0.5, height=95.0))

    assert Remeasurer([BLIP]).measure(stored(one)) is Unmeasured.UNJUDGED


def test_the_answer_to_the_second_task_stays_as_it_is_stored() -> None:
    one = made(BLIP, BRAKE, square(0.5))
    answered = {"knocks": 5.0, "counted": 4.0}
    counting = replace(stored(one), measures={"dip": 1.0, **answered})

    again = Remeasurer([BLIP]).measure(counting)

    assert again == {**one.verdict.measures, **answered}


@pytest.mark.parametrize("reason", [Reason.MISCOUNTED, Reason.UNHEARD])
def test_a_repetition_lost_to_the_second_task_is_not_remeasured(reason: Reason) -> None:
    one = replace(stored(made(BLIP, BRAKE, square(0.5))), reason=reason)

    assert Remeasurer([BLIP]).measure(one) is Unmeasured.UNJUDGED


@pytest.mark.parametrize(
    "change", [{"from": 210.0}, {"to": 90.0}, {"decel": 11.0}, {"downforce": 0.3}, {"shifts": 2.0}]
)
def test_a_zone_whose_corner_was_changed_since_is_not_remeasured(change: dict[str, float]) -> None:
    one = zone_of_foot()
    kept = replace(stored(one), target=PEAK)

    again = Remeasurer([with_own(**change)]).measure(kept)

    assert again is Unmeasured.OTHER_LENGTH
    assert Remeasurer([one.level]).measure(kept) == dict(one.verdict.measures)


def test_a_run_at_another_tempo_since_is_not_remeasured() -> None:
    one = run_of(ON_TIME, RUN_BRAKE)
    slower = replace(one.level, own={**one.level.own, "tempo": 1.0})

    assert Remeasurer([slower]).measure(stored(one)) is Unmeasured.OTHER_LENGTH


@pytest.mark.parametrize("late", [0.05, -0.05])
def test_a_cue_that_came_as_late_as_the_reading_allows_is_remeasured(late: float) -> None:
    one = zone_of_foot()
    cues = list(one.done.cues)
    cues[-2] += nanoseconds(late)
    moved = replace(stored(one), target=PEAK, done=replace(one.done, cues=tuple(cues)))

    assert not isinstance(Remeasurer([one.level]).measure(moved), Unmeasured)
