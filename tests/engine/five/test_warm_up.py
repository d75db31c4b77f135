"""The warm-up: what it is made of, and what it says of the foot of today."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from shutil import copy

import pytest

from drills.score import Reason, Verdict
from engine.drill.turn import Pictures
from engine.five.day_end import Done
from engine.five.flow import warm_up, warm_up_words
from engine.five.player_history import player_state_of
from engine.five.saved import begin_session, sessions_on, stored_blips
from engine.five.session import SessionLog
from engine.five.usual_foot import expected
from engine.five.warm_up_plan import HOLDS, OWN, STILL
from engine.five.warm_up_words import WarmUpWords
from engine.practice.results import Purpose, SessionKind
from engine.stage.scene import Attended
from engine.store import History, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, FIRST, LOOK, Minutes, Seen, attend, passed_on
from tests.engine.five.unattended import HOLDS as SHORT_HOLDS
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


def test_a_warm_up_is_holds_blips_eight_of_them_measured_and_one_run_at_the_players_own_level(
    history: History,
) -> None:
    passes(history, *PASSED)
    learning, seen = Learning(history, 0.9), list[Seen]()

    ended = attend(warm_up(learning.setting, history, BAND), learning.clock, (), seen)

    [session] = sessions_on(history, DATE.date())
    assert ended is Done.LEAVE
    assert (session.what, session.over) == (SessionKind.WARM_UP, True)
    assert [one.level for one in session.results if not one.void] == [
        *["still-3-dark"] * HOLDS,
        *["blip-5-still"] * OWN,
        *[BAND.id] * 8,
        "run-2-three",
    ]
    assert {one.why for one in session.results} == {Purpose.WARM}
    assert 60 < session.spent < 180
    name, last = seen[-1]
    assert (name, last["heading"]) == ("warmed up", "Warmed up: not enough days yet")
    blips = stored_blips(history, BAND.id, Purpose.WARM, 8)
    assert {40 <= peak <= 80 for *_, peak in blips} == {True}
    scaled = [deviation * 60 / peak for _, _, deviation, peak in blips]
    assert last["today"] == pytest.approx(sum(scaled) / 8)
    assert {name for name, _ in seen[:-1]} == {"repetition"}


def test_a_player_who_does_not_blip_yet_holds_and_reads_nothing_of_days(history: History) -> None:
    minutes = Minutes(history, levels=SHORT_HOLDS)

    minutes.walk(warm_up(minutes.setting, history, BAND))

    [session] = sessions_on(history, DATE.date())
    [shown] = minutes.details_of("warmed up")
    assert [one.level for one in session.results] == ["first"] * STILL
    assert (shown["heading"], shown["today"], shown["usual"]) == ("Warmed up", None, None)


def test_a_warm_up_left_early_goes_on_when_it_is_chosen_again(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST])

    def hold(screen: Attended) -> None:
        while screen.outcome is None:
            minutes.clock.advance(LOOK)
            screen.on_sample(minutes.setting.rig.sample(), minutes.clock())

    minutes.walk(
        warm_up(minutes.setting, history, BAND),
        ("repetition", hold),
        ("repetition", "menu"),
        ("menu", "Leave for now"),
    )
    [left] = sessions_on(history, DATE.date())
    minutes.walk(warm_up(minutes.setting, history, BAND))

    [session] = sessions_on(history, DATE.date())
    assert (left.over, len(left.results)) == (False, 1)
    assert (session.over, len(session.results)) == (True, STILL)
    assert [told["heading"] for told in minutes.details_of("warmed up")] == ["Warmed up"] * 2


@pytest.mark.parametrize("earlier", [0, 1])
def test_before_eight_days_it_says_how_many_are_missing(history: History, earlier: int) -> None:
    days(history, USUAL[:earlier])
    number = warmed(history, DATE, 8.0)

    word = said(history, number)

    missing = 8 - earlier
    assert word.heading == "Warmed up: not enough days yet"
    assert word.usual is None
    assert f"After {missing} more day{'s' if missing > 1 else ''} " in word.lines[0]
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
    assert word.lines[-1] == (
        f"A difference of {expects.sees:.1f} points or more is seen in one warm-up."
    )
    assert (word.usual[0] <= size <= word.usual[1]) == (heading == "Warmed up: the usual foot")


@pytest.mark.parametrize(("others", "is_one"), [(8.0, True), (4.0, False), (20.0, False)])
def test_a_day_spoilt_by_one_blip_says_so(usual: History, others: float, is_one: bool) -> None:
    number = warmed(usual, DATE, others, last=160.0)

    word = said(usual, number)

    one = "It was one blip, of 160 points: the other seven were as usual."
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


def test_a_level_passed_in_between_takes_no_blip_from_a_resumed_warm_up(history: History) -> None:
    number = begin_session(history, SessionKind.WARM_UP, DATE, 3.0, 1)
    for _ in range(6):
        add_repetition(
            history,
            record(
                level="still-1-light",
                kind="hold",
                at=DATE,
                why=Purpose.WARM,
                session=number,
                took=5.0,
            ),
        )
    passes(history, BY_ID["still-1-light"], BY_ID["blip-1-first"])
    learning = Learning(history, 0.9)
    learning.setting = replace(learning.setting, levels=[*LEVELS])

    attend(warm_up(learning.setting, history, BAND), learning.clock)

    [session] = sessions_on(history, DATE.date())
    assert [one.level for one in session.results].count(BAND.id) == 8


@pytest.mark.parametrize(("days_before", "told"), [(1, True), (0, False)])
def test_a_level_that_the_warm_up_retained_is_named(
    history: History, days_before: int, told: bool
) -> None:
    passed_on(history, FIRST, days_before)
    minutes = Minutes(history, levels=[FIRST])

    minutes.walk(warm_up(minutes.setting, history, BAND))

    [shown] = minutes.details_of("warmed up")
    assert all_retention(history)[FIRST.id].is_retained == told
    assert ("Kept on another day: First." in str(shown["said"])) == told
