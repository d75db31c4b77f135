"""Times from a cue are from the cue itself, also where it comes between two grid points."""

from dataclasses import replace

import pytest

from drills.trace import SECOND
from tests.drills.kinds.clutch_cases import shift
from tests.drills.kinds.made import Made, lines, made
from tests.drills.kinds.test_squeeze import SQUEEZE, THERE
from tests.drills.kinds.trail_case import DOWN, asks, way_of

EARLIER = 400_000
"""Time in ns by which a cue is moved, to between its grid point and the one before."""
SHIFT = shift()
SQUEEZED = made(SQUEEZE, lines(*THERE))
WAY = way_of(DOWN, (1.2,), asks(1))


def moved(one: Made) -> Made:
    """The repetition with each of its cues a little earlier, the pedals as they were."""
    cues = tuple(cue - EARLIER for cue in one.done.cues)
    return Made(one.level, one.task, replace(one.done, cues=cues))


@pytest.mark.parametrize(
    ("one", "expected"),
    [
        pytest.param(SQUEEZED, {"reaction", "peak_time", "settle"}, id="squeeze"),
        pytest.param(SHIFT, {"reaction", "clutch_down", "clutch_up"}, id="shift"),
        pytest.param(WAY, {"release_start", "lateness"}, id="way down"),
    ],
)
def test_a_cue_between_two_grid_points_is_as_much_earlier_as_it_came(
    one: Made, expected: set[str]
) -> None:
    before, after = one.verdict.measures, moved(one).verdict.measures

    grown = {
        name: (after[name] or 0.0) - value
        for name, value in before.items()
        if value is not None and after[name] != value
    }
    assert set(grown) == expected
    assert list(grown.values()) == pytest.approx([EARLIER / SECOND] * len(expected), abs=1e-9)
