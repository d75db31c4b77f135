"""A level that asks for one size of blip: a blip of another size is void, and told what it was."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds.asked_size import SIZE, peaks_asked, with_size
from drills.level import Level
from drills.score import Reason, Verdict
from tests.drills.kinds.clutch_cases import CLUTCH
from tests.drills.kinds.made import Made, lines, made, square
from tests.drills.kinds.run_case import RUN
from tests.drills.kinds.trail_case import DOWN, asks
from tests.drills.shapes import Values
from tests.made import BLIP, HOLD

CLICKS = (1.2, 1.8)
"""s from the cue to ease off, onsets of two blips on the way down."""
BEATS = (1.8, 2.6, 3.4)
"""s from the first beat of a run, onsets of its three blips."""
ONE = with_size(BLIP, 60.0)
THREE = with_size(RUN, 60.0)
TWO = with_size(asks(2), 60.0)
SHIFT = with_size(CLUTCH, 60.0)

Play = Callable[..., Made]
"""Makes a repetition from the peaks of its blips in %, and from a level in place of the usual."""


def blip(peaks: Sequence[float], asked: Level = ONE) -> Made:
    """A blip 0.3 s after the cue; another peak is another blip 0.6 s later."""
    return made(asked, lines((0, 60.0)), stabs((0.3, 0.9), peaks))


def run(peaks: Sequence[float], asked: Level = THREE) -> Made:
    """A run of three."""
    return made(asked, lines((0, 60.0)), stabs(BEATS, peaks))


def trail(peaks: Sequence[float], asked: Level = TWO) -> Made:
    """An easing off with blips on it."""
    return made(asked, DOWN, stabs(CLICKS, peaks))


def shift(peaks: Sequence[float], asked: Level = SHIFT) -> Made:
    """A shift."""
    throttle = stabs((0.45,), peaks)
    return made(asked, lines((0, 60.0)), throttle, square(0.3, 0.5, 100.0))


def stabs(onsets: Sequence[float], peaks: Sequence[float]) -> Values:
    """Throttle with a pulse at each onset."""
    pulses = [square(at, 0.2, peak) for at, peak in zip(onsets, peaks, strict=False)]
    return sum(pulses[1:], start=pulses[0])


KINDS_OF_BLIP = [(blip, 1), (run, 3), (trail, 2), (shift, 1)]
every_kind = pytest.mark.parametrize(
    ("play", "count"), KINDS_OF_BLIP, ids=["blip", "run", "trail", "clutch"]
)


@every_kind
@pytest.mark.parametrize("peak", [40.0, 60.0, 80.0])
def test_blips_of_the_size_asked_count(play: Play, count: int, peak: float) -> None:
    one = play([peak] * count)

    assert one.verdict.reason is Reason.CLEAN


@every_kind
@pytest.mark.parametrize("peak", [15.0, 39.9, 80.1, 100.0])
@pytest.mark.parametrize("place", [0, -1])
def test_each_blip_has_to_be_of_the_size_asked(
    play: Play, count: int, peak: float, place: int
) -> None:
    peaks = [60.0] * count
    peaks[place] = peak

    verdict = play(peaks).verdict

    assert verdict == Verdict(Reason.OFF_SIZE, None, measures={"peak": peak})
    assert verdict.void


@pytest.mark.parametrize(
    ("one", "said"),
    [
        (blip([92.0]), "The blip reached 92 %, not 60. 40 to 80 counts: once more."),
        (shift([31.0]), "The blip reached 31 %, not 60. 40 to 80 counts: once more."),
        (run([60.0, 95.0, 82.0]), "A blip reached 95 %, not 60. 40 to 80 counts: once more."),
        (trail([38.0, 60.0]), "A blip reached 38 %, not 60. 40 to 80 counts: once more."),
        (blip([80.04]), "The blip reached 80.04 %, not 60. 40 to 80 counts: once more."),
        (
            blip([70.0], with_size(BLIP, 95.0)),
            "The blip reached 70 %, not 95. 75 to 100 counts: once more.",
        ),
        (
            blip([41.0], with_size(BLIP, 20.0)),
            "The blip reached 41 %, not 20. 15 to 40 counts: once more.",
        ),
    ],
)
def test_it_is_told_what_a_blip_reached(one: Made, said: str) -> None:
    assert one.said == said


@pytest.mark.parametrize(
    ("one", "then"),
    [
        (blip([60.0]), "Dark, then the cue: one blip to 60 %"),
        (run([60.0] * 3), "Dark, 2 knocks, then 3 clicks 0.8 s apart: blip to 60 % on each"),
        (
            trail([60.0], with_size(asks(1), 60.0)),
            "Dark, then ease off with the tone, 2.5 s, one blip to 60 % at the click",
        ),
        (
            trail([60.0] * 2),
            "Dark, then ease off with the tone, 2.5 s, a blip to 60 % at each click",
        ),
        (shift([60.0]), "Dark, cue: clutch down, one blip to 60 %, clutch up"),
    ],
)
def test_the_prompt_names_the_size(one: Made, then: str) -> None:
    assert one.level.kind.prompt(one.level, one.task).then == then
    assert one.task.size == 60.0


@every_kind
def test_without_a_size_any_blip_in_the_range_of_the_level_counts(play: Play, count: int) -> None:
    asked = with_size(play([60.0] * count).level, 0.0)

    one = play([95.0] * count, asked)

    assert one.verdict.reason is Reason.CLEAN
    assert one.task.size == 0.0
    assert " to 0" not in one.level.kind.prompt(one.level, one.task).then


@every_kind
@pytest.mark.parametrize(
    ("peak", "reason"), [(14.9, Reason.OFF_SIZE), (10.0, Reason.OFF_SIZE), (9.9, Reason.NO_BLIP)]
)
def test_a_tap_is_off_size_and_a_foot_that_does_not_answer_is_not(
    play: Play, count: int, peak: float, reason: Reason
) -> None:
    verdict = play([peak] * count).verdict

    assert verdict.reason is reason
    assert verdict.void == (reason is Reason.OFF_SIZE)


def test_a_blip_too_many_is_told_as_that_whatever_its_size() -> None:
    assert blip([60.0, 20.0]).verdict.reason is Reason.EXTRA_BLIP


def test_a_blip_too_few_is_told_as_that_where_the_others_are_of_the_size() -> None:
    assert run([60.0, 60.0]).verdict.reason is Reason.FEW_BLIPS
    assert run([60.0, 90.0]).verdict.reason is Reason.OFF_SIZE


def test_a_blip_where_none_is_asked_has_no_size() -> None:
    one = trail([90.0], with_size(asks(0, limits={"ramp_worst": 12.0}), 60.0))

    assert one.verdict.reason is Reason.EXTRA_BLIP
    assert one.task.size == 0.0


def test_off_size_goes_before_what_else_was_wrong() -> None:
    heavy = made(ONE, lines((0, 90.0)), square(0.3, 0.2, 90.0))
    soon = made(ONE, lines((0, 60.0)), square(0.05, 0.2, 90.0))

    assert heavy.verdict.reason is Reason.OFF_SIZE
    assert soon.verdict.reason is Reason.OFF_SIZE


def test_a_void_repetition_shows_where_the_brake_was_and_no_measured_blip() -> None:
    picture = blip([90.0]).picture

    assert picture is not None
    assert not picture.is_measured


@given(size=st.floats(20.0, 95.0), peak=st.floats(15.0, 100.0))
def test_a_blip_counts_within_twenty_points_of_any_size(size: float, peak: float) -> None:
    one = blip([peak], with_size(BLIP, size))

    assert (one.verdict.reason is Reason.OFF_SIZE) == (abs(peak - size) > 20.0)
    least, most = peaks_asked(one.level)
    assert 15.0 <= least < size < most <= 100.0


@pytest.mark.parametrize("level", [BLIP, RUN, asks(2), CLUTCH], ids=lambda level: level.kind.name)
def test_any_level_with_blips_can_be_given_a_size_and_keeps_all_else(level: Level) -> None:
    sized = with_size(level, 45.0)

    assert sized.own == {**level.own, SIZE: 45.0}
    assert replace(sized, own=level.own) == level


def test_a_level_without_blips_is_left_as_it_is() -> None:
    assert with_size(HOLD, 60.0) is HOLD
