"""Braking zones played sample by sample to their end, judged with their pedals, and remeasured."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from drills.judging import judge_foot, judge_repetition
from drills.measures.definition import DEFINITION
from drills.measures.device import DeviceHistory
from drills.phases import OVER, Event, Phase
from drills.remeasure import Remeasurer, StoredRepetition, Unmeasured
from drills.repetition import Repetition
from drills.score import Judged, Reason
from drills.task import Performance
from drills.trace import STEP, Sample
from tests.drills.kinds.made import TIME, bump, lines
from tests.drills.kinds.zone_case import BEATS, PEAK, POINT, TURN_IN, ZONE, between, on_line
from tests.drills.shapes import Values

TASK = replace(ZONE.kind.task(ZONE, PEAK, np.random.default_rng(1)), wait=1.0)
FIRST = int(np.flatnonzero(between(0.0, 9.0))[0])
"""Index of the first knock in the pedals of a made zone."""
TREMBLE = 0.05 * np.sin(2 * np.pi * 9.0 * TIME)
"""Points that any foot on a pedal trembles by."""


def played(brake: Values, throttle: Values) -> tuple[Performance, int, Event]:
    """A zone played to its end: what was done, when it was measured from, and its last event."""
    repetition = Repetition(TASK, 0)
    now, last = 0, Event.FREED
    while repetition.phase not in (Phase.ACT, *OVER):
        now += STEP
        for transition in repetition.feed(Sample(now, 0.0, 0.0)):
            last = transition.event
    for pressed, opened in zip(brake[FIRST:], throttle[FIRST:], strict=True):
        now += STEP
        for transition in repetition.feed(Sample(now, float(pressed), float(opened))):
            last = transition.event
    while repetition.phase not in OVER:
        now += STEP
        for transition in repetition.feed(Sample(now, float(brake[-1]), float(throttle[-1]))):
            last = transition.event
    done, opens = repetition.performance(), repetition.measured_from
    assert repetition.phase is Phase.DONE
    assert repetition.void is None
    assert done is not None
    assert opens is not None
    return done, opens, last


def on_pedal(brake: Values) -> Values:
    """The brake of a foot that squeezes for 0.15 s and trembles while it is on the pedal."""
    squeezed = np.minimum(brake, lines((POINT, 0.0), (POINT + 0.15, 100.0)))
    return np.where(squeezed > 6, squeezed + TREMBLE, squeezed)


def taps(at: Sequence[float] = BEATS) -> Values:
    """Throttle of blips that go in and out as a foot does."""
    return sum((bump(70.0, one) for one in at), start=np.zeros(TIME.size))


def stored(done: Performance, reason: Reason) -> StoredRepetition:
    """A zone as the history has it, by an earlier definition."""
    return StoredRepetition(
        *(1, ZONE.id, ZONE.kind.name, PEAK, ZONE.tolerance, reason, done),
        {},
        DEFINITION - 1,
    )


ENDED: dict[str, tuple[Values, Values, Event, Reason]] = {
    "as asked": (on_line(), taps(), Event.OVER, Reason.CLEAN),
    "off before its knock": (
        np.where(between(TURN_IN - 0.2, 9.0), 0.0, on_line()),
        taps(),
        Event.OVER,
        Reason.OVER_LIMIT,
    ),
    "a blip that never came": (on_line(), taps(BEATS[:2]), Event.LATE, Reason.FEW_BLIPS),
    "no blip at all": (on_line(), taps([]), Event.LATE, Reason.NO_BLIP),
    "a brake that was never pressed": (on_line() * 0, taps(), Event.LATE, Reason.NOT_PRESSED),
    "a brake that was never let go": (
        np.where(TIME > TURN_IN - 0.5, 40.0, on_line()),
        taps(),
        Event.LATE,
        Reason.OVER_LIMIT,
    ),
    "a brake let go in the middle": (
        np.where(between(BEATS[1] + 0.4, BEATS[1] + 0.6), 0.0, on_line()),
        taps(),
        Event.OVER,
        Reason.LET_GO,
    ),
}
"""Zones, the event that ends each, and what is told of it."""


@pytest.mark.parametrize("case", list(ENDED))
def test_a_zone_that_ends_in_any_way_is_judged_and_remeasured_the_same(case: str) -> None:
    brake, throttle, event, reason = ENDED[case]

    done, _, last = played(on_pedal(brake), throttle)

    judged = judge_foot(ZONE, TASK, done)
    assert (last, judged.verdict.reason) == (event, reason)
    again = Remeasurer([ZONE]).measure(stored(done, reason))
    assert not isinstance(again, Unmeasured)
    assert again == dict(judged.verdict.measures)


def told(brakes: list[Values], throttle: Values) -> list[Judged]:
    """Verdicts on zones in a row that also judge the pedals."""
    history, found = DeviceHistory(), []
    for brake in brakes:
        done, opens, _ = played(brake, throttle)
        judged, history = judge_repetition(ZONE, TASK, done, opens, history)
        found.append(judged)
    return found


@pytest.mark.parametrize("at", [BEATS[0], BEATS[2], TURN_IN - 0.55])
def test_a_brake_that_freezes_on_its_way_in_a_zone_is_the_pedals_fault(at: float) -> None:
    brake = on_pedal(on_line())
    first = int(np.flatnonzero(between(at, 9.0))[0])
    brake[first:] = brake[first]

    assert told([brake], taps())[0].verdict.reason is Reason.NOT_MOVED


def test_a_foot_that_comes_to_rest_on_its_pedal_at_turn_in_is_judged_as_a_foot() -> None:
    brake = np.where(TIME > TURN_IN - 0.1, 8.0, on_pedal(on_line()))

    verdict = told([brake], taps())[0].verdict

    assert verdict.reason is Reason.OVER_LIMIT
    assert verdict.measures["off_at"] is None


def test_an_axis_is_at_its_end_under_the_peak_and_not_where_it_is_stamped_on() -> None:
    short = np.minimum(on_pedal(on_line()), PEAK - 8)
    stamp = lines((POINT + 0.1, 0.0), (POINT + 0.2, 30.0), (POINT + 0.4, 30.0), (POINT + 0.5, 0.0))
    stamped = np.minimum(on_pedal(on_line()) + stamp, 100.0)

    assert told([short] * 3, taps())[-1].verdict.reason is Reason.AT_END
    verdict = told([stamped] * 3, taps())[-1].verdict
    assert not verdict.void
    assert verdict.measures["peak_error"] == 100 - PEAK


def test_honest_zones_in_a_row_are_left_to_the_foot() -> None:
    verdicts = [one.verdict for one in told([on_pedal(on_line())] * 4, taps())]

    assert all(verdict.clean for verdict in verdicts)
