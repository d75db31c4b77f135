"""Word, bubble, sentence, figures and picture of a reveal agree with each other."""

import re
from functools import cache

import pytest

from drills.level import Level
from drills.score import Verdict
from engine.drill.reveal_figures import figures
from tests.drills.kinds.agreement import contradictions, leaning_of
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, repetitions

PLAYED = [
    (name, skill)
    for name in ("still-1-light", "still-3-dark", "blip-0-roll", "blip-1-first", "blip-3-good")
    for skill in (0.0, 0.3, 0.7)
]

each = pytest.mark.parametrize(("name", "skill"), PLAYED)


@cache
def played(name: str, skill: float) -> tuple[Level, list[Shown]]:
    """Repetitions of a level by a simulated foot that count."""
    played_repetitions = repetitions(BY_ID[name], skill, 17, 10)
    return BY_ID[name], [
        repetition for repetition in played_repetitions if not repetition.record.verdict.void
    ]


def sentence_of(level: Level, verdict: Verdict) -> str:
    """Sentence about a verdict."""
    return level.kind.sentence(level, verdict)


@each
def test_the_bubble_leans_the_way_the_sentence_says(name: str, skill: float) -> None:
    level, played_repetitions = played(name, skill)

    for repetition in played_repetitions:
        verdict = repetition.record.verdict
        lean, said = level.kind.lean(level, verdict), sentence_of(level, verdict)
        assert (lean or 0) == (0 if verdict.clean else leaning_of(said)), said


@each
def test_only_repetitions_that_are_not_clean_have_a_marked_figure(name: str, skill: float) -> None:
    level, played_repetitions = played(name, skill)

    for repetition in played_repetitions:
        verdict = repetition.record.verdict
        row = figures(level, verdict, repetition.record.sampling)
        marked = [figure for figure in row if figure.failed]
        assert bool(marked) != verdict.clean
        assert (int(verdict.points) >= 50) == verdict.clean


@each
def test_a_number_in_the_sentence_is_that_of_its_figure(name: str, skill: float) -> None:
    level, played_repetitions = played(name, skill)

    for repetition in played_repetitions:
        verdict = repetition.record.verdict
        said = re.search(
            r"(?:fell|rose|ended|came back) (\d+(?:\.\d+)?) points", sentence_of(level, verdict)
        )
        if said is None:
            continue
        first = figures(level, verdict, repetition.record.sampling)[1]
        assert float(said[1]) == abs(float(first.value.split()[0]))


@each
def test_the_curve_crosses_the_limit_that_failed_and_no_limit_where_it_is_clean(
    name: str, skill: float
) -> None:
    level, played_repetitions = played(name, skill)

    for repetition in played_repetitions:
        verdict, picture = repetition.record.verdict, repetition.deviation
        if picture is None or not picture.is_measured or level.kind.name != "blip":
            continue
        for bound, failed in (("dip", "dip"), ("overshoot", "surge")):
            drawn = next(each for each in picture.bounds if each.label.startswith(bound))
            start, stop = drawn.during
            seen = picture.deviation[(picture.time >= start) & (picture.time < stop)]
            low = drawn.low is not None and seen.min() < drawn.low
            high = drawn.high is not None and seen.max() > drawn.high
            assert (low or high) == (failed in verdict.over)


@each
def test_no_drawn_limit_contradicts_the_verdict(name: str, skill: float) -> None:
    level, played_repetitions = played(name, skill)

    for repetition in played_repetitions:
        assert contradictions(level, repetition.record.verdict, repetition.deviation) == []


def test_the_simulated_feet_have_both_clean_and_missed_repetitions() -> None:
    verdicts = [repetition.record.verdict for row in PLAYED for repetition in played(*row)[1]]

    assert len(verdicts) > 130
    assert 20 < sum(verdict.clean for verdict in verdicts) < len(verdicts) - 40
    assert len({verdict.reason for verdict in verdicts}) >= 4
