"""The squeeze, judged from made traces: verdict, sentence, bubble, figures and picture."""

import math
from dataclasses import dataclass, field, replace

import control
import numpy as np
import pytest

from drills.kinds import KINDS
from drills.level import Level
from drills.score import Reason
from tests.drills.kinds.agreement import contradictions, wrong_amount
from tests.drills.kinds.made import TIME, Made, bump, lines, made
from tests.drills.shapes import Values
from tests.made import BLIP

GRID = 0.001  # s
USUAL = {"overshoot": 10.0, "settle": 1.1, "offset": 5.0}
SQUEEZE = replace(
    BLIP, id="a-squeeze", kind=KINDS["squeeze"], limits=USUAL, band=5.0, own={"duration": 2.0}
)
THERE = ((0.25, 0.0), (0.45, 60.0))


@dataclass(frozen=True)
class Case:
    """One squeeze to 60 %, with its sentence, its verdict and its bubble."""

    name: str
    brake: Values
    said: str
    lean: float | None = 0.0
    over: tuple[str, ...] = ()
    reason: Reason = Reason.OVER_LIMIT
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))

    @property
    def made(self) -> Made:
        """The repetition."""
        return made(replace(SQUEEZE, limits=self.limits), self.brake)


def past(by: float, back: float = 0.7) -> Values:
    """A squeeze that goes past by some points and comes back."""
    return lines((0.25, 0.0), (0.45, 60.0 + by), (back, 60.0))


CASES = (
    Case(
        "straight there",
        lines(*THERE),
        "The brake settled in time. Go there in one move, and stay.",
        reason=Reason.CLEAN,
    ),
    Case(
        "a little past",
        past(6),
        "The brake went over its target, not too far. Slow down as the weight arrives.",
        reason=Reason.CLEAN,
    ),
    Case(
        "past as far as it may",
        past(14),
        "The brake went over its target, not too far. Slow down as the weight arrives.",
        reason=Reason.CLEAN,
        limits=USUAL | {"overshoot": 15.0},
    ),
    Case(
        "near enough",
        lines((0.25, 0.0), (0.45, 57.0)),
        "The brake ended a shade light, near enough. Feel for the full weight, then stay.",
        reason=Reason.CLEAN,
    ),
    Case(
        "about the target, where only the end is limited",
        lines(*THERE) + bump(-20, 1.0, 0.4),
        "The brake ended right on its target. The same again.",
        reason=Reason.CLEAN,
        limits={"offset": 5.0},
    ),
    Case(
        "past the target",
        past(15),
        "The brake went past its target. Aim for the weight, and stop as it comes.",
        1.0,
        ("overshoot",),
    ),
    Case(
        "a hair past it",
        past(10.3),
        "The brake went past its target. Aim for the weight, and stop as it comes.",
        1.0,
        ("overshoot",),
    ),
    Case(
        "short of it",
        lines((0.25, 0.0), (0.45, 40.0)),
        "The brake ended lighter than its target. Feel for the full weight, then stay.",
        -1.0,
        ("settle", "offset"),
    ),
    Case(
        "heavier than it",
        lines((0.25, 0.0), (0.45, 68.0)),
        "The brake ended heavier than its target. Stop at the weight, and add nothing.",
        1.0,
        ("settle", "offset"),
    ),
    Case(
        "short of it where only that it is steady is asked",
        lines((0.25, 0.0), (0.45, 50.0)),
        "The brake never settled: it ended too light. Feel for the full weight, then stay.",
        -1.0,
        ("settle",),
        limits={"settle": 1.1},
    ),
    Case(
        "creeping away from it at the end",
        lines(*THERE, (1.6, 60.0), (1.75, 69.0)),
        "The brake never settled: it ended too heavy. Stop at the weight, and add nothing.",
        1.0,
        ("settle",),
        limits={"settle": 1.1},
    ),
    Case(
        "swinging to the end",
        lines(*THERE) + np.where(TIME > 0.5, 9 * np.sin(2 * np.pi * 5 * TIME), 0.0),
        "The brake never settled. Squeeze once, then let the pedal be quiet.",
        None,
        ("settle",),
    ),
    Case(
        "a second thought",
        lines(*THERE) + bump(-9, 1.0, 0.4),
        "The brake was slow to settle. Squeeze once, then let the pedal be quiet.",
        None,
        ("settle",),
    ),
    Case(
        "slow to follow and so late to be steady",
        lines((1.0, 0.0), (1.2, 60.0)),
        "It settled late, as the squeeze began late. Let the cue press the pedal.",
        None,
        ("settle",),
    ),
    Case(
        "slow on and so late to be steady",
        lines((0.25, 0.0), (1.45, 60.0)),
        "It settled late, as the weight built slowly. One firm squeeze, no searching.",
        None,
        ("settle",),
    ),
    Case(
        "still coming at the end",
        lines((0.25, 0.0), (1.9, 60.0)),
        "The brake never settled. Squeeze once, then let the pedal be quiet.",
        None,
        ("settle",),
    ),
    Case(
        "slow to follow the cue",
        lines((0.6, 0.0), (0.8, 60.0)),
        "The squeeze was slow to follow the cue. Let the cue press the pedal.",
        0.0,
        ("reaction",),
        limits={"reaction": 0.4},
    ),
    Case(
        "slow on",
        lines((0.25, 0.0), (0.85, 60.0)),
        "The brake went on slowly. One firm squeeze, no searching.",
        0.0,
        ("rise",),
        limits={"rise": 0.3},
    ),
    Case(
        "never near",
        lines((0.25, 0.0), (0.45, 50.0)),
        "The brake stayed well short of its target. Press on until the weight is there.",
        -1.0,
        ("rise",),
        limits={"rise": 0.3},
    ),
    Case(
        "not pressed",
        lines((0.25, 0.0), (0.45, 5.9)),
        "The brake was not pressed. Let the cue press the pedal.",
        -1.0,
        ("settle", "offset"),
        Reason.NOT_PRESSED,
    ),
    Case(
        "with the cue",
        lines((0.05, 0.0), (0.25, 60.0)),
        "The brake came too soon to answer the cue. Wait for the cue.",
        None,
        reason=Reason.ANTICIPATION,
    ),
)
each = pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])


@each
def test_a_squeeze_is_judged_and_told_by_what_was_done(case: Case) -> None:
    verdict = case.made.verdict

    assert (verdict.reason, verdict.over) == (case.reason, case.over)
    assert case.made.said == case.said
    assert case.made.lean == case.lean


@each
def test_figures_picture_and_praise_agree_with_the_verdict(case: Case) -> None:
    one = case.made

    assert contradictions(one.level, one.verdict, one.picture) == []
    assert not wrong_amount(one.level, one.verdict, one.said)
    assert one.remark.topic.endswith(", clean") == one.verdict.clean
    if not one.verdict.void:
        assert any(figure.failed for figure in one.figures) != one.verdict.clean


def test_the_measures_are_those_that_were_put_in() -> None:
    # From 0 at 0.25 s to 60 at 0.45 s: 10, 90 % and the band at 55 by hand, to a grid step.
    measures = made(SQUEEZE, past(0)).verdict.measures

    assert measures["reaction"] == pytest.approx(0.25 + 0.02, abs=GRID)
    assert measures["rise"] == pytest.approx(0.16, abs=GRID)
    assert measures["settle"] == pytest.approx(0.25 + 0.2 * 55 / 60, abs=GRID)
    assert measures["overshoot"] == 0
    assert measures["offset"] == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize(
    ("damping", "frequency", "over", "peak", "rise", "five"),
    [
        # Ogata, Modern Control Engineering, and Nise, Control Systems Engineering (cases from
        # memory, values computed with control 0.10.2): % of the final value, and s.
        pytest.param(0.6, 5, 9.478022, 0.785398, 0.370810, 1.045811, id="Ogata"),
        pytest.param(0.75, 10, 2.837544, 0.474964, 0.228754, 0.312504, id="Nise"),
    ],
)
def test_a_second_order_squeeze_has_its_textbook_measures_and_those_of_a_control_library(
    damping: float, frequency: float, over: float, peak: float, rise: float, five: float
) -> None:
    begins, final = 0.2, 60.0
    system = control.tf([frequency**2], [1, 2 * damping * frequency, frequency**2])
    since = np.arange(3000) / 1000
    _, response = control.step_response(system, since)
    brake = np.interp(TIME - begins, since, final * response)
    asked: Level = replace(SQUEEZE, band=0.05 * final, own={"duration": 2.5})

    measures = made(asked, brake).verdict.measures

    info = control.step_info(final * response, since, yfinal=final, SettlingTimeThreshold=0.05)
    assert measures["overshoot"] == pytest.approx(final * over / 100, abs=0.01)
    assert measures["overshoot"] == pytest.approx(
        final * math.exp(-math.pi * damping / math.sqrt(1 - damping**2)), abs=0.01
    )
    assert measures["peak_time"] == pytest.approx(begins + peak, abs=GRID)
    assert measures["rise"] == pytest.approx(rise, abs=2 * GRID)
    assert measures["settle"] == pytest.approx(begins + five, abs=GRID)
    assert measures["settle"] == pytest.approx(begins + info["SettlingTime"], abs=GRID)


@pytest.mark.parametrize(("late", "reason"), [(99, Reason.ANTICIPATION), (100, Reason.CLEAN)])
def test_a_squeeze_under_a_tenth_of_a_second_is_an_anticipation(late: int, reason: Reason) -> None:
    # Under 0.100 s is a false start (World Athletics Technical Rules 16.6, read).
    brake = np.where(np.arange(TIME.size) >= 2000 + late, 60.0, 0.0)

    assert made(SQUEEZE, brake).verdict.reason is reason


def test_a_squeeze_that_falls_far_short_is_still_drawn() -> None:
    one = made(SQUEEZE, lines((0.25, 0.0), (0.45, 20.0)))

    picture = one.picture

    assert picture is not None
    assert picture.deviation[0] == pytest.approx(-40)
    assert contradictions(one.level, one.verdict, picture) == []


def test_one_that_was_not_pressed_has_no_picture() -> None:
    assert made(SQUEEZE, lines((0.0, 0.0))).picture is None


def test_every_way_a_squeeze_can_end_is_among_the_cases() -> None:
    assert {case.reason for case in CASES} == {
        *(Reason.CLEAN, Reason.OVER_LIMIT, Reason.NOT_PRESSED, Reason.ANTICIPATION)
    }
    assert {name for case in CASES for name in case.over} == set(KINDS["squeeze"].limitable)
