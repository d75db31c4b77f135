"""A drive read from a recording: its blips, those not scored, and the words about them."""

from dataclasses import replace
from datetime import UTC, datetime
from hashlib import sha256

import numpy as np
import pytest

from drills.measures.definition import DEFINITION
from engine.road.drive import Drive, recorded
from tests.drills.shapes import half_sine

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)


def text(*, lost: tuple[float, float] = (0.0, 0.0)) -> str:
    """Two runs while 60 % are held, of two blips and of one; rows in the lost seconds are left out.

    Each takes 10 points off the brake, but the last, which takes 20.
    """
    time = np.arange(0, 12, 0.002)
    throttle, brake = np.zeros(time.size), np.full(time.size, 60.0)
    for onset, dip in ((2.0, 10), (3.0, 10), (8.0, 20)):
        throttle += 80 * half_sine(0.25)(time - onset)
        brake -= dip * half_sine(0.2)(time - onset)
    kept = (time < lost[0]) | (time >= lost[1])
    rows = np.column_stack([time, brake, throttle])[kept].tolist()
    return "time,brake,throttle\n" + "".join(f"{a:.3f},{b:.3f},{c:.3f}\n" for a, b, c in rows)


def drive(*, lost: tuple[float, float] = (0.0, 0.0)) -> Drive:
    """The drive in such a recording."""
    return recorded(text(lost=lost).encode(), at=AT, name="drive.csv").drive


def test_a_drive_has_every_blip_with_its_run_and_its_place() -> None:
    found = drive()

    assert [(blip.run, blip.place) for blip in found.blips] == [(1, 1), (1, 2), (2, 1)]
    assert found.dips == pytest.approx((10, 10, 20), abs=0.05)
    assert found.dip == pytest.approx(10, abs=0.05)
    assert found.seconds == pytest.approx(11.998)


def test_a_drive_has_the_digest_of_its_file() -> None:
    found = drive()

    assert found.digest == sha256(text().encode()).hexdigest()


# Onset 2.0 s and 0.15 s before it; onset 3.0 s, pulse 0.25 s and 0.3 s after it.
@pytest.mark.parametrize("lost", [(1.75, 1.88), (2.05, 2.2), (2.4, 2.6), (1.0, 1.9)])
def test_a_blip_that_a_gap_falls_into_is_not_scored(lost: tuple[float, float]) -> None:
    found = drive(lost=lost)

    first = found.blips[0]
    assert (first.dip, first.reason) == (None, "a gap of the recording falls into it")
    assert len(found.dips) == 2


@pytest.mark.parametrize("lost", [(1.0, 1.8), (5.0, 7.0), (2.0, 2.09)])
def test_a_gap_beside_the_blips_or_a_short_one_takes_none_of_them(
    lost: tuple[float, float],
) -> None:
    found = drive(lost=lost)

    assert len(found.dips) == 3


def test_a_file_that_is_cut_off_is_still_measured() -> None:
    whole = text().encode()

    found = recorded(whole[:-7], at=AT, name="drive.csv")

    assert found.warnings == ("the last row is cut off and was left out",)
    assert len(found.drive.dips) == 3


def test_a_throttle_that_rests_over_three_percent_is_warned_of() -> None:
    rows = text().splitlines()
    raised = [
        f"{row.rpartition(',')[0]},{float(row.rpartition(',')[2]) + 4:.3f}" for row in rows[1:]
    ]

    found = recorded("\n".join([rows[0], *raised]).encode(), at=AT, name="drive.csv")

    assert found.warnings == (
        "the throttle reads 4.0 % at rest, over 3: blips are counted above it",
    )
    assert found.drive.dips == pytest.approx((10, 10, 20), abs=0.05)


def test_a_drive_is_of_the_definitions_it_was_measured_by() -> None:
    found = drive()

    assert (found.definition, found.is_current) == (DEFINITION, True)
    assert not replace(found, definition=DEFINITION - 1).is_current


def test_each_blip_says_how_early_the_brake_left_where_that_is_known() -> None:
    # The second blip begins 1.0 s after the first, whose window ends 0.54 s after its onset.
    first, second, third = drive().blips

    assert first.early == pytest.approx(0, abs=1e-6)
    assert second.early is None
    assert third.early == pytest.approx(0, abs=1e-6)


def noisy(spread: float) -> bytes:
    """The recording with noise of the brake of this spread in points, a report every 2 ms."""
    rng = np.random.default_rng(8)
    head, *rows = text().splitlines()
    cells = [[float(cell) for cell in row.split(",")] for row in rows]
    return "\n".join(
        [head, *(f"{a:.3f},{b + rng.normal(0, spread):.3f},{c:.3f}" for a, b, c in cells)]
    ).encode()


def test_a_noisy_brake_is_warned_of_and_its_noise_belongs_to_the_drive() -> None:
    # The median step between independent draws of spread 1: 0.6745 * sqrt(2) = 0.954.
    found = recorded(noisy(1.05), at=AT, name="drive.csv")

    assert found.drive.noise == pytest.approx(1.05 * 0.954, rel=0.05)
    assert found.warnings == (
        "the brake of this recording is noisy, 1.0 points: it makes dips deeper",
    )
    assert recorded(noisy(0.4), at=AT, name="drive.csv").warnings == ()


def test_each_scored_blip_has_its_extra_distance() -> None:
    distances = [blip.extra_distance for blip in drive().blips]

    assert distances[0] == pytest.approx(0.8, abs=0.2)
    assert distances[2] == pytest.approx(2 * (distances[0] or 0.0), rel=0.1)


def test_a_run_after_a_throttle_that_was_not_at_rest_is_told_as_left_out() -> None:
    # The throttle is at 100 % until 0.12 s before a light blip: the mean before it is higher.
    time = np.arange(0, 6, 0.002)
    throttle = np.where(time < 2.0, 100.0, 30 * half_sine(0.25)(time - 2.12))
    rows = np.column_stack([time, np.full(time.size, 60.0), throttle]).tolist()
    written = "".join(f"{a:.3f},{b:.3f},{c:.3f}\n" for a, b, c in rows)

    found = recorded(f"time,brake,throttle\n{written}".encode(), at=AT, name="drive.csv")

    assert found.drive.blips == ()
    assert found.warnings[-1] == (
        "1 run of blips is left out: the throttle was not at rest before the first blip"
    )
