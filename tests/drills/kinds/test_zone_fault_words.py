"""What is said of the worst part of a zone: the words for each side of every part."""

from dataclasses import replace

import pytest

from drills.kinds.zone_faults import BEFORE_THE_KNOCKS, FAULTS
from drills.kinds.zone_words import PACE
from drills.remark import Remark
from drills.score import Reason, anticipation, weigh
from tests.drills.kinds.zone_case import ZONE

Measures = dict[str, float | None]


def told(name: str, measures: Measures) -> Remark:
    """Remark on a zone that failed by one measure alone."""
    level = replace(ZONE, limits={name: 0.1})
    verdict = weigh(measures, level.limits)
    assert verdict.over == (name,)
    return level.kind.comment(level, verdict)


@pytest.mark.parametrize(
    ("name", "value", "beside", "key"),
    [
        ("brake_on", 0.5, {}, "braked late"),
        ("brake_on", -0.5, {}, "braked soon"),
        ("rise", 0.9, {}, "slow to the peak"),
        ("rise", None, {}, "never at the peak"),
        ("peak_error", 12.0, {}, "past the peak"),
        ("peak_error", -12.0, {}, "short of the peak"),
        ("line_error", 9.0, {"line_worst": 15.0}, "strayed over"),
        ("line_error", 9.0, {"line_worst": -15.0}, "strayed under"),
        ("line_error", None, {}, "line_error unjudged"),
        ("line_worst", None, {}, "line_worst unjudged"),
        ("line_worst", 12.0, {"off_at": PACE}, "over the line"),
        ("line_worst", 12.0, {"off_at": PACE + 0.01}, "down late"),
        ("line_worst", 12.0, {"off_at": None}, "never off"),
        ("line_worst", -12.0, {"off_at": -PACE}, "under the line"),
        ("line_worst", -12.0, {"off_at": -PACE - 0.01}, "down too soon"),
        ("line_worst", -12.0, {"off_at": None}, "under the line"),
        ("reversals", None, {}, "reversals unjudged"),
        ("reversals", 3.0, {}, "reversals"),
        ("off_at", 0.5, {}, "off late"),
        ("off_at", -0.5, {}, "off early"),
        ("off_at", None, {}, "never off"),
    ],
)
def test_a_zone_that_failed_is_told_by_its_worst_part_and_side(
    name: str, value: float | None, beside: Measures, key: str
) -> None:
    assert told(name, {name: value, **beside}) == Remark(name, *FAULTS[key])


@pytest.mark.parametrize("late", [0.3, -0.3])
@pytest.mark.parametrize(("place", "word"), [(1, "first"), (2, "second"), (3, "third")])
def test_the_blip_farthest_from_its_click_is_named_with_its_side(
    place: int, word: str, late: float
) -> None:
    # The others are off to the other side, and less far.
    each: Measures = {f"lateness_{other}": -late / 2 for other in (1, 2, 3) if other != place}

    remark = told("lateness", {"lateness": late, f"lateness_{place}": late, **each})

    said = remark.sentences[0]
    assert said.startswith(f"The {word} blip")
    assert ("late" in said, "too soon" in said) == (late > 0, late < 0)


@pytest.mark.parametrize(("place", "word"), [(1, "first"), (2, "second"), (3, "third")])
def test_the_blip_that_took_the_most_is_named_of_a_dip(place: int, word: str) -> None:
    each: Measures = {f"dip_{other}": 20.0 if other == place else 6.0 for other in (1, 2, 3)}

    remark = told("dip", {"dip": 20.0, "dip_at": 0.1, **each})

    assert all(f"{word} blip" in said for said in remark.sentences)


def test_a_pedal_that_did_not_wait_for_the_count_in_is_told_of_the_first_knock() -> None:
    remark = ZONE.kind.remark(ZONE, anticipation(-0.9))

    assert remark == Remark(Reason.ANTICIPATION.value, *BEFORE_THE_KNOCKS)
    assert all("first knock" in said for said in remark.sentences)
