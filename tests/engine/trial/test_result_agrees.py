"""The result of a trial agrees with itself: lead sentence, large figure, table and picture."""

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.kit import theme
from engine.practice.blip_size import BLIP
from engine.trial.by_days_outcome import days_outcome
from engine.trial.by_days_words import days_texts
from engine.trial.difference import Difference
from engine.trial.difference_picture import STEADIER
from engine.trial.difference_rows import LEAST, DifferenceRow, reach_of
from engine.trial.outcome import NOTICEABLE, ArmCount, Finding, Outcome, outcome
from engine.trial.randomisation import order
from engine.trial.result_screens import TrialResult
from engine.trial.result_texts import ResultTexts
from engine.trial.trial import DAY_PAIRS, Arm
from engine.trial.words import result_texts
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded
from tests.engine.trial.made_up_days import SEED as DAYS_SEED
from tests.engine.trial.made_up_days import days
from tests.engine.trial.made_up_trials import SEED, one, trial
from tests.engine.trial.pictures import CLEAR, CLOSE, EQUAL, FAILED, SPLIT, UNCLEAR

LEAD = re.compile(r"([AB]) is steadier by ([\d.]+) points?, likely ([\d.]+) to ([\d.]+)\.")
ALIKE = re.compile(r"No difference you would notice: ([\d.]+) points? at most\.")
MIDDLES = st.tuples(st.floats(-9, 9), st.sampled_from((0.1, 0.6, 3.0)))
AROUND = st.lists(st.floats(-1, 1), min_size=8, max_size=8)
PEAKS = st.tuples(st.floats(40, 80), st.floats(40, 80)) | st.just((BLIP, BLIP))


def in_blocks(
    middle: float, spread: float, around: Sequence[float], peaks: tuple[float, float]
) -> tuple[Finding, ResultTexts]:
    """Finding and texts of a trial whose pairs differ by about so many points."""
    typical = {Arm.A: 20.0, Arm.B: 20.0 + middle}
    throttle = dict(zip(Arm, peaks, strict=True))
    tried = [
        one(block, dip + step / 2, peak=throttle[arm] + step)
        for block, arm in enumerate(order(SEED, 6))
        for dip in [typical[arm] + (spread * around[block // 2] if arm is Arm.B else 0.0)]
        for step in range(-2, 3)
    ]
    found = outcome(trial(tried, 6))
    return found.finding, result_texts(found, "ball", "toes")


def by_days(
    middle: float, spread: float, around: Sequence[float], peaks: tuple[float, float]
) -> tuple[Finding, ResultTexts]:
    """Finding and texts of a trial by days whose pairs differ by about so many tenths."""
    throttle = dict(zip(Arm, peaks, strict=True))
    more = [math.exp((middle + spread * each) / 10) for each in around]
    blips = days(
        lambda arm, pair: 8.0 * (more[pair] if arm is Arm.B else 1.0), lambda arm, _: throttle[arm]
    )
    found = days_outcome(blips, DAYS_SEED, DAY_PAIRS)
    return found.finding, days_texts(found, "ball", "toes")


@pytest.mark.parametrize("made", [in_blocks, by_days])
@settings(max_examples=150, deadline=None)
@given(MIDDLES, AROUND, PEAKS)
def test_lead_figure_table_and_picture_say_the_same(
    made: Callable[..., tuple[Finding, ResultTexts]],
    middle: tuple[float, float],
    around: Sequence[float],
    peaks: tuple[float, float],
) -> None:
    finding, texts = made(*middle, around, peaks)

    lead, row = LEAD.fullmatch(texts.lines[0]), texts.table[1]
    a, b, difference = map(float, row[1:4])
    low, high = map(float, row[4].split(" to "))
    assert abs(b - a - difference) < 1e-6
    assert low <= difference <= high
    assert (int(row[5].split(" of ")[0]) <= 5) == (low > 0 or high < 0)
    assert (lead is not None) == (texts.figure is not None) == (finding is Finding.STEADIER)
    if lead is not None and texts.figure is not None:
        signs = {"A": 1, "B": -1}[lead[1]]
        written = [float(number) for number in lead.groups()[1:]]
        assert texts.figure.value == lead[2]
        assert texts.figure.words.endswith(" steadier")
        assert difference * signs > 0
        assert written == [abs(difference), *sorted((abs(low), abs(high)))]
        assert 0 < written[1] <= written[0] <= written[2]
    drawn = texts.rows[0]
    tenth = 10.0 ** -len(row[3].partition(".")[2])
    ends = (drawn.value, drawn.low, drawn.high)
    for shown, told in zip(ends, (difference, high, low), strict=True):
        assert abs(shown + told) <= 0.51 * tenth
    if finding is Finding.NO_DIFFERENCE:
        assert (most := ALIKE.fullmatch(texts.lines[0])) is not None
        assert max(-drawn.low, drawn.high) <= float(most[1]) <= NOTICEABLE
    if finding is Finding.CANNOT_TELL:
        assert texts.lines[0].startswith("Cannot tell them apart")
        assert not all(is_sure(one) for one in texts.rows) or sides(texts.rows) == {"A", "B"}


def is_sure(row: DifferenceRow) -> bool:
    """Whether an interval lies on one side of 0."""
    return row.low > 0 or row.high < 0


def sides(rows: Sequence[DifferenceRow]) -> set[str]:
    """The arms on whose sides of the picture the dots lie."""
    return {"B" if row.value > 0 else "A" for row in rows}


def marks(canvas: RecordingCanvas, y: float) -> tuple[float, float, float]:
    """Left end, dot and right end of the interval drawn at a height, in canvas units."""
    [dot] = {centre[0] for centre, colour in canvas.discs if centre[1] == y and colour in COLOURS}
    [(start, end)] = [ends for ends in canvas.lines if ends[0][1] == ends[1][1] == y]
    return start[0], dot, end[0]


COLOURS = (theme.BRAKE, theme.QUIET)


@pytest.mark.parametrize("found", [CLEAR, CLOSE, EQUAL, SPLIT, UNCLEAR])
def test_the_picture_has_each_interval_on_its_arms_side_of_zero(found: Outcome) -> None:
    texts = result_texts(found, "ball", "toes")

    canvas = recorded(TrialResult(texts, curves=True))

    places = {text.text: text.ink for text in canvas.texts}
    middle = theme.WIDTH / 2
    assert places[STEADIER.format("A")].right < middle < places[STEADIER.format("B")].left
    unit = (middle - theme.MARGIN) / reach_of(texts.rows)
    band = (middle - NOTICEABLE * unit, middle + NOTICEABLE * unit)
    assert [
        box for box in canvas.boxes if (box.left, box.right) == pytest.approx(band, abs=1)
    ] != []
    heights = sorted({centre[1] for centre, colour in canvas.discs if colour in COLOURS})
    assert len(heights) == len(texts.rows)
    for y, row in zip(heights, texts.rows, strict=True):
        drawn = [(x - middle) / unit for x in marks(canvas, y)]
        assert drawn == pytest.approx([row.low, row.value, row.high])


def test_a_trial_that_mostly_failed_draws_no_difference() -> None:
    texts = result_texts(FAILED, "ball", "toes")

    assert FAILED.counts[1] == ArmCount(81, 1, 14, 35)
    assert (texts.rows, texts.figure) == ((), None)
    assert texts.lines[0] == "Cannot tell them apart: 32 of 81 done as asked with B."
    assert texts.counts == (
        ("Counted", "80", "81"),
        ("Left after the cue", "0", "14"),
        ("Not as asked", "0", "35"),
        ("Not judged, repeated", "0", "1"),
    )


@given(st.lists(st.tuples(st.floats(-40, 40), st.floats(0, 20)), min_size=1, max_size=2))
def test_all_intervals_and_the_band_fit_on_the_scale(ends: list[tuple[float, float]]) -> None:
    rows = [DifferenceRow("dips", at, at - half, at + half) for at, half in ends]

    reach = reach_of(rows)

    assert reach >= LEAST > NOTICEABLE
    assert all(max(-row.low, row.high) <= reach + 1e-9 for row in rows)
    # Not so wide that the intervals become dots.
    assert reach <= 2 * max(LEAST, *(max(-row.low, row.high) for row in rows))


def test_small_differences_leave_room_beside_what_is_noticed() -> None:
    assert reach_of([DifferenceRow("dips", 0.2, -1.0, 1.3)]) == 4.0
    assert reach_of([DifferenceRow("dips", -4.0, -7.2, -1.1)]) == 8.0


def test_the_scale_has_points_to_either_side_without_a_sign() -> None:
    canvas = recorded(TrialResult(result_texts(CLEAR, "ball", "toes"), curves=True))

    scale = [text.text for text in canvas.texts if re.fullmatch(r"-?[\d.]+( points)?", text.text)]
    assert scale == ["4", *"8642", *"0246", "8 points"]


def test_blips_of_unknown_size_draw_no_difference() -> None:
    unknown = replace(SPLIT, blips=replace(SPLIT.blips, scaled=Difference("dip", None, None, None)))

    texts = result_texts(unknown, "ball", "toes")

    assert texts.lines[0] == "Cannot tell them apart: the size of the blips is not known."
    assert texts.rows == ()


def test_dips_that_only_scaling_makes_noticeable_are_drawn_both_ways() -> None:
    scaled = replace(EQUAL.dip, low=-3.4, high=2.6)
    found = replace(EQUAL, finding=Finding.CANNOT_TELL, blips=replace(EQUAL.blips, scaled=scaled))

    texts = result_texts(found, "ball", "toes")

    assert texts.lines == (
        "Cannot tell them apart.",
        "B may be up to 3 points steadier, A up to 3. That is at blips of 60 %.",
    )
    assert [row.label for row in texts.rows] == ["dips as played", "dips at blips of 60 %"]
    assert (texts.rows[1].low, texts.rows[1].high) == (-2.6, 3.4)
