"""A drive read from a recording: its blips, those not scored, and the words about them."""

from dataclasses import replace
from datetime import UTC, datetime
from hashlib import sha256

import numpy as np
import pytest

from drills.measures.definition import DEFINITION
from engine.road.drive import Drive, RoadBlip, by_place, recorded
from engine.road.transfer import DrillComparison
from engine.road.words import brake_words, drive_words
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


def blip(carry: float, early: float | None = None) -> RoadBlip:
    """A scored blip."""
    return RoadBlip(1, 1, 1.0, 60.0, 8.0, 1.0, carry, early)


@pytest.mark.parametrize(
    ("blips", "said"),
    [
        ((), []),
        ((RoadBlip(1, 1, 1.0, 60.0, reason="too little before it"),), []),
        (
            (blip(-3.0, 5.0), blip(-4.0, -2.0), blip(-9.0)),
            ["Taken as meant: the brake fell 4.0 points over a blip (median)."],
        ),
        ((blip(0.04),), ["Taken as meant: the brake did not change over a blip (median)."]),
        (
            (blip(2.5, 8.0), blip(2.5, 11.0), blip(2.5, 5.0), blip(2.5)),
            [
                "Taken as meant: the brake rose 2.5 points over a blip (median).",
                "In 2 of 3 blips the brake left before the throttle. "
                "Their dips count it: 9.5 points (median).",
            ],
        ),
    ],
)
def test_meant_changes_and_early_rolls_are_told(
    blips: tuple[RoadBlip, ...], said: list[str]
) -> None:
    assert brake_words(replace(ONE, blips=blips)) == said


def a_drive(*blips: tuple[int, int, float | None]) -> Drive:
    """A drive of blips of a run, a place and a dip."""
    return Drive(
        AT,
        "drive.csv",
        "0" * 64,
        754.4,
        tuple(
            RoadBlip(run, place, 1.0, 60.0, dip, reason="" if dip else "too little before it")
            for run, place, dip in blips
        ),
    )


def test_by_place_the_dips_of_all_runs_are_put_together() -> None:
    found = by_place(a_drive((1, 1, 5.0), (1, 2, 9.0), (2, 1, 7.0), (2, 2, None), (2, 3, 4.0)))

    assert [(one.place, one.dips, one.dip) for one in found] == [
        (1, (5.0, 7.0), 6.0),
        (2, (9.0,), 9.0),
        (3, (4.0,), 4.0),
    ]


ONE = a_drive((1, 1, 6.0))
SEVERAL = a_drive((1, 1, 11.0), (1, 2, 13.0), (2, 1, None))
FOUND = "2 blips in 12 min 34 s."


@pytest.mark.parametrize(
    ("drive", "beside", "said"),
    [
        (
            a_drive((1, 1, None), (2, 1, None)),
            (),
            [
                "No blip could be scored.",
                "2 blips in 12 min 34 s. Not scored 2: too little before it.",
            ],
        ),
        (
            ONE,
            (DrillComparison("blip", 0, None), DrillComparison("trail", 0, None)),
            [
                "Road 6.0 points.",
                "1 blip in 12 min 34 s.",
                "Median dip 6.0 points, worst 6.0.",
                "No drill of the last 28 days to compare with (the first 5 repetitions of a day "
                "are left out).",
            ],
        ),
        (
            SEVERAL,
            (
                DrillComparison("blip", 40, 7.0, 5.0, 3.2, 6.9),
                DrillComparison("trail", 9, 11.5, 0.5, -1.2, 2.0),
            ),
            [
                "Drill 7.0 points, road 12.0.",
                "3 blips in 12 min 34 s. Not scored 1: too little before it.",
                "Median dip 12.0 points, worst 13.0.",
                "By place in the run: first 11.0 (1), second 13.0 (1).",
                "Single blips: 7.0 points (40 in the last 28 days). On the road 5.0 more, "
                "likely 3.2 to 6.9.",
                "Easing off, measured as the road: 11.5 points (9 in the last 28 days). "
                "No difference that can be told: likely 1.2 less to 2.0 more.",
            ],
        ),
        (
            ONE,
            (DrillComparison("blip", 40, 9.0, -3.0, -4.1, -1.5), DrillComparison("trail", 3, 9.0)),
            [
                "Drill 9.0 points, road 6.0.",
                "1 blip in 12 min 34 s.",
                "Median dip 6.0 points, worst 6.0.",
                "Single blips: 9.0 points (40 in the last 28 days). On the road 3.0 less, "
                "likely 1.5 to 4.1.",
                "Easing off, measured as the road: 9.0 points (3 in the last 28 days). "
                "Too few to compare: 1 blip on the road, 8 are needed.",
            ],
        ),
    ],
)
def test_a_drive_is_told_in_words(
    drive: Drive, beside: tuple[DrillComparison, ...], said: list[str]
) -> None:
    assert drive_words(drive, by_place(drive), beside) == said


def test_the_difference_told_is_that_of_the_two_figures_told() -> None:
    road = a_drive((1, 1, 12.36))
    beside = (DrillComparison("blip", 8, 8.14, 4.22, 4.2, 4.23),)

    said = drive_words(road, by_place(road), beside)

    assert said[0] == "Drill 8.1 points, road 12.4."
    assert said[-1] == (
        "Single blips: 8.1 points (8 in the last 28 days). On the road 4.3 more, likely 4.2 to 4.3."
    )
