"""The reveal: what its figures say, which way its picture and its bubble point, where it leads."""

import numpy as np
import pygame
import pytest

from drills.deviation import Deviation
from drills.score import Reason, Verdict
from engine.screens import plot, theme
from engine.screens.base import Place
from engine.screens.canvas import Fonts
from engine.screens.reveal import After, Reveal, figures
from engine.screens.widgets import Figure
from engine.screens.widgets import level as spirit_level
from engine.stage.actions import Action
from tests.engine.screens.pictures import RecordingCanvas
from tests.made import BLIP, HOLD, level

VERDICT = Verdict(Reason.OVER_LIMIT, 41.25, ("dip",), {"dip": 19.5, "settle": None})


def canvas() -> RecordingCanvas:
    """A canvas of 1920 by 1080 pixels: a unit is a pixel."""
    pygame.font.init()
    return RecordingCanvas((1920, 1080), Fonts())


def test_figures_are_the_score_and_then_the_measures_with_limits_first() -> None:
    limits = {"settle": 0.8, "dip": 15.0}
    measures = {"reaction": 0.284, "dip": 19.6, "surge": 2.0, "settle": None, "lag": 0.07}

    row = figures(Verdict(Reason.OVER_LIMIT, 41.4, (), measures), BLIP.kind.shown, limits)

    assert row == [
        Figure("Score", "41", "of 100"),
        Figure("Dip", "20 points", "over 15 points"),
        Figure("Steady in", "never", "over 0.8 s"),
        Figure("Over", "2 points"),
        Figure("Reaction", "0.28 s"),
    ]


@pytest.mark.parametrize(
    ("value", "said"),
    [(-3.96, ("-4.0 points", "within 4 points")), (-4.04, ("-4.0 points", "over 4 points"))],
)
def test_a_signed_measure_is_held_against_its_limit_by_its_size(
    value: float, said: tuple[str, str]
) -> None:
    verdict = Verdict(Reason.CLEAN, 60.0, (), {"constant_error": value})

    row = figures(verdict, HOLD.kind.shown, {"constant_error": 4.0})

    assert row[1] == Figure("Off target", *said)


def test_a_value_that_rounds_to_nothing_has_no_sign() -> None:
    verdict = Verdict(Reason.CLEAN, 60.0, (), {"drift": -0.04, "constant_error": 0.04})

    row = figures(verdict, HOLD.kind.shown, {})

    assert [figure.value for figure in row[1:]] == ["0.0 points", "0.0 points/s"]


def test_figures_without_a_score_or_measures_are_a_dash() -> None:
    assert figures(Verdict(Reason.NO_BLIP), BLIP.kind.shown, {}) == [Figure("Score", "-", "of 100")]


@pytest.mark.parametrize(
    ("more", "labels"),
    [(True, ["Next repetition", "Leave the set"]), (False, ["See the set"])],
)
def test_the_reveal_offers_what_comes_next(more: bool, labels: list[str]) -> None:
    screen = Reveal(level(), VERDICT, None, (), Place(10, 10), more=more)

    screen.on_action(Action.GO)

    assert screen.details()["choices"] == labels
    assert screen.outcome is After.ON


def test_going_back_from_a_reveal_leaves_the_set() -> None:
    screen = Reveal(level(), VERDICT, None, (), Place(10, 10), more=False)

    screen.on_action(Action.BACK)

    assert screen.outcome is After.LEAVE


@pytest.mark.parametrize(
    ("reason", "word"),
    [
        (Reason.CLEAN, "Clean"),
        (Reason.OVER_LIMIT, "Not clean"),
        (Reason.NO_BLIP, "Not clean"),
        (Reason.GAP, "Does not count"),
    ],
)
def test_the_word_of_a_reveal_is_that_of_its_verdict(reason: Reason, word: str) -> None:
    shown = canvas()
    verdict = Verdict(reason, None, (), {"dip": 9.0, "surge": 0.0, "rebound": 0.0, "settle": 0.0})

    Reveal(level(), verdict, None, (), Place(3, 10), more=True).paint(shown, 0.0)

    assert shown.texts[0].text == word


@pytest.mark.parametrize(("lean", "side"), [(-1.0, -1), (-0.3, -1), (0.4, 1), (9.0, 1)])
def test_the_bubble_is_left_where_the_foot_is_light_and_right_where_it_is_heavy(
    lean: float, side: int
) -> None:
    shown = canvas()

    spirit_level(shown, (960, 500), 600, lean)

    bubble, _ = shown.discs[0]
    assert np.sign(bubble[0] - 960) == side
    assert abs(bubble[0] - 960) <= 300


def test_a_level_bubble_is_in_the_middle() -> None:
    shown = canvas()

    spirit_level(shown, (960, 500), 600, 0.0)

    assert shown.discs[0][0] == (960, 500)


def drawn(*deviations: float) -> list[tuple[float, float]]:
    """The bold curve of a picture that goes through some deviations in %."""
    shown = canvas()
    time = np.linspace(0.0, 1.0, len(deviations))
    now = Deviation(time, np.array(deviations))
    plot.deviation(shown, (0, 0), (1000, 600), now, (), 15.0)
    colour, points = shown.curves[-1]
    assert colour == theme.BRAKE
    return points


def test_a_brake_that_fell_is_drawn_downwards_and_time_to_the_right() -> None:
    fell = drawn(0.0, -10.0, 0.0, 10.0)

    middle, low, _, high = (y for _, y in fell)
    assert low > middle > high
    assert low - middle == pytest.approx(middle - high)
    assert [x for x, _ in fell] == sorted(x for x, _ in fell)


def test_the_band_of_a_picture_lies_where_its_tolerance_is() -> None:
    shown = canvas()
    now = Deviation(np.array([0.0, 1.0]), np.array([15.0, -15.0]))

    plot.deviation(shown, (0, 0), (1000, 600), now, (), 15.0)

    _, ((_, top), (_, bottom)) = shown.curves[-1]
    band = shown.boxes[1]
    assert (band.top, band.bottom) == (pytest.approx(top, abs=1), pytest.approx(bottom, abs=1))


def test_earlier_repetitions_are_drawn_under_this_one_and_quieter() -> None:
    shown = canvas()
    now, before = (Deviation(np.array([0.0, 1.0]), np.full(2, value)) for value in (1.0, -3.0))

    plot.deviation(shown, (0, 0), (1000, 600), now, (before, before), 15.0)

    assert [colour for colour, _ in shown.curves] == [theme.EARLIER, theme.EARLIER, theme.BRAKE]
    heights = [points[0][1] for _, points in shown.curves]
    assert heights[0] == heights[1] > heights[2]
