"""Easing off, judged from made traces and closed forms: words, bubble, figures and picture."""

import math
from dataclasses import replace

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.score import Reason
from tests.drills.kinds.agreement import contradictions
from tests.drills.kinds.made import TIME, bump, lines
from tests.drills.kinds.trail_case import DOWN, EASE, STARTS, TRAIL, asks, way_of
from tests.drills.kinds.trail_cases import CASES, ONE, TWO
from tests.drills.kinds.trail_faults import FAULTS

WIDE = replace(TRAIL, tolerance=15.0, band=15.0)
"""A way down that may be held far from its target."""
GRID = 0.001  # s
STEEP = 60 / EASE * GRID
"""points that the exact ramp falls in a grid step."""


def test_an_exact_ramp_is_off_by_nothing() -> None:
    # The foot is seen to begin 3 points under what was held, and the ramp goes on from there.
    b0 = 60.0

    one = way_of(DOWN)

    measures = one.verdict.measures
    assert measures["base"] == pytest.approx(b0)
    assert measures["release_start"] == pytest.approx(STARTS + 3 * EASE / b0, abs=2 * GRID)
    assert measures["release_time"] == pytest.approx(EASE * (b0 - 3 - 5) / b0, abs=2 * GRID)
    assert measures["ramp_worst"] == pytest.approx(0, abs=STEEP)
    assert measures["ramp_error"] == pytest.approx(0, abs=STEEP)
    assert measures["reversals"] == 0
    assert one.verdict.score == pytest.approx(100, abs=0.1)
    assert one.picture is not None
    assert one.picture.deviation == pytest.approx(0, abs=STEEP)


@pytest.mark.parametrize("pace", [0.8, 1.05, 1.4])
def test_a_ramp_of_another_pace_is_drawn_as_far_off_as_it_is_measured(pace: float) -> None:
    one = way_of(lines((STARTS, 60.0), (STARTS + pace * EASE, 0.0)))

    picture, worst = one.picture, one.verdict.measures["ramp_worst"]

    # From 57 % on, what is left of the ramp or of the brake when the other is at nothing.
    assert worst == pytest.approx(57 * (1 - min(pace, 1 / pace)), abs=2 * STEEP / pace)
    assert picture is not None
    [bound] = picture.bounds
    first, last = bound.during
    assert last - first == pytest.approx(57 / 60 * EASE, abs=2 * GRID)
    inside = (picture.time >= first - GRID / 2) & (picture.time < last - GRID / 2)
    assert np.abs(picture.deviation[inside]).max() == pytest.approx(worst)


def test_a_foot_that_presses_more_than_was_asked_is_shown_to_the_end_of_its_ramp() -> None:
    one = way_of(lines((STARTS, 74.0), (STARTS + 74 / 60 * EASE, 0.0)), asked=WIDE)

    assert one.verdict.clean
    assert one.picture is not None
    assert one.picture.span[1] >= STARTS + 74 / 60 * EASE


@pytest.mark.parametrize("depth", [4.0, 9.0, 18.0])
@pytest.mark.parametrize("at", [0.0, 0.03, -0.05])
def test_a_half_sine_on_an_exact_ramp_dips_by_its_depth_under_the_chord(
    depth: float, at: float
) -> None:
    # The chord of a straight way down is that way, half a grid step late: a mean over a window
    # lies half a step before the middle of it. So the dip is the depth and half a step's fall.
    asked = asks(1, limits={"dip": 40.0})

    measures = way_of(DOWN + bump(-depth, ONE + at), (ONE,), asked).verdict.measures

    assert measures["dip"] == pytest.approx(depth + STEEP / 2, abs=0.01)
    assert measures["surge"] == pytest.approx(0, abs=STEEP)
    # The integral of a half sine of length L is 2 depth L / pi (closed form).
    assert measures["shortfall"] == pytest.approx(2 * depth * 0.2 / math.pi, abs=0.02)


def test_a_blip_that_is_not_scored_leaves_the_dip_of_the_next_in_its_place() -> None:
    again = ONE + 0.25
    measures = way_of(DOWN + bump(-9, again), (ONE, again), asks(2)).verdict.measures

    assert measures["dip_1"] is None
    assert measures["dip_2"] == measures["dip"] == pytest.approx(9 + STEEP / 2, abs=0.01)


def test_each_of_two_blips_has_its_own_dip_and_its_click() -> None:
    brake = DOWN + bump(-4, ONE) + bump(-9, TWO)
    asked = asks(2)

    measures = way_of(brake, (ONE, TWO), asked).verdict.measures

    assert measures["dip_1"] == pytest.approx(4 + STEEP / 2, abs=0.01)
    assert measures["dip_2"] == pytest.approx(9 + STEEP / 2, abs=0.01)
    assert measures["mean_dip"] == pytest.approx(6.5 + STEEP / 2, abs=0.01)
    # The clicks come after 0.25 and 0.6 of the fall: 0.625 and 1.5 s.
    assert measures["lateness"] == pytest.approx(ONE - 0.625, abs=GRID)


def test_what_a_blip_takes_is_left_out_of_the_ramp() -> None:
    without, with_blip = way_of(DOWN), way_of(DOWN + bump(-30, ONE), (ONE,), asks(1))

    for name in ("ramp_worst", "ramp_error", "release_start"):
        expected = pytest.approx(without.verdict.measures[name], abs=1e-9)
        assert with_blip.verdict.measures[name] == expected


@pytest.mark.parametrize("every", [1, 4, 16])
def test_a_brake_that_is_off_too_early_is_told_so_however_seldom_it_reports(every: int) -> None:
    brake = lines((STARTS, 60.0), (STARTS + 0.05, 40.0), (STARTS + 1.0, 0.0))
    seldom = np.repeat(brake[::every], every)[: brake.size]

    assert way_of(seldom).said == "The brake was off too early. Come down as slowly as the tone."


@pytest.mark.parametrize("late", [0.1, 0.4, 1.3])
def test_a_late_start_alone_is_no_fault(late: float) -> None:
    one = way_of(lines((late, 60.0), (late + EASE, 0.0)))

    assert one.verdict.clean
    assert one.verdict.measures["release_start"] == pytest.approx(late + 0.05 * EASE, abs=2 * GRID)


def test_a_start_with_the_cue_takes_a_little_from_what_was_held() -> None:
    # A fifth of the base's window is at 60 % less what comes off in 0.1 s, on average half of it.
    base = 60 - 0.2 * 0.1 * 60 / EASE / 2

    measures = way_of(lines((0.0, 60.0), (EASE, 0.0))).verdict.measures

    assert measures["base"] == pytest.approx(base, abs=STEEP)
    assert measures["release_start"] == pytest.approx((63 - base) * EASE / 60, abs=2 * GRID)
    assert measures["ramp_worst"] == pytest.approx(0, abs=STEEP)


def test_a_way_down_that_began_late_is_shown_to_its_end() -> None:
    brake = lines((1.3, 60.0), (1.3 + 3.0, 20.0), (1.3 + 3.01, 0.0))

    one = way_of(brake)

    assert "ramp_worst" in one.verdict.over
    assert one.picture is not None
    assert one.picture.span[1] > 1.3 + EASE
    assert contradictions(one.level, one.verdict, one.picture) == []


@pytest.mark.parametrize("seed", range(12))
def test_any_way_down_crosses_the_limits_that_it_is_over_and_no_other(seed: int) -> None:
    rng = np.random.default_rng(seed)
    brake = lines((STARTS, 60.0), (STARTS + rng.uniform(1.8, 3.5), 0.0))
    sway = rng.uniform(0, 8) * np.sin(2 * np.pi * rng.uniform(0.3, 1.5) * TIME)
    brake = brake + np.where(TIME > 0, sway, 0.0) * (brake > 0)
    blips = int(rng.integers(0, 3))
    at = [ONE + rng.uniform(-0.4, 0.2), TWO + rng.uniform(-0.2, 0.6)][:blips]
    for one in at:
        brake = brake + bump(-rng.uniform(0, 20), one + rng.uniform(-0.1, 0.3))

    shown = way_of(brake, at, asks(blips))

    assert contradictions(shown.level, shown.verdict, shown.picture) == [], f"seed {seed}"


@pytest.mark.parametrize("seed", range(6))
def test_a_foot_that_rolls_early_crosses_the_limits_that_it_is_over_and_no_other(seed: int) -> None:
    rng = np.random.default_rng(100 + seed)
    at = [ONE, TWO][: 1 + seed % 2]
    brake = lines((STARTS, 60.0), (STARTS + rng.uniform(2.3, 2.7), 0.0))
    for one in at:
        brake = brake + bump(-rng.uniform(9, 14), one - rng.uniform(0.2, 0.3), 0.5)

    shown = way_of(brake, at, asks(len(at)))

    assert shown.verdict.amount("early") > 5
    assert contradictions(shown.level, shown.verdict, shown.picture) == []


def test_the_deepest_blip_says_how_early_the_brake_left_and_what_was_meant() -> None:
    # On a straight way down of 24 points/s a bump of 12 half a second long, begun 0.25 s before the
    # throttle, is 12 sin(0.3 pi) deep 0.1 s before it; the way itself falls on by what is meant.
    early = way_of(DOWN + bump(-12, ONE - 0.25, 0.5), (ONE,), asks(1)).verdict.measures
    prompt = way_of(DOWN + bump(-12, ONE), (ONE,), asks(1)).verdict.measures

    assert early["early"] == pytest.approx(12 * math.sin(0.3 * math.pi), abs=0.5)
    assert early["dip"] == pytest.approx(12, abs=0.5)
    assert prompt["early"] == pytest.approx(0, abs=0.1)
    # From the middle of one window, 0.1 s before the onset, to that of the other, 0.275 s after the
    # end of a pulse of 0.2 s.
    assert prompt["carry"] == pytest.approx(-24 * (0.1 + 0.2 + 0.275), abs=0.1)


def test_every_way_to_end_is_among_the_cases() -> None:
    verdicts = [case.made.verdict for case in (*CASES, *FAULTS)]

    assert {verdict.reason for verdict in verdicts} == {
        *(Reason.CLEAN, Reason.OVER_LIMIT, Reason.LET_GO, Reason.OFF_TARGET, Reason.NOT_EASED),
        *(Reason.NO_BLIP, Reason.FEW_BLIPS, Reason.EXTRA_BLIP, Reason.CUT_SHORT),
        *(Reason.NOT_SCORED, Reason.LIGHT, Reason.HEAVY, Reason.LONG),
        Reason.SHORT,
    }
    assert {one.worst for one in verdicts if one.over} == set(KINDS["trail"].limitable)


def test_a_level_without_blips_leaves_its_other_limits_as_they_are() -> None:
    asked = replace(TRAIL, limits={"dip": 1.0, "ramp_worst": 1.0})

    verdict = way_of(lines((STARTS, 60.0), (STARTS + 3.0, 0.0)), asked=asked).verdict

    assert verdict.over == ("ramp_worst",)
