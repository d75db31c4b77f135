"""Warm-ups compared with those of earlier days: the usual foot, and blips of another size."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from shutil import copy

import pytest

from drills.score import Reason, Verdict
from engine.drill.turn import Pictures
from engine.five.flow import warm_up_words
from engine.five.player_history import player_state_of
from engine.five.saved import begin_session, sessions_on
from engine.five.session import SessionLog
from engine.five.usual_foot import expected
from engine.five.warm_up_words import WarmUpWords, noticed_words
from engine.practice.results import Purpose, SessionKind
from engine.store import History, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.engine.five.learning_foot import DATE, LEVELS, passes
from tests.engine.five.unattended import BAND
from tests.made import record

PASSED = [one for one in LEVELS if one.id.startswith(("still", "blip", "quiet", "run-1", "run-2"))]
USUAL = [8.125, 6.875, 9.375, 7.75, 8.75, 7.25, 9.875, 8.25]
"""points, of eight days."""


def warmed(
    history: History,
    at: datetime,
    size: float,
    *,
    blips: int = 8,
    last: float | None = None,
    peak: float = 60.0,
    apart: timedelta = timedelta(0),
) -> int:
    """Keep a warm-up of so many blips of one size, but perhaps the last; its number."""
    number = begin_session(history, SessionKind.WARM_UP, at, 3.0, 1)
    for place in range(blips):
        dip = size if last is None or place < blips - 1 else last
        add_repetition(
            history,
            record(
                level=BAND.id,
                verdict=Verdict(
                    Reason.CLEAN, 60.0, measures={"dip": dip, "surge": dip / 2, "peak": peak}
                ),
                at=at + apart * place,
                why=Purpose.WARM,
                session=number,
                took=5.0,
                trace=None,
                sampling=None,
            ),
        )
    return number


def said(history: History, number: int, at: datetime = DATE) -> WarmUpWords:
    """What the warm-up of a number says on a day."""
    player = player_state_of(history, LEVELS, BAND, frozenset(BAND.pedals), at.date())
    [session] = [one for one in sessions_on(history, at.date()) if one.number == number]
    return warm_up_words(SessionLog(session, player, Pictures(), False, {}), history, BAND)


def days(history: History, sizes: list[float], last: datetime = DATE) -> None:
    """Warm-ups of earlier days up to yesterday."""
    for ago, size in zip(range(len(sizes), 0, -1), sizes, strict=True):
        warmed(history, last - timedelta(days=ago), size)


@pytest.fixture(scope="module")
def eight_days(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a history of eight days with a warm-up."""
    folder = tmp_path_factory.mktemp("days")
    with open_history(folder, []) as history:
        days(history, USUAL)
    return folder / FILE


@pytest.fixture
def usual(eight_days: Path, tmp_path: Path) -> Iterator[History]:
    """Such a history."""
    copy(eight_days, tmp_path)
    with open_history(tmp_path, []) as history:
        yield history


@pytest.mark.parametrize("earlier", [0, 1])
def test_before_eight_days_it_says_how_many_are_missing(history: History, earlier: int) -> None:
    days(history, USUAL[:earlier])
    number = warmed(history, DATE, 8.0)

    word = said(history, number)

    missing = 8 - earlier
    assert word.heading == "Warmed up: not enough days yet"
    assert word.usual is None
    assert word.lines[0].startswith(f"{missing} more day{'s' if missing > 1 else ''} of warm-up")
    assert (word.today, word.earlier) == (8.0, tuple(USUAL[:earlier]))


def test_after_so_many_more_days_it_says_whether_the_foot_is_the_usual_one(
    history: History,
) -> None:
    days(history, USUAL[:6])
    headings = []
    for ahead in range(3):
        at = DATE + timedelta(days=ahead)
        headings.append(said(history, warmed(history, at, 8.0), at).heading)

    assert headings == [*["Warmed up: not enough days yet"] * 2, "Warmed up: the usual foot"]


@pytest.mark.parametrize(
    ("size", "heading"),
    [
        (8.0, "Warmed up: the usual foot"),
        (3.0, "Warmed up: steadier than usual"),
        (25.0, "Warmed up: not as steady as usual"),
    ],
)
def test_from_eight_days_on_there_is_a_verdict_with_its_interval(
    usual: History, size: float, heading: str
) -> None:
    number = warmed(usual, DATE, size)

    word = said(usual, number)

    expects = expected(USUAL)
    assert word.heading == heading
    assert word.usual is not None
    assert word.usual == pytest.approx((expects.low, expects.high))
    assert word.lines[-1] == noticed_words(expects.notices)
    assert (word.usual[0] <= size <= word.usual[1]) == (heading == "Warmed up: the usual foot")
    to_do = [line for line in word.lines if "longer" in line and "less" in line]
    assert len(to_do) == (heading == "Warmed up: not as steady as usual")


@pytest.mark.parametrize(("others", "is_one"), [(8.0, True), (4.0, False), (20.0, False)])
def test_a_day_spoilt_by_one_blip_says_so(usual: History, others: float, is_one: bool) -> None:
    number = warmed(usual, DATE, others, last=160.0)

    word = said(usual, number)

    one = "One blip of 160 points: the other seven were as usual."
    assert word.heading == "Warmed up: not as steady as usual"
    assert (one in word.lines) is is_one


def test_an_earlier_day_has_the_value_of_its_first_whole_warm_up(
    history: History,
) -> None:
    yesterday = DATE - timedelta(days=1)
    warmed(history, yesterday - timedelta(days=1), 40.0, blips=7)
    warmed(history, yesterday, 5.0)
    warmed(history, yesterday, 15.0)
    number = warmed(history, DATE, 8.0)

    assert said(history, number).earlier == (5.0,)


@pytest.mark.parametrize("peak", [40.0, 52.5, 80.0])
def test_two_feet_of_equal_scaled_deviation_read_the_same(history: History, peak: float) -> None:
    for ago, size in zip(range(8, 0, -1), USUAL, strict=True):
        # The size of blip may change from day to day: the deviation goes with it.
        other = 40.0 + 5.0 * ago
        warmed(history, DATE - timedelta(days=ago), size * other / 60, peak=other)
    number = warmed(history, DATE, 8.0 * peak / 60, peak=peak)

    word = said(history, number)

    expects = expected(USUAL)
    assert word.today == pytest.approx(8.0)
    assert word.usual == pytest.approx((expects.low, expects.high))


def test_a_day_of_blips_of_another_size_is_not_compared(history: History) -> None:
    warmed(history, DATE - timedelta(days=3), 8.0)
    warmed(history, DATE - timedelta(days=2), 8.0, peak=85.0)
    warmed(history, DATE - timedelta(days=1), 8.0, peak=39.0)
    number = warmed(history, DATE, 8.0)

    assert said(history, number).earlier == (8.0,)


def test_a_second_warm_up_of_a_day_speaks_of_its_own_blips(usual: History) -> None:
    warmed(usual, DATE, 25.0)
    second = warmed(usual, DATE, 8.0)

    word = said(usual, second)

    assert (word.today, word.heading) == (8.0, "Warmed up: the usual foot")
    assert len(word.earlier) == 8


def test_a_second_warm_up_without_all_its_blips_has_no_verdict(usual: History) -> None:
    passes(usual, *PASSED)
    warmed(usual, DATE, 25.0)
    second = warmed(usual, DATE, 8.0, blips=5)

    word = said(usual, second)

    assert (word.today, word.usual) == (None, None)
    assert word.lines == ("It takes all 8 blips to tell how the foot is.",)


def test_a_warm_up_past_midnight_belongs_to_the_day_it_began_on(usual: History) -> None:
    late = datetime(2024, 5, 17, 23, 59, 40, tzinfo=UTC)
    number = warmed(usual, late, 8.0, apart=timedelta(seconds=5))

    word = said(usual, number, late)

    assert word.heading == "Warmed up: the usual foot"
    assert word.earlier == tuple(USUAL)
