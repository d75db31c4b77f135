"""The tour of the demo, and the demo of every single level, without a window."""

import json

import pytest

from drills.kinds import KINDS
from engine.ladder.level_files import SHIPPED, load_levels
from tests.engine.commands.command import Captured, refused, told

LEVELS = load_levels([SHIPPED])


def lines(capsys: Captured, *options: str) -> list[dict[str, object]]:
    """Lines of a headless demo as data."""
    said = told(capsys, "demo", "--headless", "--json", *options)
    return [json.loads(line) for line in said.splitlines()]


def test_the_tour_shows_one_repetition_of_every_kind_that_counts(capsys: Captured) -> None:
    shown = lines(capsys, "--tour", "--skill", "0.8")

    counted = [line for line in shown if line["score"] is not None]
    played = {level.id: level.kind.name for level in LEVELS}
    assert [played[str(line["level"])] for line in counted] == list(KINDS)
    assert [line["kind"] for line in counted][:-1] == list(KINDS)[:-1]
    assert "drawn" in counted[-1]


def test_the_same_seed_shows_the_same_tour(capsys: Captured) -> None:
    assert lines(capsys, "--tour", "--seed", "4") == lines(capsys, "--tour", "--seed", "4")


def test_a_tour_with_a_level_is_refused(capsys: Captured) -> None:
    said = refused(capsys, "demo", "--tour", "--level", "blip-1-first")

    assert said == "stillfoot: --level: expected none with --tour, found 'blip-1-first'\n"


@pytest.mark.parametrize("level", [level.id for level in LEVELS])
def test_the_demo_plays_any_level(capsys: Captured, level: str) -> None:
    shown = lines(capsys, "--level", level, "--reps", "1", "--skill", "0.9")

    assert {line["level"] for line in shown} == {level}
    assert shown[-1]["score"] is not None
