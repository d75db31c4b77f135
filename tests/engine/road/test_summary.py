"""The blips of a drive in a few figures, and in words."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.road.blips import RoadBlip
from engine.road.summary import BlipsAtPlace, Middle, summary_of
from engine.road.summary_words import early_words, summary_words


def blip(
    dip: float | None = 8.0,
    place: int = 1,
    *,
    peak: float = 60.0,
    carry: float = -3.0,
    early: float | None = None,
    reason: str = "",
) -> RoadBlip:
    """A blip, scored if it has a dip."""
    cost = None if dip is None else dip / 8
    moved = None if dip is None else carry
    return RoadBlip(1, place, 1.0, peak, dip, 1.0, moved, early, reason, extra_distance=cost)


def test_the_typical_dip_and_blip_are_of_the_scored_blips() -> None:
    blips = [blip(4.0, peak=50.0), blip(6.0, peak=70.0), blip(None, peak=99.0, reason="why")]

    found = summary_of([*blips, blip(12.0, peak=60.0)])

    assert (found.blips, found.scored, found.reasons) == (4, 3, (("why", 1),))
    assert found.typical == Middle(3, 6.0, 5.0, 9.0)
    assert (found.peak, found.worst, found.extra_distance) == (60.0, 12.0, 1.5)


@given(st.lists(st.floats(0, 60), min_size=1, max_size=60))
def test_the_middle_half_lies_about_the_median(dips: list[float]) -> None:
    middle = summary_of([blip(dip) for dip in dips]).typical

    assert middle is not None
    assert middle.low <= middle.dip <= middle.high
    assert middle.dip == pytest.approx(float(np.median(dips)))


def test_no_place_in_the_run_is_told_from_fewer_than_eight_blips() -> None:
    blips = [blip(5.0, 1)] * 8 + [blip(9.0, 2)] * 8 + [blip(7.0, 3)] * 7 + [blip(None, 3)]

    assert summary_of(blips).places == (BlipsAtPlace(1, 8, 5.0), BlipsAtPlace(2, 8, 9.0))
    assert [at.place for at in summary_of([*blips, blip(7.0, 3)]).places] == [1, 2, 3]


def test_one_place_alone_is_held_against_none() -> None:
    assert summary_of([blip(5.0, 1)] * 20 + [blip(9.0, 2)] * 7).places == ()


def test_blips_without_a_score_have_no_typical_dip() -> None:
    found = summary_of([blip(None, reason="why"), blip(None, reason="why")])

    assert (found.typical, found.peak, found.worst, found.extra_distance) == (None,) * 4
    assert summary_words(found, 9.0) == ["2 blips in 9 s, 0 scored. 2 not scored: why."]


def test_the_words_begin_with_the_number_of_blips_and_the_typical_dip() -> None:
    blips = [blip(5.0, 1, early=0.0)] * 8 + [blip(9.0, 2, early=7.5)] * 8
    unscored = [blip(None, reason="a gap"), blip(None, reason="too little"), blip(None, reason="")]
    unscored[2] = replace(unscored[2], reason="a gap")

    said = summary_words(summary_of([*blips, *unscored]), 754.4)

    assert said == [
        "19 blips in 12 min 34 s, 16 scored. 2 not scored: a gap. 1 not scored: too little.",
        "7.0 points typical dip, the middle half 5.0 to 9.0. 9.0 is the worst.",
        "60 % throttle is the typical blip.",
        "3.0 points typically eased off over a blip, taken as intended.",
        "8 of 16 blips rolled early: the brake left before the throttle. "
        "7.5 points were typically gone by then, counted in the dip.",
        "Dip by place in the run: first 5.0 (8), second 9.0 (8).",
        "At most 1.1 m longer to stop after one blip, estimated.",
    ]


def test_without_blips_that_is_all_that_is_said() -> None:
    assert summary_words(summary_of([]), 5.0) == ["No blips with the brake on were found."]


@pytest.mark.parametrize(
    ("blips", "said"),
    [
        ([blip(None, reason="why")], []),
        (
            [blip(carry=-3.0, early=5.0), blip(carry=-4.0, early=-2.0), blip(carry=-9.0)],
            [
                "4.0 points typically eased off over a blip, taken as intended.",
                "None of 2 blips rolled early. 1 more cannot be told: too close to another.",
            ],
        ),
        (
            [blip(carry=0.04)],
            ["The brake typically did not change over a blip."],
        ),
        (
            [blip(carry=2.5, early=8.0), blip(carry=2.5, early=11.0), blip(carry=2.5, early=5.0)],
            [
                "2.5 points typically pressed more over a blip, taken as intended.",
                "2 of 3 blips rolled early: the brake left before the throttle. "
                "9.5 points were typically gone by then, counted in the dip.",
            ],
        ),
    ],
)
def test_meant_changes_and_early_rolls_are_told(blips: list[RoadBlip], said: list[str]) -> None:
    assert early_words(summary_of(blips)) == said
