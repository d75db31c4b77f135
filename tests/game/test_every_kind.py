"""One repetition of every kind in a real window, with pedals whose every movement is known."""

import sqlite3

import pytest

from engine.store import History
from engine.store.history import FILE
from tests.game.kinds import BLIP, KINDS, Scripted
from tests.game.plays import Day, Plays

GRID = 0.001  # s, a grid step
READ = 0.002  # s, as finely as the loop reads


def numbers(day: Day, level: str) -> list[int]:
    """Repetitions of a level that count, by their numbers."""
    query = "SELECT id FROM repetition WHERE void = 0 AND level = ?"
    with sqlite3.connect(day.data / FILE) as database:
        return [number for (number,) in database.execute(query, (level,))]


def measures(day: Day, level: str) -> tuple[dict[str, float | None], float]:
    """The measures of the one repetition of a level, and what its times may be off by, in s."""
    [number] = numbers(day, level)
    with History(day.data) as history:
        interval = history.sampling(number).report_interval
        return history.measures(number), READ + GRID + (interval or 0.0)


def off(day: Day, level: str, scripted: Scripted) -> dict[str, tuple[float | None, float]]:
    """What was measured otherwise than it was made, with what that was."""
    found, times = measures(day, level)

    def differs(name: str, value: float, allowed: float) -> bool:
        was = found[name]
        return was is None or abs(was - value) > allowed + (times if 0 < allowed < 0.5 else 0.0)

    known = scripted.known.items()
    return {name: (found[name], value) for name, (value, by) in known if differs(name, value, by)}


def test_the_day_ends_well(plays: Plays) -> None:
    day = plays.day("every_kind")

    assert (day.ended.returncode, day.ended.stderr) == (0, "")


@pytest.mark.parametrize("scripted", KINDS, ids=lambda one: one.kind)
def test_a_repetition_is_measured_as_it_was_made(scripted: Scripted, plays: Plays) -> None:
    assert off(plays.day("every_kind"), scripted.id, scripted) == {}


def test_a_mixed_level_draws_the_one_blip_that_is_passed(plays: Plays) -> None:
    day = plays.day("every_kind")
    [number] = numbers(day, "known-mixed")

    with sqlite3.connect(day.data / FILE) as database:
        query = "SELECT kind, drawn FROM repetition WHERE id = ?"
        drawn = database.execute(query, (number,)).fetchone()

    assert off(day, "known-mixed", BLIP) == {}
    assert drawn == ("blip", "known-blip")


def test_every_repetition_was_clean(plays: Plays) -> None:
    with History(plays.day("every_kind").data) as history:
        counted = [result for result in history.results() if not result.void]

    assert [result.level for result in counted if not result.clean] == []
    assert len(counted) == len(KINDS) + 1
