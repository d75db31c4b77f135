"""Blips of the steadiness drill as they are read: those compared are of the size asked."""

from datetime import UTC, datetime

import pytest

from drills.score import Reason, Verdict
from engine.five.player_history import steadiness_blips, tolerance_now
from engine.ladder.level_files import load_band
from engine.practice.results import Purpose
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.made import record

BAND = load_band()
NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)


def add(history: History, peak: float, dip: float = 6.0, asked: float = 10.0) -> None:
    """Store a steadiness blip that counted."""
    verdict = Verdict(Reason.CLEAN, 80.0, (), {"dip": dip, "surge": 1.0, "peak": peak})
    changes = {"level": BAND.id, "why": Purpose.BAND, "asked": asked, "trace": None}
    add_repetition(history, record(verdict=verdict, at=NOON, **changes))


@pytest.mark.parametrize(
    ("peak", "compared"),
    [(39.9, False), (40.0, True), (60.0, True), (80.0, True), (80.1, False), (100.0, False)],
)
def test_a_blip_from_before_a_size_was_asked_is_compared_only_where_it_is_of_it(
    history: History, peak: float, compared: bool
) -> None:
    add(history, peak)

    found = steadiness_blips(history, BAND, Purpose.BAND)

    assert [(blip.deviation, blip.peak) for blip in found] == [(6.0, peak)] * compared
    assert [blip.scaled for blip in found] == [pytest.approx(6.0 * 60 / peak)] * compared


def test_the_staircase_goes_on_from_blips_of_any_size(history: History) -> None:
    add(history, 60.0, asked=10.0)
    add(history, 95.0, dip=6.0, asked=8.0)

    assert [blip.asked for blip in steadiness_blips(history, BAND, Purpose.BAND)] == [10.0]
    assert tolerance_now(history, BAND) == pytest.approx(8.0 * 0.8)


def test_the_staircase_judges_the_deviation_as_it_was_and_not_as_scaled(history: History) -> None:
    # Scaled it would be 15, over the 12 that were asked.
    add(history, 40.0, dip=10.0, asked=12.0)

    [blip] = steadiness_blips(history, BAND, Purpose.BAND)

    assert blip.scaled == pytest.approx(15.0)
    assert blip.inside
    assert tolerance_now(history, BAND) < 12.0


def test_the_newest_blips_are_counted_before_they_are_sorted_out(history: History) -> None:
    for peak in (50.0, 90.0, 70.0):
        add(history, peak)

    found = steadiness_blips(history, BAND, Purpose.BAND, count=2)

    assert [blip.peak for blip in found] == [70.0]
