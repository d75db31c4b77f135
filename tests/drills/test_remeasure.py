"""A stored repetition is remeasured over the windows that it was measured over in play."""

import pytest

from drills.remeasure import Remeasurer, StoredRepetition
from tests.drills.kinds.clutch_cases import shift
from tests.drills.kinds.made import Made, bump, lines, made, square
from tests.drills.kinds.run_case import ON_TIME, run_of
from tests.made import BLIP

ROLLED = 0.25
"""s from the first cue to where the foot leaves the brake, some time before its throttle."""
BRAKE = lines((0, 60.0)) + bump(-20, ROLLED, 0.5)
RUN_BRAKE = lines((0, 60.0)) + bump(-20, 1.5, 0.5)


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
    asked, measures = one.level, dict(one.verdict.measures)
    stored = StoredRepetition(
        1, asked.id, asked.kind.name, 60.0, asked.tolerance, one.verdict.reason, one.done, {}
    )

    again = Remeasurer([asked]).measure(stored)

    assert again == measures
    assert measures["dip"] == pytest.approx(20, abs=1e-3)
    assert (measures["lead"] or 0.0) > 0.2
