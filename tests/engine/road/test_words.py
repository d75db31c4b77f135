"""A drive held against the drills in words."""

from datetime import UTC, datetime

import pytest

from engine.practice.remeasuring import Remeasuring
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.transfer import DrillComparison
from engine.road.words import NOT_EASED, lead_words, short_words, transfer_words

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
        (a_drive(6.0), NO_DRILLS, "6.0 points on the road"),
        (
            a_drive(6.0),
            (DrillComparison("trail", 0, None), DrillComparison("blip", 40, 7.0, 10)),
            "6.0 points on the road",
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 3, 5.0, 1), DrillComparison("blip", 40, 7.0, 10)),
            "5.0 points in the drills, 6.0 on the road",
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
                "7.0 points easing off, measured the same way (40 on 10 days). "
                "5.0 more on the road, likely 3.2 to 6.9.",
                "11.5 points in single drill blips (9 on 1 day). "
                "Those are measured differently: against what was held.",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 40, 9.0, 4, -3.0, -4.1, -1.5), NO_DRILLS[1]),
            [
                "9.0 points easing off, measured the same way (40 on 4 days). "
                "3.0 less on the road, likely 1.5 to 4.1.",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 40, 6.0, 4, 0.0, -1.1, 1.5), NO_DRILLS[1]),
            [
                "6.0 points easing off, measured the same way (40 on 4 days). "
                "The road cannot be told apart: likely 1.1 less to 1.5 more.",
            ],
        ),
        (
            a_drive(6.0),
            (DrillComparison("trail", 30, 9.0, 2), NO_DRILLS[1]),
            [
                "9.0 points easing off, measured the same way (30 on 2 days). "
                "Too few to compare: 1 blip on the road, 8 are needed.",
            ],
        ),
        (
            a_drive(6.0),
            (NO_DRILLS[0], DrillComparison("blip", 30, 9.0, 2)),
            [
                "9.0 points in single drill blips (30 on 2 days). "
                "Those are measured differently: against what was held.",
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

    assert short_words(road, beside) == "8.1 points in the drills, 12.4 on the road"
    assert transfer_words(road, beside) == [
        "8.1 points easing off, measured the same way (8 on 2 days). "
        "4.3 more on the road, likely 4.2 to 4.3.",
    ]


def test_nothing_is_compared_while_the_drills_are_measured_again() -> None:
    waits = Remeasuring(3, 9)

    assert transfer_words(a_drive(6.0), (), waits) == [waits.words]


@pytest.mark.parametrize(
    ("more", "low", "high", "lead"),
    [
        (5.0, 3.2, 6.9, "5.0 points more than in your drills, likely 3.2 to 6.9."),
        (-3.0, -4.1, -1.5, "3.0 points less than in your drills, likely 1.5 to 4.1."),
        (0.5, -1.1, 1.5, "Road and drills cannot be told apart."),
    ],
)
def test_the_lead_sentence_tells_a_difference_only_where_it_is_sure(
    more: float, low: float, high: float, lead: str
) -> None:
    drills = DrillComparison("trail", 40, 7.0, 4, more, low, high)

    assert lead_words(a_drive(7.0 + more), (drills,)) == lead
