"""While a history is remeasured nothing is told over days, and a line says so in its place."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from drills.measures.definition import DEFINITION
from drills.score import Reason, Verdict
from engine.commands.report import report_text
from engine.drill.guesses import GuessErrors
from engine.drill.saved import keep_guess
from engine.drill.set_log import SetLog
from engine.drill.turn import Pictures
from engine.five.flow import warm_up_words
from engine.five.player_history import player_state_of, steadiness_view, tolerance_now
from engine.five.saved import begin_session, sessions_on
from engine.five.session import SessionLog
from engine.five.warm_up_words import WarmUpWords
from engine.practice.remeasuring import Remeasuring
from engine.practice.results import Purpose, SessionKind
from engine.progress.history_pages import PAGES
from engine.progress.progress import Progress, progress_of
from engine.progress.report_page import as_html
from engine.progress.report_picture import as_png
from engine.store import History, open_history
from engine.store.repetitions import add_repetition
from tests.earlier import BY_ID, EARLIER, LEVELS, change
from tests.made import record

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
TODAY = NOON.date()
BAND = BY_ID["steadiness-band"]
BLIPS = 80
ON_DAYS = {"levels", "days practised"}
"""Pages of the history that rest on verdicts alone."""


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """Steadiness blips on ten days up to today."""
    with open_history(tmp_path, LEVELS) as new:
        for number in range(BLIPS):
            at = NOON - timedelta(days=9 - number // 8)
            dip = (6.0, 14.0, 5.0, 7.0)[number % 4]
            asked = tolerance_now(new, BAND)
            measures = {"dip": dip, "surge": 1.0, "peak": 60.0, "extra_distance": dip / 10}
            keep(new, measures, at=at, asked=asked, level=BAND.id, why=Purpose.BAND)
        yield new


def keep(history: History, measures: Mapping[str, float | None], **changes: Any) -> int:
    """Keep a clean repetition with some measures; returns its number."""
    verdict = Verdict(Reason.CLEAN, 90.0, (), measures)
    return add_repetition(history, record(**{"verdict": verdict, "trace": None} | changes))


def wait(history: History, which: str = "1", fixed: int = 0) -> None:
    """Make repetitions those of an earlier definition, which wait or cannot be remeasured."""
    what = f"definition = {EARLIER}, fixed = {fixed}"
    change(history.path.parent, f"UPDATE repetition SET {what} WHERE {which}")


def progress(history: History) -> Progress:
    """Progress of today."""
    return progress_of(history, LEVELS, BAND, TODAY)


def warmed(history: History) -> WarmUpWords:
    """Words at the end of a warm-up of today."""
    number = begin_session(history, SessionKind.WARM_UP, NOON, 3.0, 1)
    for _ in range(8):
        keep(
            history,
            {"dip": 6.0, "surge": 1.0, "peak": 60.0},
            at=NOON,
            level=BAND.id,
            why=Purpose.WARM,
            session=number,
        )
    player = player_state_of(history, LEVELS, BAND, frozenset(BAND.pedals), TODAY)
    [session] = sessions_on(history, TODAY)
    return warm_up_words(SessionLog(session, player, Pictures(), False, {}), history, BAND)


def test_steadiness_is_told_again_once_nothing_waits(history: History) -> None:
    before = steadiness_view(history, BAND, TODAY)
    wait(history, "id = 1")
    meanwhile = steadiness_view(history, BAND, TODAY)
    change(history.path.parent, f"UPDATE repetition SET definition = {DEFINITION}")

    assert before is not None
    assert meanwhile is None
    assert steadiness_view(history, BAND, TODAY) == before


def test_the_staircase_goes_on_where_it_stood(history: History) -> None:
    before = tolerance_now(history, BAND)
    wait(history)

    assert tolerance_now(history, BAND) == before


def test_pages_of_measures_wait_and_pages_of_verdicts_stay(history: History) -> None:
    before = progress(history)
    wait(history)

    found = progress(history)

    waits = Remeasuring(0, BLIPS)
    assert found.remeasuring == waits
    for name, page in PAGES.items():
        assert page.missing(found) == ("" if name in ON_DAYS else waits.comes)
        told, lead = page.words(found), page.words(before).lead
        assert (told == page.words(before)) is (name in ON_DAYS) or not lead
    assert (found.days, found.stages) == (before.days, before.stages)


def test_the_report_says_so_in_every_form(history: History) -> None:
    wait(history)
    found = progress(history)

    text, html, png = report_text(found), as_html(found, "1"), as_png(found)

    line = "Nothing yet: comes when earlier repetitions are measured again: 0 of 80 so far."
    unwrapped = " ".join(text.split())
    assert unwrapped.count(line) == len(PAGES) - len(ON_DAYS)
    assert html.count(line) == len(PAGES) - len(ON_DAYS)
    assert "points" not in text
    assert png.startswith(b"\x89PNG")


def test_a_history_of_which_nothing_could_be_remeasured_has_nothing_to_tell_yet(
    history: History,
) -> None:
    before = progress(history)
    wait(history, fixed=1)

    found = progress(history)

    assert before.kinds[0].bins
    assert found.remeasuring is None
    assert (found.weeks, found.steadiness, found.dips.bins) == ((), None, ())
    assert found.days == before.days
    assert report_text(found)


def test_a_warm_up_is_not_compared_meanwhile(history: History) -> None:
    wait(history)

    found = warmed(history)

    assert found == WarmUpWords("Warmed up", (Remeasuring(0, BLIPS).words,))


def test_errors_of_guesses_are_not_told_meanwhile(history: History) -> None:
    level = replace(BAND, id="a-blip")
    keep_guess(history, keep(history, {"dip": 9.0}), 6.0, "dip")
    log = SetLog(level, history)
    log.add(record(trace=None))
    before = log.guess_errors
    wait(history, "id = 1")

    assert before == GuessErrors(3.0, None)
    assert log.guess_errors is None
