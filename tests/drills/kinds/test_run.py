"""The run, judged from made traces: verdict, bubble, figures, picture, and exact intervals."""

import math
from dataclasses import replace

import pytest

from drills.kinds import KINDS
from drills.score import Reason, Verdict
from drills.trace import Trace
from tests.drills.kinds.agreement import contradictions, drawn, is_crossed
from tests.drills.kinds.made import CUE, bump, lines, made, square
from tests.drills.kinds.run_case import FIRST, HELD, ON_TIME, RUN, run_of
from tests.drills.kinds.run_cases import CASES

GRID = 0.001  # s


def test_the_measures_are_those_that_were_put_in() -> None:
    brake = lines((0, 60.0)) + bump(-8, 1.85) + bump(-12, 2.65) + bump(-3, 3.45) + bump(4, 3.9)

    measures = run_of((0.23, 0.28, 0.20), brake).verdict.measures

    assert [measures[f"dip_{place}"] for place in (1, 2, 3)] == pytest.approx([8, 12, 3], abs=0.01)
    assert measures["dip"] == pytest.approx(12, abs=0.01)
    assert measures["mean_dip"] == pytest.approx(23 / 3, abs=0.01)
    assert measures["surge"] == pytest.approx(4, abs=0.01)
    assert [measures[f"lateness_{place}"] for place in (1, 2, 3)] == pytest.approx(
        [0.23, 0.28, 0.20], abs=GRID
    )
    assert measures["lateness"] == pytest.approx(0.28, abs=GRID)
    # Intervals of 0.85 and 0.72 s at a tempo of 0.8, by hand.
    assert measures["spacing_error"] == pytest.approx(math.sqrt((0.05**2 + 0.08**2) / 2), abs=GRID)


@pytest.mark.parametrize(
    ("late", "error"),
    [
        pytest.param((0.1, 0.1, 0.1), 0.0, id="late by the same everywhere"),
        pytest.param((0.0, 0.03, -0.01), 0.05 / math.sqrt(2), id="0.03 long, 0.04 short"),
        pytest.param((0.0, 0.1, 0.2), 0.1, id="even, at another tempo"),
    ],
)
def test_the_tempo_is_held_against_exact_intervals(late: tuple[float, ...], error: float) -> None:
    # Root mean square of interval - tempo, by hand.
    assert run_of(late).verdict.measures["spacing_error"] == pytest.approx(error, abs=1e-9)


def test_a_run_is_held_against_what_was_held_before_the_first_blip() -> None:
    brake = lines((1.7, 60.0), (1.8, 60.0), (2.0, 55.0))

    measures = run_of((0.2, 0.2, 0.2), brake).verdict.measures

    assert measures["base"] == pytest.approx(60, abs=0.01)
    assert (measures["dip_3"], measures["offset"]) == (5, -5)


def test_the_width_of_a_run_is_that_of_its_widest_blip() -> None:
    brake = lines((0, 60.0)) + bump(-12, 1.8)

    verdict = run_of((0.2, 0.2, 0.2), brake, lengths=(0.1, 0.3, 0.1)).verdict

    assert verdict.measures["width"] == pytest.approx(0.3, abs=GRID)


@pytest.mark.parametrize(("late", "reason"), [(0.4, Reason.CLEAN), (0.401, Reason.OFF_BEAT)])
def test_a_blip_nearer_to_another_beat_is_off_it(late: float, reason: Reason) -> None:
    assert run_of((0.2, 0.2, late)).verdict.reason is reason


def test_coming_back_over_between_two_blips_is_drawn_where_it_is_judged() -> None:
    asked = replace(RUN, limits={"rebound": 5.0})
    brake = lines((0, 60.0)) + bump(-8, 1.8) + bump(8, 2.05)

    one = run_of((0.2, 0.2, 0.2), brake, asked=asked)

    assert one.picture is not None
    assert one.verdict.over == ("rebound",)
    assert is_crossed(one.picture, "rebound", drawn(one.picture)["rebound"])
    worst, decides = one.picture.worst, one.picture.decides
    assert worst is not None
    assert decides is not None
    assert decides.during[0] <= worst.at < decides.during[1]
    assert worst.at == pytest.approx(2.15 - FIRST, abs=0.02)


def test_a_brake_that_moves_between_the_windows_of_slow_blips_crosses_no_limit() -> None:
    asked = replace(RUN, own={**RUN.own, "tempo": 1.6, "blips.least": 2.0, "blips.most": 2.0})
    brake = lines((0, 60.0)) + bump(-20, 4.42, 0.05)

    one = run_of((0.0, 0.0), brake, asked=asked)

    assert one.verdict.clean
    assert contradictions(one.level, one.verdict, one.picture) == []
    assert one.picture is not None
    assert len(drawn(one.picture)["dip"]) == 2


def test_coming_back_over_after_the_foot_was_off_the_brake_is_not_drawn_as_judged() -> None:
    brake = lines((1.95, 60.0), (1.96, 0.0), (2.05, 0.0), (2.15, 90.0), (2.25, 60.0))

    one = run_of(ON_TIME, brake)

    assert one.verdict.over == ("dip",)
    assert contradictions(one.level, one.verdict, one.picture) == []


def test_the_cues_that_never_came_are_where_they_would_have_been() -> None:
    one = run_of((0.2,), given=3)

    assert one.picture is not None
    assert one.picture.cues == pytest.approx((-0.2, 0.6, 1.4), abs=GRID)


def test_every_way_a_run_can_end_is_among_the_cases() -> None:
    assert {case.reason for case in CASES} == {
        *(Reason.CLEAN, Reason.OVER_LIMIT, Reason.LET_GO, Reason.OFF_TARGET),
        *(Reason.NO_BLIP, Reason.FEW_BLIPS, Reason.EXTRA_BLIP, Reason.OFF_BEAT),
        *(Reason.LIGHT, Reason.HEAVY, Reason.LONG, Reason.SHORT),
    }
    assert {case.made.verdict.worst for case in CASES if case.made.verdict.over} == set(
        KINDS["run"].limitable
    ) - {"shift_at"}


def test_a_run_with_too_little_held_brake_before_it_is_not_scored() -> None:
    whole = run_of(ON_TIME)
    begins = round(1000 * (CUE + FIRST)) - 150
    trace = whole.done.trace
    cut = Trace(trace.time[begins:], trace.brake[begins:], trace.throttle[begins:])

    verdict = RUN.kind.judge(RUN, whole.task, replace(whole.done, trace=cut)).verdict

    assert verdict == Verdict(Reason.NOT_SCORED, 0.0)
    assert RUN.kind.missed(RUN, verdict) is not None


def test_a_throttle_that_was_not_at_rest_before_the_first_blip_stayed_on_too_long() -> None:
    throttle = square(1.6, 1.2, 60.0) + square(2.95, 0.1, 20.0)

    one = made(RUN, HELD, throttle)

    assert one.verdict == Verdict(Reason.LONG, 0.0)
    assert one.said.startswith("The throttle stayed on too long")
