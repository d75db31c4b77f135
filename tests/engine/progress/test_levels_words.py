"""Sentences of the page of the levels on personal limits."""

from __future__ import annotations

from dataclasses import replace

from engine.practice.personal_limit import PersonalLimit
from engine.progress.charts_levels import STATES, levels_words
from engine.progress.progress import Progress
from tests.engine.ladder.stages import made_levels
from tests.engine.progress.pictures import progress

LEVELS = made_levels()
PLAYED = progress(LEVELS, 30)
RETAINED = [rung.level for one in PLAYED.stages for rung in one.rungs if rung.state in STATES[1]]
OTHER = next(
    rung.level for one in PLAYED.stages for rung in one.rungs if rung.state not in STATES[1]
)
EARLY = PersonalLimit((0.5,) * 12)


def limits(*factors: float) -> Progress:
    """Progress with personal limits of the first retained levels, and of one that is not."""
    found = {
        level.id: PersonalLimit((factor,) * 36, 0.3)
        for level, factor in zip(RETAINED, factors, strict=False)
    }
    early = {RETAINED[len(factors)].id: EARLY, OTHER.id: PersonalLimit((0.1,) * 36)}
    return replace(PLAYED, personal=found | early)


def said(told: Progress) -> list[str]:
    """The sentences of the page that are on personal limits."""
    before = levels_words(replace(told, personal={})).sentences
    return [text for text in levels_words(told).sentences if text not in before]


def test_the_lowest_and_the_highest_personal_limits_are_named() -> None:
    assert said(limits(0.62, 0.41, 0.83)) == [
        f"Personal limits: 3 of {len(RETAINED)} retained levels.",
        f"Lowest: {RETAINED[1].title}, 0.41 of the limit, best 0.30.",
        f"Highest: {RETAINED[2].title}, 0.83 of the limit, best 0.30.",
    ]


def test_a_single_one_is_named_once_and_none_not_at_all() -> None:
    assert said(limits(0.62)) == [
        f"Personal limits: 1 of {len(RETAINED)} retained levels.",
        f"Lowest: {RETAINED[0].title}, 0.62 of the limit, best 0.30.",
    ]
    assert said(limits()) == []
