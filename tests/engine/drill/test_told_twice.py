"""What a reveal tells is what the trace says by the page of definitions, written a second time."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest

from drills.deviation import Deviation
from drills.level import Level
from drills.score import WEIGHED
from engine.store import Record
from tests.drills.kinds.agreement import leaning_of
from tests.engine.drill.told_twice import Facts, facts
from tests.engine.shipped_played import BY_ID, repetitions

NEAR = 20
"""Largest distance in time of a mark from its place, in ms."""
SAME = 0.2
"""Largest difference of two deviations that are the same place, in points."""
SKILLS = (0.0, 0.5, 0.95)
SIGNED = {"offset", "base_error"}
UPWARD = {"surge", "rebound", "overshoot"}
LIMITS: dict[str, tuple[dict[str, float], ...]] = {
    "still-2a-squeeze": ({"overshoot": 4.0, "offset": 3.0}, {"offset": 12.0}),
    "blip-2-closer": (
        {"dip": 15.0, "surge": 8.0, "offset": 4.0},
        {"surge": 3.0, "offset": 9.0},
        {"rebound": 4.0, "dip": 60.0},
        {"base_error": 2.0},
    ),
    "run-2-three": (
        {"dip": 18.0, "surge": 8.0, "offset": 5.0},
        {"rebound": 3.0, "dip": 60.0},
        {"offset": 4.0, "base_error": 3.0},
    ),
    "clutch-2-quiet": ({"dip": 14.0, "surge": 6.0, "offset": 4.0}, {"offset": 3.0}),
    "ease-2-quick": ({"ramp_worst": 8.0},),
    "ease-5-two": ({"dip": 8.0, "ramp_worst": 9.0}, {"surge": 2.0}),
}
"""Limits that one level after another is played with, by its id."""
OPPOSITE = {-1.0: r"\bheav|\brose|above|past", 1.0: r"\blight|\blost|missing|all the way back"}
"""Words of the other way, by the way that the brake went: -1 light, 1 heavy."""
ORDINALS = ("first", "second", "third")

each = pytest.mark.parametrize("name", LIMITS)


@dataclass(frozen=True)
class Told:
    """A repetition that was weighed, and what the page says of it."""

    level: Level
    record: Record
    picture: Deviation
    facts: Facts
    worst: str
    """The measure that decided, by the page."""

    @property
    def deviation(self) -> float:
        """Value of what decided, with the side on which it lies; by the page."""
        return self.facts.places[self.worst][1]


@cache
def played(name: str) -> tuple[Told, ...]:
    """Weighed repetitions of a level by simulated feet, with each of its limits."""
    return tuple(told for limits in LIMITS[name] for told in _with(name, limits))


def _with(name: str, limits: dict[str, float]) -> Iterator[Told]:
    level = replace(BY_ID[name], limits=limits)
    for skill in SKILLS:
        for shown in repetitions(level, skill, 17, 4):
            if shown.record.verdict.reason in WEIGHED and shown.deviation is not None:
                found = facts(level, shown.record)
                if found is not None:
                    worst = found.furthest(limits)
                    yield Told(level, shown.record, shown.deviation, found, worst)


@each
def test_what_failed_most_or_came_nearest_is_what_is_told(name: str) -> None:
    for told in played(name):
        level, verdict = told.level, told.record.verdict
        limit, value = level.limits[told.worst], told.facts.values[told.worst]
        figure = level.kind.headline(level, verdict)

        assert verdict.worst == told.worst
        assert level.kind.word(level, verdict) == ("Clean" if verdict.clean else "Not clean")
        assert verdict.clean == all(
            abs(told.facts.values[one]) <= at for one, at in level.limits.items()
        )
        assert level.kind.remark(level, verdict).topic in (
            {f"{told.worst}, clean"} if verdict.clean else {told.worst, "early roll"}
        )
        assert figure is not None
        decimals = len(figure.value.partition(".")[2])
        assert float(figure.value) == pytest.approx(abs(value), abs=0.51 * 10**-decimals)
        assert float(re.findall(r"[\d.]+", figure.words)[-1]) == limit
        if told.worst in SIGNED and float(figure.value):
            assert ("light" if value < 0 else "heavy") in figure.words


@each
def test_the_mark_is_where_the_trace_has_it(name: str) -> None:
    for told in played(name):
        worst, (at, deviation) = told.picture.worst, told.facts.places[told.worst]
        if not told.facts.values[told.worst]:
            assert worst is None
            continue
        is_early = told.level.kind.name == "trail" and told.record.verdict.amount("early") > 5
        if is_early:
            continue
        zero = told.facts.cue if told.picture.zero == "target" else told.facts.zero

        assert worst is not None
        assert abs(1000 * worst.at - (at - zero)) <= NEAR
        assert worst.deviation == pytest.approx(deviation, abs=SAME)


@each
def test_the_limit_drawn_holds_the_mark_or_does_not(name: str) -> None:
    for told in played(name):
        decides, worst = told.picture.decides, told.picture.worst
        if worst is None or decides is None:
            continue
        limit = told.level.limits[told.worst]
        low = None if told.worst in UPWARD else -limit
        high = None if told.worst == "dip" else limit

        assert (decides.low, decides.high) == (low, high)
        assert decides.during[0] - 0.002 <= worst.at <= decides.during[1] + 0.002
        assert (abs(told.deviation) <= limit) == (
            (-np.inf if low is None else low) <= worst.deviation <= (high or np.inf)
        )


@each
def test_bubble_and_sentence_go_the_way_of_the_brake(name: str) -> None:
    for told in played(name):
        level, verdict = told.level, told.record.verdict
        lean, remark = level.kind.lean(level, verdict), level.kind.remark(level, verdict)
        if verdict.clean:
            assert not lean
        elif told.worst != "ramp_worst":
            assert lean == np.sign(told.deviation)
            assert leaning_of(remark.sentence()) == lean
            assert not any(re.search(OPPOSITE[lean], said) for said in remark.sentences)


@pytest.mark.parametrize("name", ["run-2-three", "ease-5-two"])
def test_a_blip_that_is_named_for_its_dip_is_the_deepest(name: str) -> None:
    named = 0
    for told in played(name):
        verdict, dips = told.record.verdict, told.facts.dips
        for said in told.level.kind.remark(told.level, verdict).sentences:
            found = re.search(rf"\b({'|'.join(ORDINALS)}) blip|of the two", said)
            if told.worst == "dip" and found and found[1]:
                named += 1
                assert dips.index(max(dips)) == ORDINALS.index(found[1]), said

    assert named >= 4


def test_many_measures_decide_and_both_ways() -> None:
    told = [one for name in LIMITS for one in played(name)]
    decided = {(one.worst, one.record.verdict.clean) for one in told}

    assert len(told) > 100
    assert len(decided) >= 12
    assert {np.sign(one.deviation) for one in told if one.worst in SIGNED} >= {-1, 1}
