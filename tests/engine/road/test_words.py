"""A drive held against the drills in words."""

from datetime import UTC, datetime

import pytest

from engine.practice.remeasuring import Remeasuring
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.transfer import DrillComparison
from engine.road.words import NOT_EASED, short_words, transfer_words

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
NO_DRILLS = (DrillComparison("trail", 0, None), DrillComparison("blip", 0, None))


def a_drive(*dips: float | None) -> Drive:
    """A drive of blips with these dips, each a run."""
    blips = tuple(
        RoadBlip(run, 1, 1.0, 60.0, dip, reason="" if dip else "too little before it")
        for run, dip in enumerate(dips, start=1)
    )
    return Drive(AT, "drive.csv", "0" * 64, 754.4, blips)


@pytest.mark.parametrize(
    ("drive", "beside", "said"),
    [
        (a_drive(), NO_DRILLS, "No blips found"),
        (a_drive(None), NO_DRILLS, "No blip could be scored"),
        (a_drive(6.0), NO_DRILLS, "Road 6.0 points"),
        (
            a_drive(6.0),
            (DrillComparison("trail", 0, None), DrillComparison("blip", 40, 7.0, 10)),
            "Road 6.0 points",
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 3, 5.0, 1), DrillComparison("blip", 40, 7.0, 10)),
            "Drill 5.0 points, road 6.0",
        ),
    ],
)
def test_road_stands_beside_what_is_measured_alike_alone(
    drive: Drive, beside: tuple[DrillComparison, ...], said: str
) -> None:
    assert short_words(drive, beside) == said


@pytest.mark.parametrize(
    ("drive", "beside", "said"),
    [
        (
            a_drive(6.0),
            NO_DRILLS,
            [
                "No drill to compare with yet. A day's first 5 repetitions are left out.",
            ],
        ),
        (
            a_drive(11.0, 13.0, None),
            (
                DrillComparison("trail", 40, 7.0, 10, 5.0, 3.2, 6.9),
                DrillComparison("blip", 9, 11.5, 1),
            ),
            [
                "Easing off, measured as the road: 7.0 points (40 on the last 10 such days). "
                "On the road 5.0 more, likely 3.2 to 6.9.",
                "Single blips, measured otherwise (against what was held): 11.5 points "
                "(9 on 1 day).",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 40, 9.0, 4, -3.0, -4.1, -1.5), NO_DRILLS[1]),
            [
                "Easing off, measured as the road: 9.0 points (40 on 4 days). "
                "On the road 3.0 less, likely 1.5 to 4.1.",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 40, 6.0, 4, 0.0, -1.1, 1.5), NO_DRILLS[1]),
            [
                "Easing off, measured as the road: 6.0 points (40 on 4 days). "
                "No difference that can be told: likely 1.1 less to 1.5 more.",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 30, 9.0, 2), NO_DRILLS[1]),
            [
                "Easing off, measured as the road: 9.0 points (30 on 2 days). "
                "Too few to compare: 1 blip on the road, 8 are needed.",
            ],
        ),
        (
            a_drive(6.0),
            (NO_DRILLS[0], DrillComparison("blip", 30, 9.0, 2)),
            [
                "Single blips, measured otherwise (against what was held): 9.0 points "
                "(30 on 2 days).",
                NOT_EASED,
            ],
        ),
    ],
)
def test_each_kind_of_drill_has_a_line(
    drive: Drive, beside: tuple[DrillComparison, ...], said: list[str]
) -> None:
    assert transfer_words(drive, beside) == said


def test_the_difference_told_is_that_of_the_two_figures_told() -> None:
    road, beside = a_drive(12.36), (DrillComparison("trail", 8, 8.14, 2, 4.22, 4.2, 4.23),)

    assert short_words(road, beside) == "Drill 8.1 points, road 12.4"
    assert transfer_words(road, beside) == [
        "Easing off, measured as the road: 8.1 points (8 on 2 days). "
        "On the road 4.3 more, likely 4.2 to 4.3.",
    ]


def test_nothing_is_compared_while_the_drills_are_measured_again() -> None:
    waits = Remeasuring(3, 9)

    assert transfer_words(a_drive(6.0), (), waits) == [waits.words]
