"""Squeezes and sizes of blips in the history: which are compared, and in which order."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from drills.score import Reason, Verdict
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.practice.sense import LEAST, NEWEST, Squeeze
from engine.practice.size_made import NEWEST as NEWEST_BLIPS
from engine.practice.size_made import SizedBlip
from engine.store import History, open_history
from engine.store.asked import newest_peaks, newest_squeezes, sense_now
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from tests.earlier import EARLIER, change
from tests.made import record

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
DAY = NOON.date()
BAND = "steadiness-band"


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def squeeze(history: History, target: float, offset: float, **changes: Any) -> None:
    """Keep one squeeze that came to rest so many points off its target."""
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"offset": offset, "reaction": 0.3})
    usual = {"level": "squeeze", "kind": "squeeze", "verdict": verdict, "trace": None, "at": NOON}
    add_repetition(history, record(target=target, **usual | changes))


def blip(history: History, peak: float, **changes: Any) -> None:
    """Keep one blip of the steadiness drill."""
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"dip": 5.0, "peak": peak})
    usual = {"level": BAND, "verdict": verdict, "trace": None, "at": NOON, "why": Purpose.BAND}
    add_repetition(history, record(**usual | changes))


def test_squeezes_are_read_oldest_first_with_what_was_pressed(history: History) -> None:
    squeeze(history, 40.0, 1.5)
    squeeze(history, 70.0, -4.0, at=NOON + timedelta(days=1))

    tomorrow = DAY + timedelta(days=1)
    assert newest_squeezes(history) == [Squeeze(DAY, 40.0, 41.5), Squeeze(tomorrow, 70.0, 66.0)]


def test_what_was_not_pressed_or_does_not_count_is_left_out(history: History) -> None:
    nothing = Verdict(Reason.NOT_PRESSED, 0.0, (), {"offset": -60.0, "reaction": None})
    void = Verdict(Reason.GAP, measures={"offset": -60.0})
    squeeze(history, 60.0, 0.0, verdict=nothing)
    squeeze(history, 60.0, 0.0, verdict=void)
    squeeze(history, 60.0, 0.0, feet=False)
    squeeze(history, 60.0, 0.0, why=Purpose.TRIAL)
    squeeze(history, 60.0, 0.0, verdict=Verdict(Reason.CLEAN, 90.0, (), {}))
    squeeze(history, 60.0, 0.0, kind="hold")
    squeeze(history, 60.0, 2.0, why=Purpose.DUE)

    assert newest_squeezes(history) == [Squeeze(DAY, 60.0, 62.0)]


def test_another_scale_and_another_definition_are_not_compared(history: History) -> None:
    squeeze(history, 60.0, 1.0)
    mark_change(history, NOON, Changed.SCALE)
    squeeze(history, 60.0, 2.0)
    squeeze(history, 60.0, 3.0)
    what = f"UPDATE repetition SET definition = {EARLIER}, fixed = 1 WHERE id = 2"
    change(history.path.parent, what)

    assert newest_squeezes(history) == [Squeeze(DAY, 60.0, 63.0)]


def test_only_the_newest_are_read(history: History) -> None:
    for number in range(NEWEST + 2):
        squeeze(history, 40.0 + number / 10, 0.0)

    found = newest_squeezes(history)

    assert len(found) == NEWEST
    assert found[0].asked == 40.2


def test_the_sense_is_told_from_thirty_on_and_not_while_the_history_is_remeasured(
    history: History,
) -> None:
    for number in range(LEAST - 1):
        squeeze(history, 40.0 + number, 5.0 + number % 2)
    early = sense_now(history)
    squeeze(history, 60.0, 5.0)
    told = sense_now(history)
    change(history.path.parent, f"UPDATE repetition SET definition = {EARLIER} WHERE id = 1")

    assert early is None
    assert told is not None
    assert told.fault is not None
    assert sense_now(history) is None


def test_blips_repeated_for_their_size_are_among_the_sizes(history: History) -> None:
    off = Verdict(Reason.OFF_SIZE, measures={"peak": 33.0})
    blip(history, 55.0)
    blip(history, 0.0, verdict=off)
    blip(history, 0.0, verdict=Verdict(Reason.GAP, measures={"peak": 90.0}))
    blip(history, 91.0, why=Purpose.WARM)
    blip(history, 92.0, level="another")
    blip(history, 93.0, feet=False)

    assert newest_peaks(history, BAND) == [SizedBlip(DAY, 55.0), SizedBlip(DAY, 33.0)]


def test_only_the_newest_blips_are_read(history: History) -> None:
    for number in range(NEWEST_BLIPS + 1):
        blip(history, 40.0 + number)

    assert [one.peak for one in newest_peaks(history, BAND)] == [
        41.0 + number for number in range(NEWEST_BLIPS)
    ]
