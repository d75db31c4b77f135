"""The warm-up's word: what is drawn of today agrees with it, and there is no score to chase."""

from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import Bound, Deviation
from engine.five.day_end import Done
from engine.five.warm_up_screen import WarmUpScreen
from engine.five.warm_up_words import WarmUpWords
from engine.kit import theme
from engine.stage.actions import Action
from tests.engine.five.pictures import NOT_ENOUGH, SHAKY, STEADIER, USUAL
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded, said

DIP = Bound("dip 30", -30.0, None, (0.0, 1.0))


def on_the_line(canvas: RecordingCanvas) -> tuple[list[float], list[float]]:
    """units from the left, where today and where earlier days are on the line."""
    strip = next(box for box in canvas.boxes if box.width == theme.WIDTH - 2 * theme.MARGIN)
    inside = [(at, colour) for at, colour in canvas.discs if strip.collidepoint(at)]
    today = [at[0] for at, colour in inside if colour == theme.BRAKE]
    return today, [at[0] for at, colour in inside if colour != theme.BRAKE]


@pytest.mark.parametrize("word", [USUAL, STEADIER, SHAKY, NOT_ENOUGH])
def test_the_warm_up_screen_shows_the_heading_and_its_lines(word: WarmUpWords) -> None:
    assert said(WarmUpScreen(word))[: 1 + len(word.lines)] == [word.heading, *word.lines]


@pytest.mark.parametrize(
    ("word", "side"), [(USUAL, "inside"), (STEADIER, "left"), (SHAKY, "right")]
)
def test_the_mark_of_today_lies_where_the_heading_says(word: WarmUpWords, side: str) -> None:
    canvas = recorded(WarmUpScreen(word))
    (today,), _ = on_the_line(canvas)
    strip = next(box for box in canvas.boxes if box.width == theme.WIDTH - 2 * theme.MARGIN)

    bands = [box for box in canvas.boxes if strip.contains(box) and box != strip]

    (usual,) = bands
    found = "left" if today < usual.left else "right" if today > usual.right else "inside"
    assert found == side


def test_every_earlier_day_has_a_ring_at_its_value() -> None:
    canvas = recorded(WarmUpScreen(replace(USUAL, earlier=(5.0, 6.0, 8.0), today=7.0)))

    (today,), (five, six, eight) = on_the_line(canvas)

    assert six - five == pytest.approx(today - six) == pytest.approx(eight - today)


@pytest.mark.parametrize(
    ("word", "words"),
    [
        (
            USUAL,
            [
                "today: 7.2 points, at a blip of 60 %",
                "8 earlier days",
                "a usual day: 5.0 to 11.5",
            ],
        ),
        (
            replace(USUAL, usual=None, earlier=(6.0,)),
            ["today: 7.2 points, at a blip of 60 %", "one earlier day"],
        ),
        (NOT_ENOUGH, ["today: 7.2 points, at a blip of 60 %", "3 earlier days"]),
        (replace(NOT_ENOUGH, today=None, earlier=()), []),
    ],
)
def test_the_legend_names_the_marks_there_are(word: WarmUpWords, words: list[str]) -> None:
    texts = said(WarmUpScreen(word))

    assert [
        text for text in texts if "today:" in text or "earlier" in text or "usual day" in text
    ] == words
    assert ("0 points" in texts) is bool(words)


def test_there_is_no_score_no_best_and_no_count_of_clean_ones() -> None:
    texts = " ".join(said(WarmUpScreen(USUAL))).lower()

    assert not any(word in texts for word in ("score", "best", "clean", "of 100"))


@pytest.mark.parametrize("today", [0.0, 0.3, 48.0, 230.0])
def test_any_day_stays_on_the_line(today: float) -> None:
    (at,), _ = on_the_line(recorded(WarmUpScreen(replace(USUAL, today=today))))

    assert theme.MARGIN < at < theme.WIDTH - theme.MARGIN


def test_leaving_comes_first_and_home_is_beside_it() -> None:
    left, home = WarmUpScreen(USUAL), WarmUpScreen(USUAL)

    left.on_action(Action.GO)
    home.on_action(Action.NEXT)
    home.on_action(Action.GO)

    assert (left.outcome, home.outcome) == (Done.LEAVE, Done.HOME)


def test_the_events_file_has_the_heading_and_the_points() -> None:
    assert WarmUpScreen(USUAL).details() == {
        "choices": ["Leave", "Home"],
        "heading": "Warmed up: the usual foot",
        "usual": pytest.approx((5.0, 11.5), abs=0.05),
        "today": 7.2,
        "said": USUAL.lines,
        "days": 8,
    }


def test_no_limit_is_drawn_over_the_curves_of_a_warm_up() -> None:
    held = np.zeros(21)
    blip = Deviation(np.linspace(-0.5, 1.5, 21), held, (-0.5, 1.5), bounds=(DIP,))

    texts = said(WarmUpScreen(USUAL, (blip, blip)))

    assert "typical of 2" in texts
    assert not any("dip" in text for text in texts)
