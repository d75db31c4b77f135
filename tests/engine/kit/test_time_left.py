"""The time left: a line that gets shorter between repetitions, and is never shown during one."""

from typing import Any

import pytest

from engine.drill.guess_screen import Guess
from engine.drill.interruptions import SmallMenu
from engine.kit import theme
from engine.kit.base import Place, Screen
from engine.kit.repetition_marks import Mark
from engine.kit.timed_screen import TOP, TimedOutcome, TimedScreen, left_words
from engine.pedals.rig import Means
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.pictures import repeating
from tests.engine.shipped_played import BY_ID

FULL = theme.WIDTH - 2 * theme.MARGIN


def passing(place: Place | None) -> TimedScreen[TimedOutcome]:
    """Timed screen of a session."""
    return TimedScreen(TimedOutcome.ON, TimedOutcome.MENU, 2.0, place)


def line_of(screen: Screen[Any]) -> list[float]:
    """Length of each line at the upper edge, in canvas units."""
    return [end[0] - start[0] for start, end in recorded(screen).lines if start[1] == TOP]


@pytest.mark.parametrize(
    ("share", "lasts", "words"),
    [
        (1.0, 5.0, "5 min left"),
        (0.81, 5.0, "5 min left"),
        (0.6, 5.0, "3 min left"),
        (0.4, 5.0, "2 min left"),
        (0.2, 5.0, "the last minute"),
        (0.001, 5.0, "the last minute"),
        (0.0, 5.0, "time is up"),
        (0.5, 12.0, "6 min left"),
    ],
)
def test_the_time_left_is_rounded_up_to_minutes(share: float, lasts: float, words: str) -> None:
    place = Place(3, 0, left=share, lasts=lasts)

    assert left_words(share, lasts) == words
    assert words in said(SmallMenu(4, 0, place))


@pytest.mark.parametrize("share", [1.0, 0.6, 0.0, 1.4, -0.2])
def test_the_line_is_proportional_to_the_time_left(share: float) -> None:
    whole, left = line_of(passing(Place(3, 0, left=share)))

    assert whole == FULL
    assert left == pytest.approx(FULL * min(max(share, 0.0), 1.0))


@pytest.mark.parametrize("place", [None, Place(3, 10)])
def test_a_set_that_does_not_end_by_time_has_no_line(place: Place | None) -> None:
    assert line_of(passing(place)) == []


def test_a_timed_screen_shows_the_time_left_as_a_line_alone() -> None:
    screen = passing(Place(3, 0, left=0.6))

    assert line_of(screen)
    assert not any("left" in text for text in said(screen))


def test_a_guess_shows_the_time_left() -> None:
    assert "3 min left" in said(Guess("How far did the brake fall?", Place(3, 0, left=0.6)))


def test_a_repetition_shows_its_title_but_never_the_time_left() -> None:
    screen = repeating(BY_ID["blip-1-first"], (57.0, 0.0), place=Place(12, 0, left=0.6))

    texts = " ".join(said(screen))

    assert line_of(screen) == []
    assert "left" not in texts.replace("let", "")
    assert "First blip" in texts
    assert " of " not in texts


@pytest.mark.parametrize(
    ("done", "of", "words"),
    [
        (4, 10, {"4", "of 10 done", "All you did is saved."}),
        (4, 0, {"4", "done", "All you did is saved."}),
        (0, 0, {"Nothing is done yet."}),
    ],
)
def test_a_pause_shows_how_many_repetitions_are_done_and_of_how_many_if_known(
    done: int, of: int, words: set[str]
) -> None:
    texts = said(SmallMenu(done, of))

    assert words <= set(texts)
    assert bool(done) is not ("Nothing is done yet." in texts)


@pytest.mark.parametrize("done", [0, 4])
def test_a_pause_where_nothing_is_kept_does_not_say_that_it_is(done: int) -> None:
    screen = SmallMenu(done, 10)
    screen.on_means(Means(label="Try-out: nothing is saved"))

    assert "kept" not in " ".join(said(screen))


@pytest.mark.parametrize(
    ("left", "took", "wanted"),
    [(1.0, 30.0, 0.9), (0.5, 0.0, 0.5), (0.01, 30.0, 0.0), (None, 30.0, None)],
)
def test_a_repetition_takes_its_share_of_the_time(
    left: float | None, took: float, wanted: float | None
) -> None:
    place = Place(3, 0, left=left, lasts=5.0)

    assert place.after(took).left == pytest.approx(wanted)


@pytest.mark.parametrize("left", [None, 0.5])
def test_a_place_has_its_own_mark_afterwards_unless_it_shows_none(left: float | None) -> None:
    shown = Place(2, 10, left=left, marks=(Mark.VOID,))

    assert shown.to_come == 10
    assert shown.after(3.0, Mark.CLEAN).marks == (Mark.VOID, Mark.CLEAN)
    assert shown.after(3.0, Mark.CLEAN).to_come == 9
    assert shown.after(3.0).marks == (Mark.VOID,)
    assert Place(2, 10, left=left).after(3.0, Mark.CLEAN).marks is None


def test_a_pause_shows_the_time_left_and_that_it_waits() -> None:
    screen = SmallMenu(4, 0, Place(5, 0, left=0.6))

    assert line_of(screen)
    assert {"3 min left", "4", "done", "The time waits."} <= set(said(screen))
