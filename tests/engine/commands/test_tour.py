"""The tour of the demo, and the demo of every single level, without a window."""

import json

import pytest

from drills.kinds import KINDS
from engine.ladder.level_files import SHIPPED, load_levels
from tests.engine.commands.command import Captured, output_of, refused

LEVELS = load_levels([SHIPPED])


def lines(capsys: Captured, *options: str) -> list[dict[str, object]]:
    """Lines of a headless demo as data."""
    output = output_of(capsys, "demo", "--headless", "--json", *options)
    return [json.loads(line) for line in output.splitlines()]


def test_the_tour_shows_every_kind_once_and_both_halves_of_a_pair(capsys: Captured) -> None:
    played = lines(capsys, "--tour", "--skill", "0.8")

    counted = [line for line in played if line["score"] is not None]
    kinds = {level.id: level.kind.name for level in LEVELS}
    pairs = [name for name, kind in KINDS.items() if kind.in_pairs]
    assert sorted(kinds[str(line["level"])] for line in counted) == sorted([*KINDS, *pairs])
    drawn = [kinds[str(line["level"])] for line in counted if "drawn" in line]
    assert drawn == ["mixed"]
    others = [line for line in counted if "drawn" not in line]
    assert all(line["kind"] == kinds[str(line["level"])] for line in others)


def test_the_same_seed_shows_the_same_tour(capsys: Captured) -> None:
    assert lines(capsys, "--tour", "--seed", "4") == lines(capsys, "--tour", "--seed", "4")


def test_a_tour_with_a_level_is_refused(capsys: Captured) -> None:
    error = refused(capsys, "demo", "--tour", "--level", "blip-1-first")

    assert error == "stillfoot: --level: expected none with --tour, found 'blip-1-first'\n"


@pytest.mark.parametrize("level", [level.id for level in LEVELS])
def test_the_demo_plays_any_level(capsys: Captured, level: str) -> None:
    played = lines(capsys, "--level", level, "--reps", "1", "--skill", "0.9")

    assert {line["level"] for line in played} == {level}
    assert played[-1]["score"] is not None
