"""The reveal: its figures, the direction of its picture and its bubble, and its outcomes."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.deviation import Bound, Deviation
from drills.measures.catalogue import CATALOGUE
from drills.measures.jumps import Jump
from drills.measures.sampling import Sampling
from drills.score import Reason, Verdict
from drills.trace import Pedal
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_figures import figures
from engine.kit import deviation_plot, theme
from engine.kit.base import Place
from engine.kit.canvas import Fonts
from engine.kit.deciding_lines import DOT
from engine.kit.deviation_frame import BELOW
from engine.kit.figures import Figure
from engine.kit.timed_screen import TimedOutcome
from engine.kit.widgets import level as spirit_level
from engine.stage.actions import Action
from tests.drills.shapes import Values
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.shipped_played import BY_ID, repetitions
from tests.made import HOLD, level

OFF = CATALOGUE["constant_error"].label
VERDICT = Verdict(Reason.OVER_LIMIT, 41.25, ("dip",), {"dip": 19.5, "settle": None}, "dip")


def canvas() -> RecordingCanvas:
    """A canvas of 1920 by 1080 pixels, on which a unit is a pixel."""
    pygame.font.init()
    return RecordingCanvas((1920, 1080), Fonts())


def test_figures_are_the_score_the_worst_and_then_the_measures_with_limits_first() -> None:
    asked = level(limits={"settle": 0.8, "dip": 15.0})
    measures = {"reaction": 0.284, "dip": 19.6, "surge": 2.0, "settle": None, "lag": 0.07}

    row = figures(asked, Verdict(Reason.OVER_LIMIT, 41.4, ("settle", "dip"), measures, "settle"))

    assert row == [
        Figure("Score", "41", "of 100"),
        Figure(CATALOGUE["settle"].label, "never", "0.8 allowed", failed=True),
        Figure(CATALOGUE["dip"].label, "20 points", "15 allowed", failed=True),
        Figure(CATALOGUE["surge"].label, "2 points"),
        Figure(CATALOGUE["reaction"].label, "0.28 s"),
    ]


@pytest.mark.parametrize(
    ("value", "figure"),
    [
        (-3.96, Figure(OFF, "-4.0 points", "4 allowed")),
        (-4.04, Figure(OFF, "-4.04 points", "4 allowed", failed=True)),
        (5.2, Figure(OFF, "+5 points", "4 allowed", failed=True)),
    ],
)
def test_a_figure_over_its_limit_never_looks_like_it_and_is_marked(
    value: float, figure: Figure
) -> None:
    asked = replace(HOLD, limits={"constant_error": 4.0})

    row = figures(asked, Verdict(Reason.CLEAN, 60.0, (), {"constant_error": value}))

    assert row[1] == figure


def test_a_value_that_rounds_to_nothing_has_no_sign() -> None:
    verdict = Verdict(Reason.CLEAN, 60.0, (), {"drift": -0.04, "constant_error": 0.04})

    row = figures(HOLD, verdict)

    assert [figure.value for figure in row[1:]] == ["0.0 points", "0.0 points/s"]


@pytest.mark.parametrize(
    ("interval", "written"),
    [(0.001, "0.28 s"), (0.008, "0.28 s"), (0.04, "0.3 s"), (None, "0.28 s")],
)
def test_no_time_is_shown_finer_than_the_pedals_report(
    interval: float | None, written: str
) -> None:
    verdict = Verdict(Reason.CLEAN, 60.0, (), {"reaction": 0.284})

    row = figures(level(), verdict, Sampling(1000.0, 0.001, 0.002, 0.02, interval))

    assert row[-1].value == written


def reveal_at(verdict: Verdict, gap: float | None = None) -> Reveal:
    """A reveal without a picture."""
    sampling = Sampling(1000.0, 0.001, gap, 0.02, 0.008)
    return Reveal(RevealFacts(level(), verdict, None, (), Place(3, 10), sampling))


@pytest.mark.parametrize(
    ("action", "after"),
    [
        (Action.GO, TimedOutcome.ON),
        (Action.BACK, TimedOutcome.MENU),
        (Action.MENU, TimedOutcome.MENU),
        (Action.NEXT, None),
        (Action.PREVIOUS, None),
    ],
)
def test_a_reveal_goes_on_or_to_the_menu_and_a_tap_does_nothing(
    action: Action, after: TimedOutcome | None
) -> None:
    screen = reveal_at(VERDICT)

    screen.on_action(action)

    assert screen.outcome is after


@pytest.mark.parametrize(("gap", "noted"), [(0.019, False), (0.021, True), (None, False)])
def test_a_gap_that_voids_nothing_is_noted(gap: float | None, noted: bool) -> None:
    drawing = canvas()

    reveal_at(VERDICT, gap).paint(drawing, 0.0)

    assert (
        any(text.text == "The pedals were not read for 0.02 s." for text in drawing.texts) == noted
    )


@pytest.mark.parametrize(
    ("verdict", "jumps", "note"),
    [
        (VERDICT, [], "Partly luck with these pedals."),
        (Verdict(Reason.CLEAN, 60.0), [], "Partly luck with these pedals."),
        (VERDICT, [Jump(Pedal.BRAKE, 0, 1)], "The brake jumped once; that is left out."),
        (Verdict(Reason.GAP), [], ""),
    ],
)
def test_a_level_that_is_partly_luck_says_so_where_it_counts(
    verdict: Verdict, jumps: list[Jump], note: str
) -> None:
    screen = Reveal(
        RevealFacts(level(), verdict, None, (), Place(3, 10), jumps=jumps, is_luck=True)
    )

    assert screen.note == note
    assert reveal_at(verdict).note == ""


@pytest.mark.parametrize(
    ("count", "noted"), [(0, ""), (1, "The brake jumped once;"), (2, "2 times; that is left out.")]
)
def test_jumps_that_were_left_out_are_noted(count: int, noted: str) -> None:
    jumps = [Jump(Pedal.BRAKE, at, at + 1) for at in range(count)]
    verdicts = (VERDICT, Verdict(Reason.JUMPED, pedal=Pedal.BRAKE))

    counted, void = (
        Reveal(RevealFacts(level(), verdict, None, (), Place(3, 10), jumps=jumps)).note
        for verdict in verdicts
    )

    assert noted in counted
    assert bool(counted) == bool(count)
    assert void == ""


@pytest.mark.parametrize(
    ("reason", "word"),
    [
        (Reason.CLEAN, "Clean"),
        (Reason.OVER_LIMIT, "Not clean"),
        (Reason.NO_BLIP, "Not clean"),
        (Reason.GAP, "Not judged"),
    ],
)
def test_the_word_of_a_reveal_follows_from_the_verdict(reason: Reason, word: str) -> None:
    drawing = canvas()
    verdict = Verdict(reason, None, (), {"dip": 9.0, "surge": 0.0, "rebound": 0.0, "settle": 0.0})

    reveal_at(verdict).paint(drawing, 0.0)

    assert drawing.texts[0].text == word


@pytest.mark.parametrize(("lean", "side"), [(-1.0, -1), (-0.3, -1), (0.4, 1), (9.0, 1)])
def test_the_bubble_is_left_where_the_foot_is_light_and_right_where_it_is_heavy(
    lean: float, side: int
) -> None:
    drawing = canvas()

    spirit_level(drawing, (960, 500), 600, lean)

    bubble, _ = drawing.discs[0]
    assert np.sign(bubble[0] - 960) == side
    assert abs(bubble[0] - 960) <= 300


def test_without_a_lean_the_bubble_is_in_the_middle() -> None:
    drawing = canvas()

    spirit_level(drawing, (960, 500), 600, 0.0)

    assert drawing.discs[0][0] == (960, 500)


TIME = np.linspace(-0.5, 1.5, 201)


def pictured(deviation: Values, *bounds: Bound, reach: float = 20.0) -> Deviation:
    """A picture of two seconds with some bounds."""
    return Deviation(TIME, deviation, (-0.5, 1.5), reach, bounds=bounds)


def drawn(now: Deviation, *before: Deviation) -> RecordingCanvas:
    """Canvas with a drawn picture."""
    drawing = canvas()
    deviation_plot.deviation(drawing, (0, 0), (1500, 600), now, before, limits=True)
    return drawing


def test_a_brake_that_fell_is_drawn_downwards_and_time_to_the_right() -> None:
    drawing = drawn(pictured(np.interp(TIME, [-0.5, 0, 0.5, 1, 1.5], [0, -10, 0, 10, 0])))

    colour, points = drawing.curves[-1]
    heights = [y for _, y in points]
    assert colour == theme.BRAKE
    assert heights.index(max(heights)) < heights.index(min(heights))
    assert max(heights) - heights[0] == pytest.approx(heights[0] - min(heights))
    assert [x for x, _ in points] == sorted(x for x, _ in points)


def test_a_limit_is_drawn_over_the_time_in_which_it_is_judged() -> None:
    now = pictured(np.full(201, -15.0), Bound("dip 15", -15.0, None, (0.0, 1.0)))

    drawing = drawn(now)

    _, curve = drawing.curves[-1]
    dots = [box for box in drawing.boxes if abs(box.centery - curve[0][1]) <= 1 and box.width < 10]
    at = {round(float(second), 2): x for second, (x, _) in zip(TIME, curve, strict=False)}
    assert dots[0].left == pytest.approx(at[0.0], abs=1)
    assert at[1.0] - DOT[2] <= dots[-1].right <= at[1.0] + 1
    assert "dip 15" in [text.text for text in drawing.texts]


def test_one_bad_repetition_does_not_squeeze_the_scale_and_says_how_far_it_went() -> None:
    small, large = (
        drawn(pictured(height * np.exp(-((TIME / 0.1) ** 2)))) for height in (-10.0, -48.0)
    )

    scales = [
        [text.ink.centery for text in drawing.texts if text.text == "held"]
        for drawing in (small, large)
    ]
    assert scales[0] == scales[1]
    assert "48" in [text.text for text in large.texts]
    assert [text.text for text in small.texts] == ["held", "0.5 s", "1 s"]
    heights = [max(y for _, y in drawing.curves[-1][1]) for drawing in (small, large)]
    assert heights[0] < heights[1] <= 600 - BELOW


def test_earlier_repetitions_are_drawn_under_this_one_and_quieter() -> None:
    drawing = drawn(*(pictured(np.full(201, value)) for value in (1.0, -3.0, -3.0)))

    assert [colour for colour, _ in drawing.curves] == [theme.EARLIER, theme.EARLIER, theme.BRAKE]
    heights = [points[0][1] for _, points in drawing.curves]
    assert heights[0] == heights[1] > heights[2]


@pytest.mark.parametrize("skill", [0.0, 0.4, 1.0])
@pytest.mark.parametrize("name", ["blip-1-first", "still-1-light"])
def test_no_label_touches_a_curve(name: str, skill: float) -> None:
    pictures = [repetition.deviation for repetition in repetitions(BY_ID[name], skill, 11, 8)]
    drawn_ones = 0

    for number, picture in enumerate(pictures):
        if picture is None:
            continue
        drawing = canvas()
        before = [
            earlier for earlier in pictures[max(number - 5, 0) : number] if earlier is not None
        ]
        deviation_plot.deviation(drawing, (120, 476), (1680, 524), picture, before, limits=True)
        points = np.array([point for _, curve in drawing.curves for point in curve])
        for text in drawing.texts:
            x, y = points[:, 0], points[:, 1]
            touched = (x >= text.ink.left) & (x < text.ink.right)
            touched &= (y >= text.ink.top) & (y < text.ink.bottom)
            assert not touched.any(), text.text
        drawn_ones += 1

    assert drawn_ones >= 7
