"""Word, bubble, sentence, figures and picture agree with each other in every kind of drill."""

from functools import cache

import numpy as np
import pytest

from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.score import Reason
from engine.drill.reveal_figures import figures
from tests.drills.kinds.agreement import contradictions, leaning_of, wrong_amount
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, repetitions

COUNT = 8
PLAYED = [
    (name, skill)
    for name in ("still-2c-squeeze-any", "run-3-even", "ease-5-two", "clutch-2-quiet", "mix-2-five")
    for skill in (0.25, 0.75)
]
PASSED = ("still-3-dark", "still-2c-squeeze-any", "blip-3-good", "run-2-three", "ease-3-one")

each = pytest.mark.parametrize(("name", "skill"), PLAYED)


@cache
def played(name: str, skill: float) -> list[tuple[Level, Shown]]:
    """Repetitions of a level by a simulated foot, each with the level that was played."""
    level, seed = BY_ID[name], 23
    if level.kind.name != "mixed":
        return [(level, repetition) for repetition in repetitions(level, skill, seed, COUNT)]
    rng, found = np.random.default_rng(seed), []
    drawn: Level | None = None
    for number in range(COUNT):
        drawn = level.kind.draw(level, [BY_ID[name] for name in PASSED], drawn, rng)
        found += [(drawn, repetition) for repetition in repetitions(drawn, skill, seed + number, 1)]
    return found


@each
def test_all_parts_of_a_reveal_agree(name: str, skill: float) -> None:
    for level, repetition in played(name, skill):
        verdict = repetition.record.verdict
        if verdict.void:
            continue
        said, lean = level.kind.sentence(level, verdict), level.kind.lean(level, verdict)
        row = figures(level, verdict, repetition.record.sampling)

        assert (lean or 0) == (0 if verdict.clean else leaning_of(said)), said
        topic = level.kind.remark(level, verdict).topic
        assert topic.endswith(", clean") == verdict.clean, said
        assert any(figure.failed for figure in row) != verdict.clean, said
        assert (int(verdict.points) >= 50) == verdict.clean, said
        assert not wrong_amount(level, verdict, said), said
        assert "%" not in said
        assert contradictions(level, verdict, repetition.deviation) == [], said


@each
def test_the_first_figure_is_what_the_sentence_is_about(name: str, skill: float) -> None:
    for level, repetition in played(name, skill):
        verdict = repetition.record.verdict
        if verdict.reason is not Reason.OVER_LIMIT:
            continue
        first = figures(level, verdict, repetition.record.sampling)[1]

        assert first.failed
        assert verdict.worst in verdict.over
        assert first.name == CATALOGUE[verdict.worst].label
        assert first.note == f"{level.limits[verdict.worst]:g} allowed"
        number = first.value.split()[0]
        assert number == "never" or abs(float(number)) > level.limits[verdict.worst]


def test_the_simulated_feet_have_clean_and_missed_repetitions_in_every_kind() -> None:
    ended = [
        (level.kind.name, repetition.record.verdict)
        for row in PLAYED
        for level, repetition in played(*row)
    ]

    for kind in ("squeeze", "run", "trail", "clutch"):
        clean = [verdict.clean for name, verdict in ended if name == kind]
        assert 0 < sum(clean) < len(clean), kind
    assert len({name for name, _ in ended[-2 * COUNT :]}) >= 3
    assert len({verdict.reason for _, verdict in ended}) >= 4
