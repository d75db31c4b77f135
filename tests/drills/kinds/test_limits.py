"""Values on their very limit: what is asked is still done, and a hair beyond it is not."""

import math
from dataclasses import replace

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.kinds.trail import EASIEST
from drills.level import Level
from drills.score import Reason, Verdict, unjudged
from drills.task import Performance
from drills.trace import Trace
from tests.drills.kinds.made import TIME, Made, bump, lines, made
from tests.drills.kinds.trail_case import DOWN, EASE, TRAIL, asks, way_of
from tests.drills.kinds.trail_cases import ONE, TWO
from tests.drills.shapes import Values
from tests.made import HOLD

UNEVEN = 61 + 0.7 * np.sin(2 * np.pi * 9.5 * TIME) + 0.3 * TIME
"""A brake with something of every fault of a hold."""
BUMPY = lines((0.3, 61.0), (0.3 + EASE, 0.0)) + (
    bump(-6, ONE) + bump(5, ONE + 0.12) + bump(-4, TWO) + bump(9, 0.6)
)
"""A way down with something of every fault of one, for two blips."""


def of_kind(name: str) -> Made:
    """A repetition with a fault in everything that its level may limit."""
    if name == "hold":
        return made(HOLD, UNEVEN)
    return way_of(BUMPY, (ONE, TWO), asks(2))


def judged(one: Made, **limits: float) -> Verdict:
    """The verdict on a repetition under other limits."""
    return replace(one, level=replace(one.level, limits=limits)).verdict


@pytest.mark.parametrize(
    ("kind", "name"),
    [(kind, name) for kind in ("hold", "trail") for name in KINDS[kind].limitable],
)
def test_a_value_on_its_limit_is_clean_and_one_beyond_it_is_not(kind: str, name: str) -> None:
    one = of_kind(kind)
    value = one.verdict.measures[name]
    assert value
    limit = abs(value)

    on, beyond = judged(one, **{name: limit}), judged(one, **{name: math.nextafter(limit, 0)})

    assert (on.reason, on.score) == (Reason.CLEAN, 50.0)
    assert (beyond.reason, beyond.over) == (Reason.OVER_LIMIT, (name,))


@pytest.mark.parametrize(("least", "let_go"), [(5.0, False), (math.nextafter(5.0, 0), True)])
def test_a_brake_is_let_go_under_5_percent(least: float, let_go: bool) -> None:
    one = made(HOLD, np.where((TIME > 1.0) & (TIME < 1.1), least, 60.0))

    assert (replace(one, done=replace(one.done, began=2 * 10**9)).verdict.reason) is (
        Reason.LET_GO if let_go else Reason.OVER_LIMIT
    )


@pytest.mark.parametrize(("off", "reason"), [(5.0, Reason.CLEAN), (5.01, Reason.OFF_TARGET)])
def test_a_way_down_begins_within_the_band_of_the_target(off: float, reason: Reason) -> None:
    brake = lines((0.3, 60.0 + off), (0.3 + EASE, 0.0))

    assert judged(way_of(brake), ramp_worst=10.0).reason is reason


@pytest.mark.parametrize("blips", [0, 1, 2])
def test_a_way_down_may_be_as_short_as_its_blips_leave_time_for(blips: int) -> None:
    def level(ease: float) -> Level:
        return replace(TRAIL, limits={"ramp_worst": 9.0}, own={"ease": ease, "blips": float(blips)})

    kind, shortest = TRAIL.kind, EASIEST[blips]

    assert kind.wrong(level(shortest)) is None
    wrong = kind.wrong(level(math.nextafter(shortest, 0)))
    assert wrong is not None
    assert wrong[0] == "ease"


def test_a_way_down_is_drawn_with_a_mark_for_each_cue() -> None:
    picture = way_of(DOWN, (ONE, TWO), asks(2)).picture

    assert picture is not None
    # The tone begins to fall at 0; the clicks come after 0.25 and 0.6 of 2.5 s.
    assert picture.cues == (0.0, 0.625, 1.5)


def test_a_way_down_that_did_not_wait_is_drawn_with_a_mark_where_its_cue_was_due() -> None:
    one = way_of(DOWN, (ONE,), asks(1))
    ends = round(one.task.wait * 1000) - 100
    whole = one.done.trace
    trace = Trace(whole.time[:ends], whole.brake[:ends], whole.throttle[:ends])

    early = unjudged(Reason.ANTICIPATION, one.task, Performance(trace, 0))
    picture = one.level.kind.picture(one.level, early)

    assert picture is not None
    assert picture.cues == (0.0,)
    # The wait is rounded to a sample, and the grid begins up to a step later.
    assert picture.time[-1] == pytest.approx(-0.1, abs=0.0016)
    assert (picture.zero, picture.bounds) == ("target", ())


@pytest.mark.parametrize(
    ("brake", "limits", "lean"),
    [
        (60 + 0 * TIME, {"total_error": 3.0}, 0.0),
        (60 + 2 * TIME, {"total_error": 1.0}, 1.0),
        (60 - 2 * TIME, {"total_error": 1.0}, -1.0),
        (66 + 0 * TIME, {"constant_error": 3.0}, 1.0),
        (54 + 0 * TIME, {"constant_error": 3.0}, -1.0),
        (60 + 4 * np.sin(2 * np.pi * 4 * TIME), {"swing": 3.0}, None),
    ],
    ids=["still", "drifts up", "drifts down", "too heavy", "too light", "both ways"],
)
def test_a_hold_leans_the_way_it_drifted_or_the_side_it_stayed_on(
    brake: Values, limits: dict[str, float], lean: float | None
) -> None:
    one = made(HOLD, brake)

    assert replace(one, level=replace(one.level, limits=limits)).lean == lean
