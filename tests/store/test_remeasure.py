"""What repetitions are measured again from: as it was stored, or refused with its place."""

import sqlite3
from contextlib import closing
from pathlib import Path

import numpy as np
import pytest

from engine.store import open_history
from engine.store.history import FILE
from engine.store.remeasure import read_stored
from engine.store.repetitions import add_repetition
from tests.made import on_grid, record


def stored(folder: Path, damage: str = "") -> Path:
    """A history file with two repetitions, the second without a trace; some of it changed."""
    with open_history(folder, []) as history:
        add_repetition(history, record(cues=(2_300_000_000, 3_100_000_000)))
        add_repetition(history, record(trace=None, drawn="a-hold"))
    path = folder / FILE
    if damage:
        with closing(sqlite3.connect(path)) as file, file:
            file.execute(damage)
    return path


def test_a_repetition_comes_back_with_its_trace_its_cues_and_when_it_went_dark(
    tmp_path: Path,
) -> None:
    whole = record()
    assert whole.trace is not None

    (_, first), (_, second) = read_stored(stored(tmp_path), 1, 2)

    assert first is not None
    assert second is not None
    assert (first.number, first.level, first.kind) == (1, "a-blip", "blip")
    assert (first.target, first.tolerance, first.reason) == (60.0, 15.0, "over limit")
    assert first.measures == {"dip": 19.5, "settle": None}
    assert first.done is not None
    assert (first.done.began, first.done.cues) == (800_000_000, (2_300_000_000, 3_100_000_000))
    assert np.array_equal(first.done.trace.brake, on_grid(whole.trace).brake)
    assert (second.number, second.level, second.done) == (2, "a-hold", None)


@pytest.mark.parametrize("cues", ["7", "[1, 2.5]", '["1"]', "null"])
def test_a_repetition_whose_cues_are_no_whole_numbers_is_left_out(
    tmp_path: Path, cues: str
) -> None:
    path = stored(tmp_path, f"UPDATE repetition SET cues_ns = '{cues}' WHERE id = 1")

    (number, first), (_, second) = read_stored(path, 1, 2)

    assert (number, first) == (1, None)
    assert second is not None


def test_a_repetition_with_a_text_that_is_not_utf8_is_left_out(tmp_path: Path) -> None:
    path = stored(tmp_path, "UPDATE repetition SET reason = CAST(x'ff' AS TEXT) WHERE id = 1")

    (_, first), (_, second) = read_stored(path, 1, 2)

    assert first is None
    assert second is not None
